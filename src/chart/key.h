#pragma once

// The chart folder: what is stitched: a chart's key now, the chart itself, its motifs and its
// picture as they come. Knows threads, not how a thread is chosen.

#include "colour/lab.h"
#include "colour/srgb.h"

#include <QByteArray>
#include <QString>

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

/// Reads a key: CSV with the header `srgb,symbol,card,code,name,strands,stitches`; srgb and code
/// are required, no two rows have the same srgb. Errors: InputError with row and column.
[[nodiscard]] Key parseKey(const QByteArray& bytes, const QString& source);
[[nodiscard]] Key readKey(const QString& path);

} // namespace otherskein::chart
