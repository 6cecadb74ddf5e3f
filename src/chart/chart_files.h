#pragma once

#include "base/whole_file.h"
#include "chart/chart.h"

#include <optional>

namespace otherskein::chart {

/// A chart on disk: the picture `C.png`, its key, and `C.lines.csv` beside the picture.
struct ChartPaths {
    QString picture;
    std::optional<QString> key; ///< none: the key is made from the picture

    bool operator==(const ChartPaths&) const = default;
};

/// The picture with the key that lies beside it: `C.key.csv`, else `C.csv`; none when neither does.
[[nodiscard]] ChartPaths pathsBeside(const QString& picture);
/// `C.lines.csv` for `C.png`.
[[nodiscard]] QString linesPath(const QString& picture);

/// Reads all of a chart; lines when their file is there. The chart's name is the picture's stem.
/// Errors: InputError; nothing comes of a chart that is only half readable.
[[nodiscard]] Chart readChart(const ChartPaths& paths);

/// Writes picture, key and lines (a header alone where old lines stand and the chart has none). All
/// is checked and written beside its place before the first file is put there, so that nothing
/// changes when one is refused. Reading back gives an equal chart, but for its name and, in its
/// key, `lab` and blanks around card and code. The chart is consistent (asserted). Errors:
/// InputError: a file in the way, an empty or too large grid or key, two of the three files at one
/// path, lines of a row whose symbol is empty or another row's.
void writeChart(const Chart& chart, const QString& picture, const QString& key,
                base::Existing existing);

} // namespace otherskein::chart
