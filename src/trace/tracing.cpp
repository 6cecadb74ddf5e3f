#include "trace/tracing.h"

#include "base/input_error.h"
#include "trace/detail/bare_cells.h"
#include "trace/detail/beside_chart.h"
#include "trace/detail/counted_frame.h"
#include "trace/detail/edge_numbers.h"
#include "trace/detail/found_rows.h"
#include "trace/detail/gathered.h"
#include "trace/detail/groups.h"
#include "trace/detail/hidden_cells.h"
#include "trace/detail/key_table.h"
#include "trace/detail/lifted_lines.h"
#include "trace/detail/line_rows.h"
#include "trace/detail/other_grids.h"
#include "trace/detail/overlap.h"
#include "trace/detail/path_grids.h"
#include "trace/detail/pen_tints.h"
#include "trace/detail/unprinted_marks.h"
#include "trace/detail/views.h"

#include <QCoreApplication>

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cassert>
#include <numeric>

namespace otherskein::trace {

namespace {

struct TracingTexts {
    Q_DECLARE_TR_FUNCTIONS(Tracing)
};

constexpr double kLeastStitched = 0.002; // of the cells; below, a grid has nothing on it

base::InputError refusal(const QString& source, const QString& expected, const QString& found) {
    return base::InputError({source, std::nullopt, {}, expected, found});
}

chart::Area extentOf(std::span<const Piece> pieces) {
    chart::Area area{pieces[0].place.column, pieces[0].place.row, 0, 0};
    int right = 0;
    int bottom = 0;
    for (const Piece& piece : pieces) {
        area.left = std::min(area.left, piece.place.column);
        area.top = std::min(area.top, piece.place.row);
        right = std::max(right, piece.place.column + piece.grid.columns);
        bottom = std::max(bottom, piece.place.row + piece.grid.rows);
    }
    area.columns = right - area.left;
    area.rows = bottom - area.top;
    return area;
}

void checkSize(const QString& source, const chart::Area& area) {
    if (area.columns > chart::kMostColumns || area.rows > chart::kMostRows) {
        throw refusal(source,
                      TracingTexts::tr("a chart of at most %1 × %2 cells")
                          .arg(chart::kMostColumns)
                          .arg(chart::kMostRows),
                      QStringLiteral("%1 × %2").arg(area.columns).arg(area.rows));
    }
}

/// Where most cells are doubtful or like no other it is no chart, or its lattice does not fit: a
/// texture, a sheet of pictures. Cells under lines do not count.
void checkTold(const QString& source, const detail::Groups& groups,
               std::span<const detail::GroupLook> looks, const detail::Gathered& all) {
    constexpr double kMostUntold = 0.5; // bad scans were seen to have up to 0.4
    constexpr int kFew = 2;
    constexpr int kManySymbols = 90; // that each recur seldom: writing over squared paper
    constexpr int kSeldom = 10;      // cells of a symbol, on the mean
    constexpr int kSomeSymbols = 30; // that hardly recur at all: a table, a picture
    constexpr int kHardly = 4;
    constexpr double kOver = 0.75; // of the cells with marks, whose marks go on in the next
    int symbols = 0;
    int stitched = 0;
    for (const detail::GroupLook& look : looks) {
        symbols += look.isBare ? 0 : 1;
        stitched += look.isBare ? 0 : look.cells;
    }
    if ((symbols > kSomeSymbols && stitched < kHardly * symbols) ||
        (symbols > kManySymbols && stitched < kSeldom * symbols &&
         detail::runningOver(all.sheets[0]) > kOver)) {
        throw refusal(source, TracingTexts::tr("a chart whose symbols recur"),
                      TracingTexts::tr("%1 kinds in %2 cells").arg(symbols).arg(stitched));
    }
    std::size_t count = 0;
    std::size_t untold = 0;
    for (std::size_t i = 0; i < groups.of.size(); ++i) {
        if (all.masked[i] != 0) {
            continue;
        }
        const detail::GroupLook& look = looks[static_cast<std::size_t>(groups.of[i])];
        ++count;
        untold += groups.confidence[i] < kDoubtful || look.cells <= kFew ? 1 : 0;
    }
    if (static_cast<double>(untold) > kMostUntold * static_cast<double>(count)) {
        throw refusal(
            source, TracingTexts::tr("a chart whose symbols recur"),
            TracingTexts::tr("%1 of %2 cells doubtful or like no other").arg(untold).arg(count));
    }
}

/// Other things have grids too.
void checkChart(std::span<const Page> pages, std::span<const Piece> pieces,
                const detail::Gathered& all, std::span<const detail::LookGrid> grids,
                const detail::Groups& groups, std::span<const detail::GroupLook> looks) {
    constexpr double kInTurn = 0.7; // of the cells; of real charts up to 0.54 was seen
    const QString& source = pages[pieces[0].page].source;
    if (detail::fillPictures(pages, pieces) && detail::takingTurns(all.looks, grids) > kInTurn) {
        throw refusal(source, TracingTexts::tr("a chart"),
                      TracingTexts::tr("two kinds of cells in turn all over, as in a weave"));
    }
    if (pieces.size() > 1) {
        return;
    }
    std::vector<int> kinds;
    for (const int group : groups.of) {
        kinds.push_back(looks[static_cast<std::size_t>(group)].isBare ? -1 : group);
    }
    const detail::Sheet& sheet = all.sheets[0];
    if (detail::isDigitPuzzle(kinds, sheet.columns, sheet.rows)) {
        throw refusal(source, TracingTexts::tr("a chart"),
                      TracingTexts::tr("a puzzle: no symbol stands twice in a row or column"));
    }
    if (detail::isBoard(kinds, sheet.columns, sheet.rows)) {
        throw refusal(source, TracingTexts::tr("a chart"),
                      TracingTexts::tr("a board: large squares in turn all over"));
    }
    // Of a drawing it may be a pattern of the chart's.
    if (pages[pieces[0].page].pdf.isEmpty() &&
        detail::isWindowFront(kinds, sheet.columns, sheet.rows)) {
        throw refusal(source, TracingTexts::tr("a chart"),
                      TracingTexts::tr("blocks of many kinds in a wall, as windows are"));
    }
    if (detail::isSquareCode(sheet)) {
        throw refusal(source, TracingTexts::tr("a chart"),
                      TracingTexts::tr("a code that machines read: eyes in three corners"));
    }
    if (detail::isWordPuzzle(sheet)) {
        throw refusal(source, TracingTexts::tr("a chart"),
                      TracingTexts::tr("a puzzle: small numbers where its words begin"));
    }
}

/// Copies each piece's cells, picture and lines to its place; where two pieces overlap, the surer
/// cell stands, and one that they read differently is doubtful.
void assemble(const detail::Gathered& all, const detail::Groups& groups,
              const std::vector<chart::KeyIndex>& rowOf, std::span<const Piece> pieces,
              const chart::Area& area, Tracing& tracing) {
    cv::Mat straight = detail::viewOf(tracing.straight);
    std::vector<char> known(tracing.confidence.size(), 0);
    std::vector<colour::Srgb8> colours; // of the lines
    for (std::size_t p = 0; p < pieces.size(); ++p) {
        const detail::Sheet& sheet = all.sheets[p];
        const int left = pieces[p].place.column - area.left;
        const int top = pieces[p].place.row - area.top;
        for (int row = 0; row < sheet.rows; ++row) {
            for (int column = 0; column < sheet.columns; ++column) {
                const auto look =
                    static_cast<std::size_t>(all.first[p] + row * sheet.columns + column);
                const chart::Cell cell{left + column, top + row};
                const std::size_t at = tracing.chart.grid.indexOf(cell);
                const auto group = static_cast<std::size_t>(groups.of[look]);
                const float sure = groups.confidence[look];
                const bool isOther = known[at] != 0 && tracing.chart.grid.at(cell) != rowOf[group];
                if (known[at] == 0 || sure > tracing.confidence[at]) {
                    tracing.chart.grid.set(cell, rowOf[group]);
                    tracing.confidence[at] = sure;
                    sheet.straight(sheet.box(column, row))
                        .copyTo(straight(
                            {cell.column * all.cell, cell.row * all.cell, all.cell, all.cell}));
                }
                if (isOther) {
                    tracing.confidence[at] = std::min(tracing.confidence[at], 0.3F);
                }
                known[at] = 1;
            }
        }
        for (chart::Line line : all.lines[p].lines) {
            line.x1 += 2 * left;
            line.x2 += 2 * left;
            line.y1 += 2 * top;
            line.y2 += 2 * top;
            line.key = static_cast<chart::KeyIndex>(colours.size() + line.key);
            tracing.chart.lines.push_back(line);
        }
        colours.insert(colours.end(), all.lines[p].colours.begin(), all.lines[p].colours.end());
    }
    detail::addLineRows(colours, tracing.chart);
}

} // namespace

std::vector<FoundGrid> gridsOn(const Page& page) {
    std::vector<FoundGrid> result;
    std::vector<detail::Lattice> lattices = detail::gridsDrawnOn(page);
    const QSize size = page.picture.size();
    if (!detail::coverMuch(lattices, {size.width(), size.height()})) {
        detail::addOthers(detail::findGrids(detail::viewOf(page.picture), page.words), lattices);
    }
    const bool isFound = detail::coverMuch(lattices, {size.width(), size.height()});
    if (const auto counted = isFound ? std::nullopt : detail::countedFrameOn(page)) {
        lattices.insert(lattices.begin(), *counted);
    }
    for (const detail::Lattice& lattice : lattices) {
        result.push_back(detail::foundGrid(lattice));
        detail::readEdgeNumbers(page.words, result.back());
    }
    return result;
}

std::vector<chart::Cell> Tracing::doubtful() const {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < confidence.size(); ++i) {
        if (confidence[i] < kDoubtful) {
            order.push_back(i);
        }
    }
    std::ranges::stable_sort(order, {}, [this](std::size_t i) { return confidence[i]; });
    std::vector<chart::Cell> cells;
    for (const std::size_t i : order) {
        cells.push_back(chart.grid.cellAt(i));
    }
    return cells;
}

