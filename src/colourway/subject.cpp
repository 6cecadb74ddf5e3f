#include "colourway/recolour.h"

#include "colourway/key_threads.h"

namespace otherskein::colourway {

Choice chartedChoice(const chart::KeyRow& row, std::span<const thread::ShadeCard* const> cards) {
    Choice choice;
    Choice::Portion portion{row.card, {}, row.strands};
    if (const thread::Thread* known = threadOf(row, cards)) {
        portion.thread = *known;
        for (const thread::ShadeCard* card : cards) {
            if (portion.card.isEmpty() && thread::findThread(*card, row.code) == known) {
                portion.card = card->name;
            }
        }
    } else {
        portion.thread = thread::threadOfSrgb(row.code, row.name, row.pixel);
    }
    choice.lab = portion.thread.lab;
    choice.portions = {std::move(portion)};
    return choice;
}

std::shared_ptr<const Subject> subjectOf(const chart::Chart& chart, By by,
                                         const chart::MotifPlan& plan,
                                         std::span<const thread::ShadeCard* const> cards) {
    auto subject = std::make_shared<Subject>();
    subject->chart = chart;
    if (by == By::Motif) {
        subject->motifs = chart::findMotifs(chart.grid, plan);
        subject->parts = partsByMotif(chart, *subject->motifs);
    } else {
        subject->parts = partsByColour(chart);
    }
    std::vector<Choice> ofRows;
    for (const chart::KeyRow& row : chart.key) {
        ofRows.push_back(chartedChoice(row, cards));
    }
    for (const Part& part : subject->parts.parts) {
        subject->charted.push_back(ofRows[part.key]);
    }
    return subject;
}

chart::Chart workedChart(const Subject& subject, const Colourway& colourway) {
    return worked(subject.chart, subject.parts, subject.motifs ? &*subject.motifs : nullptr,
                  colourway);
}

} // namespace otherskein::colourway
