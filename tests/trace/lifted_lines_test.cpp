// Backstitch of PDFs, the whole way: cells under lines, and the lines themselves.
#include "traced_page.h"
#include "written_files.h"

#include <QPageSize>
#include <QPdfWriter>

#include <algorithm>
#include <map>
#include <set>

using namespace otherskein;

namespace {

constexpr int kLiftedWide = 30;
constexpr int kLiftedHigh = 24;
constexpr double kLiftedCell = 9; // points
constexpr double kLiftedLeft = 40;
constexpr double kLiftedTop = 50;

/// What stands in a cell: -1 is nothing.
int motifAt(int column, int row) {
    const int patch = (column / 4 * 7 + row / 3 * 3) % 6;
    return patch >= 4 ? -1 : patch;
}

struct DrawnLine {
    double x1 = 0;
    double y1 = 0;
    double x2 = 0;
    double y2 = 0;
    QColor colour = Qt::black;
};

/// Outlines along sides, aslope, through middles of cells, in two colours.
const std::vector<DrawnLine> kLiftedOutlines{
    {4, 3, 11, 3, Qt::red},         {11, 3, 15, 7, Qt::red},          {15, 7, 15, 14, Qt::red},
    {15, 14, 12.5, 17, Qt::red},    {20, 5, 27, 5, Qt::blue},         {27, 5, 27, 11, Qt::blue},
    {27, 11, 25.5, 12.5, Qt::blue}, {25.5, 12.5, 20, 12.5, Qt::blue}, {6, 12, 9, 20, Qt::blue},
    {2, 21, 8, 21, Qt::red}};

struct Look {
    QColor paper = Qt::white;
    QColor ink = Qt::black;
    double width = 1.4; ///< of outlines, points
};

void drawMotif(QPainter& painter, int motif, const QColor& ink) {
    painter.setPen(QPen(ink, 0.1));
    painter.setBrush(motif % 2 == 0 ? QBrush(ink) : QBrush(Qt::NoBrush));
    const QRectF box(0.25, 0.25, 0.5, 0.5);
    if (motif < 2) {
        painter.drawEllipse(box);
    } else {
        painter.drawRect(box);
    }
}

/// A chart at a place of the page, in points.
void drawChart(QPainter& painter, const std::vector<DrawnLine>& lines, const Look& look,
               int firstColumn = 0) {
    for (int i = 0; i <= kLiftedWide; ++i) {
        painter.setPen(QPen(look.ink, i % 10 == 0 ? 0.8 : 0.25));
        painter.drawLine(QPointF(i * kLiftedCell, 0),
                         QPointF(i * kLiftedCell, kLiftedHigh * kLiftedCell));
    }
    for (int i = 0; i <= kLiftedHigh; ++i) {
        painter.setPen(QPen(look.ink, i % 10 == 0 ? 0.8 : 0.25));
        painter.drawLine(QPointF(0, i * kLiftedCell),
                         QPointF(kLiftedWide * kLiftedCell, i * kLiftedCell));
    }
    for (int row = 0; row < kLiftedHigh; ++row) {
        for (int column = 0; column < kLiftedWide; ++column) {
            if (const int motif = motifAt(column + firstColumn, row); motif >= 0) {
                painter.save();
                painter.translate(column * kLiftedCell, row * kLiftedCell);
                painter.scale(kLiftedCell, kLiftedCell);
                drawMotif(painter, motif, look.ink);
                painter.restore();
            }
        }
    }
    for (const DrawnLine& line : lines) {
        painter.setPen(QPen(line.colour, look.width, Qt::SolidLine, Qt::RoundCap));
        painter.drawLine(QPointF(line.x1, line.y1) * kLiftedCell,
                         QPointF(line.x2, line.y2) * kLiftedCell);
    }
}

/// A page of 360 by 320 points, or `high`.
trace::Page pageOf(const std::function<void(QPainter&)>& draw, double high = 320,
                   const QColor& paper = Qt::white) {
    const WrittenFiles files;
    const QString path = files.path(QStringLiteral("page.pdf"));
    {
        QPdfWriter writer(path);
        writer.setPageSize(QPageSize(QSizeF(360, high), QPageSize::Point));
        writer.setPageMargins({});
        QPainter painter(&writer);
        painter.scale(writer.resolution() / 72.0, writer.resolution() / 72.0);
        if (paper != Qt::white) {
            painter.fillRect(QRectF(0, 0, 360, high), paper);
        }
        painter.translate(kLiftedLeft, kLiftedTop);
        draw(painter);
    }
    return trace::readPage(path);
}

trace::Page chartPage(const std::vector<DrawnLine>& lines, const Look& look = {}) {
    return pageOf([&](QPainter& painter) { drawChart(painter, lines, look); }, 320, look.paper);
}

/// Cells that are not what stands in most cells of their key's row; `across` in the whole drawing.
int wrongLifted(const chart::Chart& chart, int from = 0, int first = 0) {
    std::map<chart::KeyIndex, std::map<int, int>> counts;
    for (int row = 0; row < kLiftedHigh; ++row) {
        for (int column = 0; column < kLiftedWide; ++column) {
            ++counts[chart.grid.at({column + from, row})][motifAt(column + first, row)];
        }
    }
    int wrong = 0;
    for (const auto& [key, of] : counts) {
        int all = 0;
        int most = 0;
        for (const auto& [motif, count] : of) {
            all += count;
            most = std::max(most, count);
        }
        wrong += all - most;
    }
    return wrong;
}

/// How long lines are together along a drawn one, its colour's way; chains of half cells count as
/// the whole line.
bool holdsLine(const chart::Chart& chart, const DrawnLine& drawn, int from = 0) {
    const QPointF one(drawn.x1 + from, drawn.y1);
    const QPointF other(drawn.x2 + from, drawn.y2);
    const QLineF whole(one, other);
    double sum = 0;
    for (const chart::Line& line : chart.lines) {
        const QLineF part(line.x1 / 2.0, line.y1 / 2.0, line.x2 / 2.0, line.y2 / 2.0);
        const auto isOn = [&](const QPointF& point) {
            const double there = QLineF(one, point).length() + QLineF(point, other).length();
            return there < whole.length() + 1e-6;
        };
        sum += isOn(part.p1()) && isOn(part.p2()) ? part.length() : 0;
    }
    return std::abs(sum - whole.length()) < 1e-6;
}

void checkOutlines(const chart::Chart& chart, int from = 0) {
    for (const DrawnLine& line : kLiftedOutlines) {
        CAPTURE(line.x1, line.y1, line.x2, line.y2);
        CHECK(holdsLine(chart, line, from));
    }
}

double lengthOf(const std::vector<chart::Line>& lines) {
    double sum = 0;
    for (const chart::Line& line : lines) {
        sum += std::hypot(line.x2 - line.x1, line.y2 - line.y1) / 2;
    }
    return sum;
}

double lengthOf(const std::vector<DrawnLine>& lines) {
    double sum = 0;
    for (const DrawnLine& line : lines) {
        sum += std::hypot(line.x2 - line.x1, line.y2 - line.y1);
    }
    return sum;
}

} // namespace

