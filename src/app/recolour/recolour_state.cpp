#include "app/recolour/recolour_state.h"

#include <algorithm>

namespace otherskein::app {

ColourSource sourceInForce(const RecolourState& state) {
    if (state.job == RecolourJob::Family && state.source == ColourSource::MyThreads) {
        return ColourSource::OneHue;
    }
    return state.source;
}

std::vector<ColourSource> sourcesOf(RecolourJob job) {
    switch (job) {
    case RecolourJob::Motifs:
        return {ColourSource::MyThreads, ColourSource::OneHue, ColourSource::Picture,
                ColourSource::Surprise};
    case RecolourJob::Family:
        return {ColourSource::OneHue, ColourSource::Picture, ColourSource::Surprise};
    case RecolourJob::Convert:
        break;
    }
    return {};
}

bool hasNewIdeas(const RecolourState& state) {
    return state.job != RecolourJob::Convert;
}

colourway::By partsOf(RecolourJob job) {
    return job == RecolourJob::Motifs ? colourway::By::Motif : colourway::By::Colour;
}

RecolourJob jobOf(const colourway::RecolourQuestion& question) {
    if (question.by == colourway::By::Motif) {
        return RecolourJob::Motifs;
    }
    return std::holds_alternative<colourway::AsCharted>(question.theme) ? RecolourJob::Convert
                                                                        : RecolourJob::Family;
}

namespace {

colourway::Theme themeOf(const RecolourState& state) {
    if (state.job == RecolourJob::Convert) {
        return colourway::AsCharted{};
    }
    switch (sourceInForce(state)) {
    case ColourSource::MyThreads:
        return colourway::FromThreads{};
    case ColourSource::OneHue:
        return colourway::HueFamily{state.hue, state.neutralsToo};
    case ColourSource::Picture:
        if (!state.pictureColours.empty()) {
            return colourway::FromPicture{state.pictureColours};
        }
        break;
    case ColourSource::Surprise:
        break;
    }
    return colourway::Surprise{};
}

} // namespace

colourway::RecolourQuestion questionOf(const RecolourState& state, const thread::Ground& ground,
                                       const std::map<std::size_t, colourway::Choice>& locks) {
    colourway::RecolourQuestion question;
    question.by = partsOf(state.job);
    question.theme = themeOf(state);
    question.colours = state.colours;
    question.floor = state.floor;
    question.ground = ground;
    question.filter.onlyStash =
        state.onlyStash || std::holds_alternative<colourway::FromThreads>(question.theme);
    question.blends = state.blends;
    question.seed = state.seed;
    question.locks = locks;
    return question;
}

RecolourState withQuestion(RecolourState state, const colourway::RecolourQuestion& question) {
    state.job = jobOf(question);
    state.onlyStash = question.filter.onlyStash;
    if (std::holds_alternative<colourway::FromThreads>(question.theme)) {
        state.source = ColourSource::MyThreads;
        state.onlyStash = false; // the source says so already
    } else if (const auto* family = std::get_if<colourway::HueFamily>(&question.theme)) {
        state.source = ColourSource::OneHue;
        state.hue = family->hue;
        state.neutralsToo = family->neutralsToo;
    } else if (const auto* picture = std::get_if<colourway::FromPicture>(&question.theme)) {
        state.source = ColourSource::Picture;
        if (state.pictureColours != picture->colours) {
            state.pictureColours = picture->colours;
            state.pictureName.clear();
        }
    } else if (std::holds_alternative<colourway::Surprise>(question.theme)) {
        state.source = ColourSource::Surprise;
    }
    state.colours = question.colours;
    state.floor = question.floor;
    state.blends = question.blends;
    state.seed = question.seed;
    return state;
}

RecolourJob usualJob(const chart::Chart& chart) {
    const auto stitched =
        std::ranges::count_if(chart.key, [](const chart::KeyRow& row) { return row.stitches > 0; });
    return stitched <= 1 ? RecolourJob::Motifs : RecolourJob::Family;
}

} // namespace otherskein::app
