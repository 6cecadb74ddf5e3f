#include "chart/chart_files.h"

#include "base/input_error.h"
#include "chart/lines_csv.h"
#include "chart/picture.h"

#include <QFileInfo>

#include <algorithm>
#include <cassert>

namespace otherskein::chart {

namespace {

/// "folder/C" for "folder/C.png"; a name without an end stays.
QString withoutEnd(const QString& picture) {
    const QString end = QFileInfo(picture).suffix();
    return end.isEmpty() ? picture : picture.chopped(end.size() + 1);
}

/// One text for one file, however its path is written, also where no file stands yet.
QString placeOf(const QString& path) {
    const QFileInfo info(path);
    return info.exists()
               ? info.canonicalFilePath()
               : QFileInfo(info.absolutePath()).canonicalFilePath() + u'/' + info.fileName();
}

[[noreturn]] void refuse(const QString& path, const QString& expected, const QString& found) {
    throw base::InputError({path, std::nullopt, {}, expected, found});
}

/// What the readers would refuse is not written.
void checkReadable(const Chart& chart, const QString& picture, const QString& key,
                   const QString& lines) {
    const Grid& grid = chart.grid;
    if (grid.columns() < 1 || grid.rows() < 1 || grid.columns() > kMostColumns ||
        grid.rows() > kMostRows) {
        refuse(picture,
               QStringLiteral("a chart of 1 to %1 columns and 1 to %2 rows")
                   .arg(kMostColumns)
                   .arg(kMostRows),
               QStringLiteral("%1 x %2").arg(grid.columns()).arg(grid.rows()));
    }
    if (chart.key.empty() || chart.key.size() > kMostKeyRows) {
        refuse(key, QStringLiteral("a key of 1 to %1 rows").arg(kMostKeyRows),
               QString::number(chart.key.size()));
    }
    if (chart.lines.size() > kMostLines) {
        refuse(lines, QStringLiteral("at most %1 lines").arg(kMostLines),
               QString::number(chart.lines.size()));
    }
    assert(chart.isConsistent());
}

/// Lines name their row of the key by its symbol.
void checkSymbols(const Chart& chart, const QString& key) {
    std::vector<bool> isNamed(chart.key.size());
    for (const Line& line : chart.lines) {
        isNamed[line.key] = true;
    }
    for (std::size_t i = 0; i < chart.key.size(); ++i) {
        const QString symbol = chart.key[i].symbol.trimmed();
        const auto isSame = [&](const KeyRow& row) { return row.symbol.trimmed() == symbol; };
        if (isNamed[i] && (symbol.isEmpty() || std::ranges::count_if(chart.key, isSame) > 1)) {
            constexpr int kFirstRow = 2; // under the header
            throw base::InputError(
                {key, static_cast<int>(i) + kFirstRow, QStringLiteral("symbol"),
                 QStringLiteral("a symbol of its own for a thread with backstitch lines"),
                 symbol.isEmpty()
                     ? QStringLiteral("none")
                     : base::quotedForMessage(symbol) + QStringLiteral(", which another row has")});
        }
    }
}

void checkApart(const QString& picture, const QString& key, const QString& lines) {
    if (placeOf(picture) == placeOf(key) || placeOf(lines) == placeOf(key)) {
        refuse(key, QStringLiteral("a file of its own for the key"),
               placeOf(picture) == placeOf(key) ? QStringLiteral("the picture's")
                                                : QStringLiteral("that of the backstitch lines"));
    }
    if (placeOf(picture) == placeOf(lines)) {
        refuse(picture, QStringLiteral("a file of its own for the picture"),
               QStringLiteral("that of the backstitch lines"));
    }
}

} // namespace

ChartPaths pathsBeside(const QString& picture) {
    for (const QString& end : {QStringLiteral(".key.csv"), QStringLiteral(".csv")}) {
        if (const QString key = withoutEnd(picture) + end;
            QFileInfo(key).isFile() && placeOf(key) != placeOf(picture)) {
            return {picture, key};
        }
    }
    return {picture, std::nullopt};
}

QString linesPath(const QString& picture) {
    return withoutEnd(picture) + QStringLiteral(".lines.csv");
}

Chart readChart(const ChartPaths& paths) {
    std::optional<Key> key;
    if (paths.key) {
        key = readKey(*paths.key);
    }
    Chart chart = chartFromPicture(base::readWholeFile(paths.picture, kMostPictureBytes),
                                   paths.picture, key, paths.key.value_or(QString()));
    chart.name = QFileInfo(paths.picture).completeBaseName();
    if (const QString lines = linesPath(paths.picture); QFileInfo::exists(lines)) {
        chart.lines =
            parseLines(base::readWholeFile(lines, kMostLineBytes), lines, chart.grid, chart.key);
    }
    return chart;
}

void writeChart(const Chart& chart, const QString& picture, const QString& key,
                base::Existing existing) {
    const QString lines = linesPath(picture);
    checkReadable(chart, picture, key, lines);
    checkSymbols(chart, key);
    checkApart(picture, key, lines);
    std::vector<base::NewFile> files{{picture, pictureBytes(chart)}, {key, keyCsv(chart.key)}};
    if (!chart.lines.empty() || QFileInfo::exists(lines)) { // or old lines would come back
        files.push_back({lines, linesCsv(chart.lines, chart.key)});
    }
    base::writeWholeFiles(files, existing);
}

} // namespace otherskein::chart
