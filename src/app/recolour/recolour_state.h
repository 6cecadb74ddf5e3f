#pragma once

#include "colourway/recolour.h"
#include "workbox/store.h"

#include <QStringList>

#include <optional>

namespace otherskein::app {

/// What is done to the chart.
enum class RecolourJob {
    Motifs, ///< one colour into many: every motif may take a thread of its own
    Family, ///< another colour family: the rows of the key keep their lightness
    Convert ///< other threads: every row keeps its colour as nearly as other cards allow
};

/// Where the colours come from; converting takes them from the chart itself.
enum class ColourSource { MyThreads, OneHue, Picture, Surprise };

/// All that the Recolour place knows besides the workbox; the widgets are made from it. What is
/// taken, and which threads are locked, stands in the workbox as a colourway.
struct RecolourState {
    std::optional<workbox::ChartId> chart;
    std::optional<workbox::ColourwayId> colourway; ///< the kept one that is shown and changed
    RecolourJob job = RecolourJob::Motifs;
    ColourSource source = ColourSource::Surprise;
    double hue = 240; ///< CIELAB hue angle, degrees
    bool neutralsToo = false;
    QString pictureName;
    std::vector<colour::Lab> pictureColours;
    int colours = 0; ///< 0: as many as suit
    double floor = 12;
    bool onlyStash = false;
    bool blends = false;
    std::uint64_t seed = 1;
    QStringList cardsLeftOut; ///< names of cards that are not looked among
    bool more = false;        ///< the seldom used switches are open
    double divider = 0.5;     ///< share of the picture that shows the chart as charted

    bool operator==(const RecolourState&) const = default;
};

/// The source that counts for the state's job: a colour family is not made from a list of threads.
[[nodiscard]] ColourSource sourceInForce(const RecolourState& state);
/// The sources that a job offers, in the order of their buttons; none for converting.
[[nodiscard]] std::vector<ColourSource> sourcesOf(RecolourJob job);
/// Whether other seeds bring other colourways.
[[nodiscard]] bool hasNewIdeas(const RecolourState& state);

[[nodiscard]] colourway::By partsOf(RecolourJob job);
/// The job that a kept colourway was made for.
[[nodiscard]] RecolourJob jobOf(const colourway::RecolourQuestion& question);

[[nodiscard]] colourway::RecolourQuestion
questionOf(const RecolourState& state, const thread::Ground& ground,
           const std::map<std::size_t, colourway::Choice>& locks = {});
/// `state` with its switches as `question` has them.
[[nodiscard]] RecolourState withQuestion(RecolourState state,
                                         const colourway::RecolourQuestion& question);

/// What a chart is probably opened here for: one stitched row of the key asks for many colours.
[[nodiscard]] RecolourJob usualJob(const chart::Chart& chart);

/// The state as text for the workbox, and back; what the text lacks or holds wrongly stays as in
/// `otherwise`.
[[nodiscard]] QString rememberedText(const RecolourState& state);
[[nodiscard]] RecolourState rememberedState(const QString& text, const RecolourState& otherwise);

} // namespace otherskein::app
