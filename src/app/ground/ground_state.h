#pragma once

#include "colour/sight.h"
#include "workbox/store.h"

#include <QString>

#include <optional>
#include <vector>

namespace otherskein::app {

/// Whose threads are judged.
enum class ThreadsOf {
    Chart, ///< those of the chart in use, or of a colourway of it
    Stash, ///< all that the user owns
    Card   ///< all of one shade card
};
enum class GroundPage { Threads, Chart };

/// All that the Ground place knows besides the workbox and the session's choices.
struct GroundState {
    ThreadsOf of = ThreadsOf::Chart;
    QString card;                                  ///< of ThreadsOf::Card
    std::optional<workbox::ColourwayId> colourway; ///< of the chart; none: as charted
    std::vector<workbox::GroundId> hidden;         ///< grounds that are left out
    std::optional<int> strands; ///< in every needle; none: as the key says, two for cards
    std::optional<int> count;   ///< on every ground; none: each fabric's own, with its over
    int over = 2;               ///< with `count`
    bool leastFirst = true;     ///< least contrast first, else in the order of key or card
    GroundPage page = GroundPage::Threads;
    colour::Sight sight; ///< of the chart's page
    double marginMm = 76.2;
    bool inches = true; ///< else centimetres come first
    double divider = 0.5;

    bool operator==(const GroundState&) const = default;
};

/// The state as text for the workbox, and back; what the text lacks or holds wrongly stays as in
/// `otherwise`.
[[nodiscard]] QString rememberedText(const GroundState& state);
[[nodiscard]] GroundState rememberedGround(const QString& text, const GroundState& otherwise = {});

/// Strands that the place offers.
inline constexpr int kMostStrandsOffered = 6;

} // namespace otherskein::app
