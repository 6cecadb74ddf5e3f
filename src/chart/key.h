#pragma once

// The chart folder: what is stitched: a chart, its key and their files; its motifs and what touches
// what. Knows threads, not how a thread is chosen, and not how a chart is drawn.

#include "colour/lab.h"
#include "colour/srgb.h"

#include <QByteArray>
#include <QString>

#include <string_view>
#include <vector>

namespace otherskein::chart {

/// One row of a chart's key: a symbol and the thread that it stands for.
struct KeyRow {
    colour::Srgb8 pixel; ///< the row's colour in the chart picture
    colour::Lab lab;     ///< of the pixel, until a shade card gives the thread's own
    QString symbol;
    QString card;
    QString code;
    QString name;
    int strands = 2;
    int stitches = 0;

    bool operator==(const KeyRow&) const = default;
};

using Key = std::vector<KeyRow>;

inline constexpr qint64 kMostKeyBytes = 4LL * 1024 * 1024;

/// The symbol of row `index` of a key that is made up: capitals, then small letters, then A1 …
/// Without I, O, l and o, which are taken for each other and for figures, and without N and n,
/// since the key N goes on to the next doubtful cell.
[[nodiscard]] inline QString letterSymbol(std::size_t index) {
    constexpr std::u16string_view kLetters = u"ABCDEFGHJKLMPQRSTUVWXYZabcdefghijkmpqrstuvwxyz";
    const QChar letter = kLetters[index % kLetters.size()];
    const std::size_t round = index / kLetters.size();
    return round == 0 ? QString(letter) : letter + QString::number(round);
}

/// Reads a key: CSV with the header `srgb,symbol,card,code,name,strands,stitches`; srgb and code
/// are required, no two rows have the same srgb, at most kMostKeyRows of them. Blanks around card
/// and code are dropped. `stitches` is as the file says; a chart counts anew. Errors: InputError
/// with row and column.
[[nodiscard]] Key parseKey(const QByteArray& bytes, const QString& source);
[[nodiscard]] Key readKey(const QString& path);

/// The key as CSV with the same header; `parseKey` reads back an equal key, if it has a row and
/// blanks around neither card nor code, apart from `lab`, which the file does not hold.
[[nodiscard]] QByteArray keyCsv(const Key& key);

} // namespace otherskein::chart
