#pragma once

// The thread folder: what a stitcher works with: threads, shade cards, grounds; their files; search
// over threads by colour. No charts, no store, no widgets.

#include "colour/lab.h"
#include "colour/srgb.h"

#include <QString>

#include <optional>
#include <vector>

namespace otherskein::thread {

enum class Finish { Unstated, Matt, Satin, Metallic, Variegated };
enum class Stock { Unstated, In, Out, Discontinued };

/// One shade of one line: what is on one skein label.
struct Thread {
    QString code; ///< unique on its card, never empty
    QString name;
    colour::Lab lab; ///< the truth of its colour
    /// The sRGB value that `lab` was made from; empty where Lab itself was entered or measured.
    std::optional<colour::Srgb8> entered;
    QString fibre;
    Finish finish = Finish::Unstated;
    int strands = 6;    ///< plies on the skein
    double lengthM = 8; ///< length of a skein, metres
    double stash = 0;   ///< skeins owned
    Stock stock = Stock::Unstated;
    QString lot;
    std::optional<double> spread; ///< reading spread, ΔE00
    QString note;
    std::vector<QString> extra; ///< cells of the card's unknown columns, in their order

    bool operator==(const Thread&) const = default;
};

/// A thread whose colour was entered as sRGB.
[[nodiscard]] Thread threadOfSrgb(QString code, QString name, const colour::Srgb8& srgb);

/// The colour to show on a screen: the one entered, or the nearest that sRGB can show.
[[nodiscard]] colour::Srgb8 shownColour(const Thread& thread);

/// The words of the shade card file; empty for Unstated.
[[nodiscard]] QString wordOf(Finish finish);
[[nodiscard]] QString wordOf(Stock stock);
[[nodiscard]] std::optional<Finish> finishOf(const QString& word);
[[nodiscard]] std::optional<Stock> stockOf(const QString& word);

/// The ranges that readers and editors hold to; each end is allowed.
namespace limits {
inline constexpr double kMostLightness = 100;
inline constexpr double kMostAb = 128; ///< as an ICC Lab encoding
inline constexpr int kMostStrands = 24;
inline constexpr double kMostLengthM = 10'000;
inline constexpr double kMostStash = 10'000;
inline constexpr double kMostSpread = 100;
} // namespace limits

} // namespace otherskein::thread