std::optional<Tracing> traced(std::span<const Page> pages, std::span<const Piece> pieces,
                              const Progress& progress) {
    assert(!pages.empty() && !pieces.empty());
    const auto goesOn = [&](double done) { return !progress || progress(done); };
    const QString& source = pages[pieces[0].page].source;
    const chart::Area area = extentOf(pieces);
    checkSize(source, area);
    if (!goesOn(0)) {
        return std::nullopt;
    }
    const detail::LiftedLines lifted = detail::liftedLines(pages, pieces);
    const std::span<const Page> bare = lifted.pages;
    std::optional<detail::DrawnSheets> drawn =
        detail::drawnSheetsOf(bare, lifted.pieces, lifted.isExact);
    detail::Gathered all = detail::gathered(
        bare, drawn ? std::span<const Piece>(drawn->pieces) : pieces, lifted.areAll);
    if (!goesOn(0.3)) {
        return std::nullopt;
    }
    const std::vector<Piece> exact =
        drawn ? drawn->pieces : std::vector(pieces.begin(), pieces.end());
    detail::DrawnGroups told = detail::toldApart(bare, std::move(drawn), all);
    if (!goesOn(0.8)) {
        return std::nullopt;
    }
    detail::Groups& groups = told.groups;
    std::vector<detail::GroupLook> looks = detail::groupLooks(all.looks, groups);
    std::vector<detail::LookGrid> grids;
    std::vector<chart::Cell> places;
    for (std::size_t p = 0; p < all.sheets.size(); ++p) {
        grids.push_back({all.first[p], all.sheets[p].columns, all.sheets[p].rows});
        places.push_back(pieces[p].place);
    }
    if (std::ranges::count(told.isPaper, 1) > 0) {
        for (std::size_t g = 0; g < looks.size(); ++g) {
            looks[g].isBare = told.isPaper[g] != 0;
        }
    } else {
        for (std::size_t g = 0; g < told.isSquare.size(); ++g) {
            looks[g].isSquare = told.isSquare[g] != 0;
        }
        detail::markBare(all.looks, grids, groups, looks, detail::BesideChart(pages, pieces));
        for (std::size_t g = 0; g < told.isPlain.size(); ++g) {
            looks[g].isBare = looks[g].isBare && told.isPlain[g] != 0;
        }
        detail::markLineRests(all.masked, groups, looks);
        detail::doubtFrameRests(grids, groups, looks);
        detail::markFolds(grids, groups, looks);
        detail::doubtSoftMarks(groups, looks);
        detail::doubtPaleMarks(groups, looks);
        detail::markPenTints(groups, looks);
    }
    detail::joinOverlaps(grids, places, groups, looks);
    checkChart(pages, pieces, all, grids, groups, looks);
    const auto stitched =
        std::accumulate(looks.begin(), looks.end(), 0, [](int sum, const detail::GroupLook& one) {
            return sum + (one.isBare ? 0 : one.cells);
        });
    if (stitched < std::max(1.0, kLeastStitched * all.looks.rows)) {
        throw refusal(source, TracingTexts::tr("a chart with stitches"),
                      TracingTexts::tr("a grid of %1 × %2 with nothing on it")
                          .arg(area.columns)
                          .arg(area.rows));
    }
    checkTold(source, groups, looks, all);
    std::vector<chart::KeyIndex> rowOf;
    Tracing tracing;
    tracing.cell = all.cell;
    tracing.chart.key = detail::foundKey(looks, rowOf);
    if (tracing.chart.key.size() >= chart::kMostKeyRows) {
        throw refusal(source,
                      TracingTexts::tr("a chart of at most %1 symbols").arg(chart::kMostKeyRows),
                      QString::number(tracing.chart.key.size()));
    }
    tracing.chart.grid = chart::Grid(area.columns, area.rows);
    tracing.confidence.assign(tracing.chart.grid.cells().size(), 1);
    tracing.straight = QImage(area.columns * all.cell, area.rows * all.cell, QImage::Format_BGR888);
    tracing.straight.fill(Qt::white);
    if (std::ranges::any_of(lifted.lines, [](const auto& lines) { return !lines.empty(); })) {
        detail::putBack(lifted, pages, exact, all);
    }
    assemble(all, groups, rowOf, pieces, area, tracing);
    detail::proposeKey(pages, pieces, looks, rowOf, tracing.chart.key);
    chart::recount(tracing.chart);
    assert(tracing.chart.isConsistent());
    if (!goesOn(1)) {
        return std::nullopt;
    }
    return tracing;
}

Tracing tracedPage(const QString& path, int number) {
    const Page page = readPage(path, number);
    const std::vector<FoundGrid> grids = gridsOn(page);
    if (grids.empty()) {
        throw refusal(path, TracingTexts::tr("a page with a chart's grid"),
                      TracingTexts::tr("no grid"));
    }
    const std::vector<Piece> pieces{{0, grids[0], {}}};
    return *traced(std::span(&page, 1), pieces);
}

} // namespace otherskein::trace
