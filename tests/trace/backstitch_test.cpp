#include "trace/detail/backstitch.h"

#include "trace/detail/views.h"
#include "traced_page.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

using namespace otherskein;

namespace {

trace::detail::Sheet drawnSheet(const trace::Page& page) {
    const auto grids = trace::gridsOn(page);
    REQUIRE_FALSE(grids.empty());
    const std::vector<trace::Piece> pieces{{0, grids[0], {}}};
    return trace::detail::sheetsOf(std::span(&page, 1), pieces).front();
}

/// The sheet of the grid as it was drawn, wherever the finder would put it.
trace::detail::Sheet trueSheet(const DrawnPage& drawn) {
    const trace::Page page = drawn.page();
    const std::array pieces{trace::Piece{0, drawnGrid(drawn), {}}};
    return trace::detail::sheetsOf(std::span(&page, 1), pieces).front();
}

DrawnPage fiveShapes() {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int kind = kindAt(column, row, 5); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    return drawn;
}

using Ends = std::array<int, 4>; // half cells

/// Draws lines over a page.
void drawOver(DrawnPage& drawn, const QColor& colour, double width, const std::set<Ends>& lines) {
    const auto before = drawn.over;
    drawn.over = [=, left = drawn.left, top = drawn.top,
                  half = drawn.pitch / 2](QPainter& painter) {
        if (before) {
            before(painter);
        }
        painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::RoundCap));
        for (const Ends& one : lines) {
            painter.drawLine(QPointF(left + half * one[0], top + half * one[1]),
                             QPointF(left + half * one[2], top + half * one[3]));
        }
    };
}

std::set<Ends> found(const trace::detail::Backstitch& backstitch) {
    std::set<Ends> result;
    for (const chart::Line& one : backstitch.lines) {
        result.insert({one.x1, one.y1, one.x2, one.y2});
    }
    return result;
}

const std::set<Ends> kAround{{6, 6, 14, 6}, {14, 6, 14, 16}, {24, 8, 24, 20}, {24, 20, 38, 20}};

} // namespace

TEST_CASE("lines along cells are found over symbols, black or coloured, thick or thin") {
    DrawnPage drawn = fiveShapes();
    const QColor colour = GENERATE(QColor(20, 20, 20), QColor(170, 30, 40));
    const double width = GENERATE(4.0, 6.0, 9.0);
    CAPTURE(colour.name().toStdString(), width);
    drawOver(drawn, colour, width, kAround);
    CHECK(found(backstitchOf(drawnSheet(drawn.page()))) == kAround);
}

TEST_CASE("a page of symbols has no lines, also where outlines fill their cells") {
    DrawnPage drawn = fiveShapes();
    if (GENERATE(false, true)) {
        drawn.cell = [](QPainter& painter, int column, int row) {
            if (const int kind = kindAt(column, row, 2); kind >= 0) {
                painter.setPen(QPen(Qt::black, 8));
                painter.drawRect(QRectF(9, 9, 82, 82).adjusted(10 * kind, 0, -10 * kind, 0));
            }
        };
    }
    CHECK(found(backstitchOf(drawnSheet(drawn.page()))).empty());
}

TEST_CASE("lines of any slope run between corners and middles of cells") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if ((column + row) % 7 == 0) {
            drawShape(painter, 4);
        }
    };
    std::set<Ends> wanted = kAround;
    wanted.insert({{16, 8, 22, 14},
                   {4, 20, 12, 24},
                   {30, 6, 34, 14},
                   {15, 21, 18, 24},
                   {28, 34, 44, 24},
                   {3, 29, 13, 25}});
    drawOver(drawn, QColor(30, 60, 150), 5, wanted);
    CHECK(found(backstitchOf(drawnSheet(drawn.page()))) == wanted);
}

TEST_CASE("cells of a kind that are all outlined keep their outlines") {
    DrawnPage drawn;
    const auto isOutlined = [](int column, int row) { return column % 5 == 2 && row % 5 == 1; };
    drawn.cell = [&](QPainter& painter, int column, int row) {
        if (isOutlined(column, row)) {
            drawShape(painter, 0);
        } else if (kindAt(column, row, 3) > 0) {
            drawShape(painter, 3);
        }
    };
    std::set<Ends> wanted;
    for (int column = 0; column < drawn.columns; ++column) {
        for (int row = 0; row < drawn.rows; ++row) {
            if (isOutlined(column, row)) {
                const int x = 2 * column;
                const int y = 2 * row;
                wanted.insert({{x, y, x + 2, y},
                               {x, y + 2, x + 2, y + 2},
                               {x, y, x, y + 2},
                               {x + 2, y, x + 2, y + 2}});
            }
        }
    }
    drawOver(drawn, QColor(150, 20, 30), 5, wanted);
    CHECK(found(backstitchOf(drawnSheet(drawn.page()))) == wanted);
}