TEST_CASE("cells under outlines are told as if nobody had drawn over them, and the lines exactly") {
    const trace::Tracing tracing = tracedWhole(chartPage(kLiftedOutlines));
    REQUIRE(tracing.chart.grid.columns() == kLiftedWide);
    REQUIRE(tracing.chart.grid.rows() == kLiftedHigh);
    CHECK(wrongLifted(tracing.chart) == 0);
    CHECK(tracing.doubtful().empty());
    checkOutlines(tracing.chart);
    CHECK(lengthOf(tracing.chart.lines) == Approx(lengthOf(kLiftedOutlines)));
    std::set<chart::KeyIndex> keys;
    for (const chart::Line& line : tracing.chart.lines) {
        keys.insert(line.key);
    }
    CHECK(keys.size() == 2);
}

TEST_CASE("what is shown put straight still has the lines") {
    const trace::Tracing with = tracedWhole(chartPage(kLiftedOutlines));
    const trace::Tracing without = tracedWhole(chartPage({}));
    REQUIRE(with.straight.size() == without.straight.size());
    const auto at = [](const trace::Tracing& tracing, double x, double y) {
        return QColor(tracing.straight.pixel(static_cast<int>(x * tracing.cell),
                                             static_cast<int>(y * tracing.cell)));
    };
    for (const double y : {7.5, 10.3, 13.5}) {
        CHECK(at(with, 15, y).red() > at(with, 15, y).blue() + 100);
        CHECK(std::abs(at(without, 15, y).red() - at(without, 15, y).blue()) < 60);
    }
}