TEST_CASE("lines that all run across the grid are found") {
    DrawnPage drawn = fiveShapes();
    const QColor colour = GENERATE(QColor(20, 20, 20), QColor(30, 60, 150));
    const std::set<Ends> wanted{{4, 4, 12, 12}, {20, 8, 28, 4}, {30, 20, 36, 26}, {8, 30, 12, 22}};
    drawOver(drawn, colour, 6, wanted);
    CHECK(found(backstitchOf(drawnSheet(drawn.page()))) == wanted);
}

TEST_CASE("lines around cells of nearly their own colour are found") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        const bool isInside = column >= 4 && column < 9 && row >= 3 && row < 8;
        painter.fillRect(QRectF(0, 0, 100, 100),
                         isInside ? QColor(139, 36, 36) : QColor(150, 160, 20));
    };
    const std::set<Ends> around{{8, 6, 18, 6}, {8, 16, 18, 16}, {8, 6, 8, 16}, {18, 6, 18, 16}};
    drawOver(drawn, QColor(150, 18, 30), 8, around);
    CHECK(found(backstitchOf(trueSheet(drawn))) == around);
}

TEST_CASE("lines along the grid's border are found") {
    DrawnPage drawn = fiveShapes();
    std::set<Ends> wanted = kAround;
    wanted.insert({{6, 0, 14, 0}, {0, 4, 0, 10}, {48, 12, 48, 20}, {10, 36, 20, 36}});
    drawOver(drawn, QColor(30, 60, 150), 6, wanted);
    CHECK(found(backstitchOf(trueSheet(drawn))) == wanted);
}

TEST_CASE("lines that run along nearly a whole row of sides are not the grid's own") {
    DrawnPage drawn = fiveShapes();
    std::set<Ends> wanted{{2, 2, 46, 2}, {2, 34, 46, 34}, {2, 2, 2, 34}, {46, 2, 46, 34}};
    drawOver(drawn, GENERATE(QColor(20, 20, 20), QColor(170, 30, 40)), 5, wanted);
    CHECK(found(backstitchOf(drawnSheet(drawn.page()))) == wanted);
}

TEST_CASE("a line from border to border is found as its like elsewhere are") {
    DrawnPage drawn = fiveShapes();
    std::set<Ends> wanted = kAround;
    if (GENERATE(false, true)) {
        wanted.insert({{0, 4, 48, 4}, {0, 30, 48, 30}, {10, 0, 10, 36}});
    } else {
        wanted.insert({{0, 4, 48, 4}, {0, 14, 48, 14}, {0, 24, 48, 24}}); // where bold ones are not
    }
    drawOver(drawn, GENERATE(QColor(20, 20, 20), QColor(170, 30, 40)), 5, wanted);
    CHECK(found(backstitchOf(trueSheet(drawn))) == wanted);
}

TEST_CASE("lines from border to border at even steps are not taken for the grid's bold ones") {
    DrawnPage drawn = fiveShapes();
    std::set<Ends> wanted = kAround;
    for (int row = 2; row < 18; row += 5) {
        wanted.insert({0, 2 * row, 48, 2 * row});
    }
    drawOver(drawn, QColor(20, 20, 20), 6, wanted);
    CHECK(found(backstitchOf(trueSheet(drawn))) == wanted);
}

TEST_CASE("lines beside discs that fill their cells are found") {
    DrawnPage drawn;
    drawn.pitch = 36;
    const auto isDisc = [](int column, int row) { return column % 6 == 2 && row > 1 && row < 15; };
    drawn.cell = [&](QPainter& painter, int column, int row) {
        if (isDisc(column, row)) {
            painter.setBrush(Qt::black);
            painter.setPen(Qt::NoPen);
            painter.drawEllipse(QPointF(50, 50), 40, 40);
        }
    };
    std::set<Ends> wanted;
    for (int x = 4; x < 48; x += 12) {
        wanted.insert({{x, 4, x, 30}, {x + 2, 4, x + 2, 30}});
    }
    drawOver(drawn, QColor(150, 20, 30), 5, wanted);
    CHECK(found(backstitchOf(trueSheet(drawn))) == wanted);
}

TEST_CASE("squares that nearly fill their cells have no lines between them") {
    DrawnPage drawn;
    const double inset = GENERATE(6.0, 9.0, 12.0);
    CAPTURE(inset);
    drawn.cell = [&](QPainter& painter, int column, int row) {
        if ((column / 4 + row / 3) % 3 != 0) {
            painter.fillRect(QRectF(inset, inset, 100 - 2 * inset, 100 - 2 * inset), Qt::black);
        }
    };
    CHECK(found(backstitchOf(trueSheet(drawn))).empty());
}

TEST_CASE("what white squares leave of a dark ground is no line") {
    DrawnPage drawn;
    drawn.pitch = GENERATE(17.3, 21.0, 25.0);
    drawn.left = 150.4;
    drawn.top = 130.3;
    drawn.columns = 36;
    drawn.rows = 26;
    const double inset = GENERATE(8.0, 12.0, 15.0, 18.0, 22.0);
    CAPTURE(inset, drawn.pitch);
    drawn.cell = [inset](QPainter& painter, int column, int row) {
        const bool isSquare = std::hypot(column - 18, row - 13) < 9;
        painter.fillRect(QRectF(0, 0, 100, 100),
                         isSquare ? QColor(96, 60, 66) : QColor(118, 92, 92));
        if (isSquare) {
            painter.fillRect(QRectF(inset, inset, 100 - 2 * inset, 100 - 2 * inset), Qt::white);
        } else {
            painter.setPen(QPen(QColor(70, 40, 46), 7));
            painter.drawEllipse(QRectF(26, 26, 48, 48));
        }
    };
    CHECK(trace::detail::backstitchOf(trueSheet(drawn)).lines.empty());
}

TEST_CASE("lines of two colours have two colours") {
    DrawnPage drawn = fiveShapes();
    drawOver(drawn, QColor(20, 20, 20), 6, kAround);
    drawOver(drawn, QColor(180, 30, 40), 6, {{4, 26, 16, 26}, {16, 26, 16, 32}, {2, 28, 2, 34}});
    const auto backstitch = backstitchOf(drawnSheet(drawn.page()));
    REQUIRE(backstitch.colours.size() == 2);
    CHECK(backstitch.lines.size() == kAround.size() + 3);
    for (const chart::Line& line : backstitch.lines) {
        const bool isRed = backstitch.colours.at(line.key).r > 120;
        CHECK(isRed == (line.y1 >= 26));
    }
}

TEST_CASE("cells of a colour of their own keep it where all of them have lines around") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        const bool isInside = column >= 4 && column < 6 && row >= 3 && row < 5;
        painter.fillRect(QRectF(0, 0, 100, 100),
                         isInside ? QColor(145, 114, 117) : QColor(63, 162, 193));
    };
    drawOver(drawn, QColor(10, 10, 10), 7,
             {{8, 6, 12, 6}, {8, 10, 12, 10}, {8, 6, 8, 10}, {12, 6, 12, 10}});
    const trace::detail::Sheet sheet = trueSheet(drawn);
    const cv::Mat bared = withoutLines(sheet, backstitchOf(sheet));
    const cv::Rect box = sheet.box(4, 3);
    for (const cv::Point& at : {cv::Point(3, 15), cv::Point(15, 3), cv::Point(15, 15)}) {
        const cv::Vec3b pixel = bared.at<cv::Vec3b>(box.tl() + at);
        CAPTURE(at.x, at.y);
        CHECK(cv::norm(cv::Vec3f(pixel) - cv::Vec3f(117, 114, 145)) < 25);
    }
}

TEST_CASE("a symbol that has lines along a side of all its cells is told from others") {
    DrawnPage drawn = fiveShapes();
    const auto isLined = [](int column, int row) {
        return row % 6 == 2 && column > 2 && column < 9;
    };
    drawn.cell = [&](QPainter& painter, int column, int row) {
        if (isLined(column, row)) {
            painter.setPen(QPen(Qt::black, 8));
            painter.drawLine(QPointF(25, 75), QPointF(75, 25));
            painter.drawLine(QPointF(25, 25), QPointF(75, 75));
        } else if (const int kind = kindAt(column, row, 3); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    drawOver(drawn, QColor(170, 30, 40), 5, {{6, 4, 18, 4}, {6, 16, 18, 16}, {6, 28, 18, 28}});
    const trace::Tracing tracing = tracedWhole(drawn.page());
    std::set<chart::KeyIndex> lined;
    std::set<chart::KeyIndex> others{chart::kBare};
    for (std::size_t i = 0; i < tracing.chart.grid.cells().size(); ++i) {
        const chart::Cell cell = tracing.chart.grid.cellAt(i);
        (isLined(cell.column, cell.row) ? lined : others).insert(tracing.chart.grid.at(cell));
    }
    CHECK(lined.size() == 1);
    CHECK_FALSE(others.contains(*lined.begin()));
}

TEST_CASE("without its lines a sheet looks as it does where none were drawn") {
    DrawnPage drawn = fiveShapes();
    const trace::detail::Sheet plain = trueSheet(drawn);
    drawOver(drawn, QColor(170, 30, 40), 6, kAround);
    const trace::detail::Sheet sheet = trueSheet(drawn);
    const auto backstitch = backstitchOf(sheet);
    const cv::Mat bared = withoutLines(sheet, backstitch);
    REQUIRE(bared.size() == plain.straight.size());
    int touched = 0;
    for (int i = 0; i < sheet.columns * sheet.rows; ++i) {
        const cv::Rect box = sheet.box(i % sheet.columns, i / sheet.columns);
        const cv::Rect inner(box.x + 4, box.y + 4, box.width - 8, box.height - 8);
        CAPTURE(i % sheet.columns, i / sheet.columns);
        CHECK(cv::norm(bared(inner), plain.straight(inner), cv::NORM_L1) / inner.area() < 30);
        touched += backstitch.over[static_cast<std::size_t>(i)];
    }
    // Both sides of 4 + 5 + 6 + 7 sides of cells, two of the cells twice, and what ends reach.
    CHECK(touched >= 42);
    CHECK(touched <= 60);
}