TEST_CASE("lines that cannot be seen are not told") {
    std::vector<DrawnLine> white = kLiftedOutlines;
    for (DrawnLine& line : white) {
        line.colour = Qt::white;
    }
    const Look thin{Qt::white, Qt::black, 0.01};
    // Nothing lies below but paper: no change where they are taken away.
    const trace::Page page = pageOf([&](QPainter& painter) {
        for (const DrawnLine& line : white) {
            painter.setPen(QPen(line.colour, 1.4));
            painter.drawLine(QPointF(line.x1, line.y1) * kLiftedCell,
                             QPointF(line.x2, line.y2) * kLiftedCell);
        }
        drawChart(painter, {}, thin);
    });
    const trace::Tracing tracing = tracedWhole(page);
    CHECK(tracing.chart.lines.empty());
    CHECK(wrongLifted(tracing.chart) == 0);
}

TEST_CASE("lines of a page that is light on dark are told too") {
    const trace::Page page =
        chartPage(kLiftedOutlines, {QColor(20, 20, 20), QColor(235, 235, 235), 1.4});
    REQUIRE(page.isTurnedOver);
    const trace::Tracing tracing = tracedWhole(page);
    CHECK(wrongLifted(tracing.chart) == 0);
    checkOutlines(tracing.chart);
}

TEST_CASE("a chart with no lines is told the same") {
    const trace::Tracing tracing = tracedWhole(chartPage({}));
    CHECK(tracing.chart.lines.empty());
    CHECK(wrongLifted(tracing.chart) == 0);
}

TEST_CASE("two grids on a page and grids of several pages keep their own lines") {
    const std::vector<DrawnLine> none;
    SECTION("two on a page") {
        const trace::Page page = pageOf(
            [&](QPainter& painter) {
                drawChart(painter, kLiftedOutlines, {});
                painter.translate(0, kLiftedHigh * kLiftedCell + 50);
                drawChart(painter, none, {}, kLiftedWide);
            },
            620);
        auto grids = trace::gridsOn(page);
        REQUIRE(grids.size() == 2);
        std::ranges::sort(grids, {}, [](const trace::FoundGrid& g) { return g.outline[0].y(); });
        const std::vector<trace::Piece> pieces{{0, grids[1], {0, 0}},
                                               {0, grids[0], {kLiftedWide, 0}}};
        const auto tracing = trace::traced(std::span(&page, 1), pieces);
        REQUIRE(tracing);
        checkOutlines(tracing->chart, kLiftedWide);
        CHECK(lengthOf(tracing->chart.lines) == Approx(lengthOf(kLiftedOutlines)));
        CHECK(wrongLifted(tracing->chart, 0, kLiftedWide) == 0);
        CHECK(wrongLifted(tracing->chart, kLiftedWide) == 0);
    }
    SECTION("two pages") {
        const std::vector<trace::Page> pages{
            chartPage(kLiftedOutlines),
            pageOf([&](QPainter& painter) { drawChart(painter, none, {}, kLiftedWide); })};
        std::vector<trace::Piece> pieces;
        for (std::size_t i = 0; i < 2; ++i) {
            const auto grids = trace::gridsOn(pages[i]);
            REQUIRE(grids.size() == 1);
            pieces.push_back({i, grids[0], {i == 0 ? 0 : kLiftedWide, 0}});
        }
        const auto tracing = trace::traced(pages, pieces);
        REQUIRE(tracing);
        checkOutlines(tracing->chart);
        CHECK(lengthOf(tracing->chart.lines) == Approx(lengthOf(kLiftedOutlines)));
        CHECK(wrongLifted(tracing->chart) == 0);
        CHECK(wrongLifted(tracing->chart, kLiftedWide, kLiftedWide) == 0);
    }
}
