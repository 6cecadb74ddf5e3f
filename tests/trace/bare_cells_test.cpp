#include "trace/detail/bare_cells.h"
#include "trace/tracing.h"
#include "traced_page.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>

using namespace otherskein;

namespace {

/// Cells that are bare and should not be, and the other way round.
int wronglyBare(const trace::Tracing& tracing, int kinds) {
    int wrong = 0;
    for (std::size_t i = 0; i < tracing.chart.grid.cells().size(); ++i) {
        const chart::Cell cell = tracing.chart.grid.cellAt(i);
        const bool isBare = kindAt(cell.column, cell.row, kinds) < 0;
        wrong += isBare == (tracing.chart.grid.at(cell) == chart::kBare) ? 0 : 1;
    }
    return wrong;
}

/// The same of those that are not doubtful.
int silentlyBare(const trace::Tracing& tracing, int kinds) {
    const std::vector<chart::Cell> told = tracing.doubtful();
    int silent = 0;
    for (std::size_t i = 0; i < tracing.chart.grid.cells().size(); ++i) {
        const chart::Cell cell = tracing.chart.grid.cellAt(i);
        const bool isBare = kindAt(cell.column, cell.row, kinds) < 0;
        if (isBare != (tracing.chart.grid.at(cell) == chart::kBare) &&
            std::ranges::find(told, cell) == told.end()) {
            ++silent;
        }
    }
    return silent;
}

} // namespace

TEST_CASE("small marks that recur are symbols, not dirt") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(QColor(60, 60, 60));
        const int kind = kindAt(column, row, 3);
        if (kind == 0) {
            painter.drawRect(QRectF(25, 72, 50, 8)); // a low bar
        } else if (kind == 1) {
            painter.drawEllipse(QRectF(44, 44, 14, 14)); // a dot
        } else if (kind == 2) {
            painter.setBrush(QColor(210, 210, 210));
            painter.drawRect(QRectF(30, 30, 40, 40)); // pale
        }
    };
    CHECK(wronglyBare(tracedWhole(drawn.page()), 3) == 0);
}

TEST_CASE("paper in the shade is bare, a pale fill is not") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int kind = kindAt(column, row, 3); kind == 0) {
            painter.fillRect(QRectF(0, 0, 100, 100), QColor(238, 244, 250));
        } else if (kind > 0) {
            drawShape(painter, kind);
        }
    };
    drawn.over = [](QPainter& painter) { // falls off towards the right
        QLinearGradient shade(500, 0, 900, 0);
        shade.setColorAt(0, QColor(0, 0, 0, 0));
        shade.setColorAt(1, QColor(0, 0, 0, 40));
        painter.fillRect(QRectF(0, 0, 1100, 900), shade);
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    // All but some of the 432, in places where a shaded fill and lighter paper do not touch.
    CHECK(wronglyBare(tracing, 3) < 20);
}

TEST_CASE("a chart without bare cells has none, also of pale fills alone") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        const std::array<QColor, 3> colours{QColor(235, 226, 236), QColor(226, 240, 232),
                                            QColor(244, 232, 214)};
        painter.fillRect(QRectF(0, 0, 100, 100),
                         colours[static_cast<std::size_t>((column / 3 + row / 2) % 3)]);
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(std::ranges::count(tracing.chart.grid.cells(), chart::kBare) == 0);
}

TEST_CASE("a chart's own tint is bare where its marks stand on it, or all else has marks") {
    const bool isFilled = GENERATE(false, true);
    const QColor tint = GENERATE(QColor(244, 236, 214), QColor(205, 219, 199));
    DrawnPage drawn;
    drawn.cell = [&](QPainter& painter, int column, int row) {
        const std::array<QColor, 3> fills{QColor(236, 190, 60), Qt::white, QColor(120, 190, 220)};
        const int kind = kindAt(column, row, 3);
        painter.fillRect(QRectF(0, 0, 100, 100),
                         isFilled && kind >= 0 ? fills[static_cast<std::size_t>(kind)] : tint);
        if (kind >= 0) {
            drawShape(painter, kind + 1);
        }
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(wronglyBare(tracing, 3) == 0);
    REQUIRE(tracing.chart.key.size() == 3);
    if (!isFilled) { // nor do they show the tint as theirs
        for (const chart::KeyRow& row : tracing.chart.key) {
            CHECK(std::abs(row.pixel.r - tint.red()) > 12);
        }
    }
}

TEST_CASE("a coloured chart's cells that are as the dark page around it are bare") {
    DrawnPage drawn;
    drawn.paper = QColor(28, 30, 38);
    drawn.cell = [](QPainter& painter, int column, int row) {
        const std::array<QColor, 3> fills{QColor(60, 150, 110), QColor(150, 60, 140),
                                          QColor(230, 220, 120)};
        if (const int kind = kindAt(column, row, 3); kind >= 0) {
            painter.fillRect(QRectF(0, 0, 100, 100), fills[static_cast<std::size_t>(kind)]);
            drawShape(painter, kind + 1);
        }
    };
    CHECK(wronglyBare(tracedWhole(drawn.page()), 3) == 0);
}

TEST_CASE("the palest of plain colours is bare where the key shows all others, and only there") {
    const bool isInKey = GENERATE(false, true);
    const QColor tint = GENERATE(QColor(246, 231, 205), QColor(220, 224, 224)); // nearly white
    const std::array<QColor, 3> colours{QColor(200, 90, 80), QColor(90, 150, 210),
                                        QColor(236, 200, 90)};
    DrawnPage drawn;
    drawn.top = 60;
    drawn.cell = [&](QPainter& painter, int column, int row) {
        const int kind = kindAt(column / 2, row, 3);
        painter.fillRect(QRectF(0, 0, 100, 100),
                         kind >= 0 ? colours[static_cast<std::size_t>(kind)] : tint);
    };
    drawn.over = [&](QPainter& painter) {
        for (int i = 0; i < (isInKey ? 4 : 3); ++i) {
            const QRectF patch(160, 650 + 40 * i, 28, 28);
            painter.fillRect(patch, i < 3 ? colours[static_cast<std::size_t>(i)] : tint);
            painter.setPen(QPen(Qt::black, 1));
            painter.drawRect(patch);
        }
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(tracing.chart.key.size() == (isInKey ? 4 : 3));
    for (int column = 0; column < drawn.columns; ++column) {
        const bool isBare = kindAt(column / 2, 5, 3) < 0 && !isInKey;
        CHECK((tracing.chart.grid.at({column, 5}) == chart::kBare) == isBare);
    }
}

TEST_CASE("a fine pattern is a mark, on a fill as pale as a ground") {
    DrawnPage drawn;
    drawn.pitch = 32;
    drawn.cell = [](QPainter& painter, int column, int row) {
        painter.fillRect(QRectF(0, 0, 100, 100),
                         (column + row) % 3 == 0 ? QColor(230, 120, 110) : QColor(90, 120, 200));
        if ((column + row) % 3 != 0) {
            drawShape(painter, (column + row) % 3);
            return;
        }
        painter.setPen(QPen(Qt::white, 7));
        for (int i = 18; i < 90; i += 16) {
            painter.drawLine(i, 10, i, 90);
            painter.drawLine(10, i, 90, i);
        }
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(std::ranges::count(tracing.chart.grid.cells(), chart::kBare) == 0);
}

TEST_CASE("a thin sign on a faint page is no bare cell") {
    trace::detail::Sheet sheet;
    sheet.cell = 24;
    sheet.columns = 8;
    sheet.rows = 6;
    sheet.straight = cv::Mat(144, 192, CV_8UC3, cv::Scalar::all(252));
    trace::detail::Groups groups;
    groups.count = 3;
    groups.confidence.assign(48, 1);
    for (int i = 0; i < 48; ++i) {
        const cv::Rect box = sheet.box(i % 8, i / 8);
        groups.of.push_back(i % 3);
        const cv::Scalar ink = cv::Scalar::all(228);
        if (i % 3 == 0) {
            sheet.straight(cv::Rect(box.x + 11, box.y + 5, 3, 14)).setTo(ink);
        } else { // thicker, upright or level
            const cv::Size bar = i % 3 == 1 ? cv::Size(5, 16) : cv::Size(16, 5);
            sheet.straight(cv::Rect(cv::Point(box.x + 4, box.y + 4), bar)).setTo(ink);
        }
    }
    const cv::Mat looks = trace::detail::looksOf(sheet);
    auto groupLooks = trace::detail::groupLooks(looks, groups);
    const trace::detail::LookGrid grid{0, 8, 6};
    trace::detail::markBare(looks, std::span(&grid, 1), groups, groupLooks);
    for (const trace::detail::GroupLook& one : groupLooks) {
        CHECK_FALSE(one.isBare);
    }
}

TEST_CASE(
    "a thin grey sign among bold black ones is no bare cell, paper in a slight shade is one") {
    const bool isSign = GENERATE(true, false);
    trace::detail::Sheet sheet;
    sheet.cell = 24;
    sheet.columns = 8;
    sheet.rows = 6;
    sheet.straight = cv::Mat(144, 192, CV_8UC3, cv::Scalar::all(252));
    trace::detail::Groups groups;
    groups.count = 2;
    groups.confidence.assign(48, 1);
    for (int i = 0; i < 48; ++i) {
        const cv::Rect box = sheet.box(i % 8, i / 8);
        const cv::Point middle = box.tl() + cv::Point(12, 12);
        groups.of.push_back(i % 2);
        if (i % 2 == 0) {
            sheet.straight(cv::Rect(box.x + 6, box.y + 6, 12, 12)).setTo(cv::Scalar::all(20));
        } else if (isSign) {
            cv::circle(sheet.straight, middle, 6, cv::Scalar::all(212), 1, cv::LINE_AA);
        } else {
            for (int y = 0; y < 24; ++y) {
                sheet.straight(cv::Rect(box.x, box.y + y, 24, 1)).setTo(cv::Scalar::all(228 + y));
            }
        }
    }
    const cv::Mat looks = trace::detail::looksOf(sheet);
    auto groupLooks = trace::detail::groupLooks(looks, groups);
    const trace::detail::LookGrid grid{0, 8, 6};
    trace::detail::markBare(looks, std::span(&grid, 1), groups, groupLooks);
    CHECK_FALSE(groupLooks[0].isBare);
    CHECK(groupLooks[1].isBare == !isSign);
}

TEST_CASE("an outline along the cell's rim is a symbol where nothing is bare") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if ((column / 2 + row) % 3 != 0) {
            drawShape(painter, 1 + (column / 2 + row) % 3);
            return;
        }
        painter.setPen(QPen(QColor(20, 20, 20), 6));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(QRectF(13, 13, 74, 74));
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    CHECK(std::ranges::count(tracing.chart.grid.cells(), chart::kBare) == 0);
}

TEST_CASE("a fold's crease through bare cells makes no symbol of them") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int kind = kindAt(column, row, 3); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    drawn.over = [](QPainter& painter) { // within a row of cells, from side to side
        QLinearGradient crease(0, 140 + 7 * 30 + 4, 0, 140 + 7 * 30 + 26);
        crease.setColorAt(0, QColor(0, 0, 0, 0));
        crease.setColorAt(0.5, QColor(0, 0, 0, 90));
        crease.setColorAt(1, QColor(0, 0, 0, 0));
        painter.fillRect(QRectF(0, 140 + 7 * 30 + 4, 1100, 22), crease);
    };
    CHECK(wronglyBare(tracedWhole(drawn.page()), 3) == 0);
}

TEST_CASE("a frame that reaches into the outermost cells makes no symbol of them") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int kind = kindAt(column, row, 3); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    drawn.over = [&drawn](QPainter& painter) {
        painter.setPen(QPen(Qt::black, 14));
        painter.drawRect(
            QRectF(drawn.left, drawn.top, drawn.pitch * drawn.columns, drawn.pitch * drawn.rows));
    };
    CHECK(silentlyBare(tracedWhole(drawn.page()), 3) == 0);
}

TEST_CASE("cells in a round stain are bare, a fill within grid lines is not") {
    const bool isFilled = GENERATE(false, true);
    DrawnPage drawn;
    drawn.paper = QColor(250, 249, 246);
    drawn.cell = [isFilled](QPainter& painter, int column, int row) {
        if (isFilled && column >= 14 && column < 20 && row >= 3 && row < 12) {
            painter.fillRect(QRectF(0, 0, 100, 100), QColor(238, 224, 205));
        } else if (const int kind = kindAt(column, row, 3); kind >= 0) {
            drawShape(painter, kind);
        }
    };
    drawn.over = [isFilled](QPainter& painter) { // a tint with a darker rim
        if (!isFilled) {
            painter.setCompositionMode(QPainter::CompositionMode_Multiply);
            painter.setPen(QPen(QColor(220, 195, 165), 16));
            painter.setBrush(QColor(238, 224, 205));
            painter.drawEllipse(QRectF(420, 200, 270, 260));
        }
    };
    const trace::Tracing tracing = tracedWhole(drawn.page());
    if (isFilled) {
        for (int row = 3; row < 12; ++row) {
            CHECK(tracing.chart.grid.at({16, row}) != chart::kBare);
        }
    } else {
        CHECK(wronglyBare(tracing, 3) < 10); // of 432, and told
        CHECK(silentlyBare(tracing, 3) == 0);
    }
}

TEST_CASE("strokes from side to side are symbols where they end with their cells") {
    DrawnPage drawn;
    drawn.cell = [](QPainter& painter, int column, int row) {
        const int kind = kindAt(column, row, 3);
        if (kind == 0) {
            painter.fillRect(QRectF(0, 40, 100, 20), Qt::black);
        } else if (kind == 1) {
            painter.fillRect(QRectF(0, 72, 100, 22), Qt::black); // along a side
        } else if (kind == 2) {
            painter.fillRect(QRectF(36, 0, 24, 100), Qt::black);
        }
    };
    CHECK(wronglyBare(tracedWhole(drawn.page()), 3) == 0);
}

TEST_CASE("a group whose cells share nothing but some dirt is bare, and doubtful") {
    trace::detail::Sheet sheet;
    sheet.cell = 24;
    sheet.columns = 6;
    sheet.rows = 6;
    sheet.straight = cv::Mat(144, 144, CV_8UC3, cv::Scalar::all(250));
    trace::detail::Groups groups;
    groups.count = 3; // paper, dirt, a symbol that is no larger
    groups.of.assign(36, 0);
    groups.confidence.assign(36, 1);
    constexpr std::array<std::array<int, 2>, 6> kPlaces{
        {{5, 6}, {13, 5}, {8, 14}, {15, 15}, {10, 9}, {5, 14}}};
    for (int i = 0; i < 6; ++i) {
        const auto [x, y] = kPlaces[static_cast<std::size_t>(i)];
        sheet.straight(cv::Rect(24 * i + x, 24 + y, 4, 4)).setTo(cv::Scalar::all(30));
        groups.of[static_cast<std::size_t>(6 + i)] = 1;
        sheet.straight(cv::Rect(24 * i + 8, 96 + 12, 4, 4)).setTo(cv::Scalar::all(30));
        groups.of[static_cast<std::size_t>(24 + i)] = 2;
    }
    const cv::Mat looks = trace::detail::looksOf(sheet);
    auto groupLooks = trace::detail::groupLooks(looks, groups);
    const trace::detail::LookGrid grid{0, 6, 6};
    trace::detail::markBare(looks, std::span(&grid, 1), groups, groupLooks);
    CHECK(groupLooks[1].isBare);
    CHECK_FALSE(groupLooks[2].isBare);
    for (std::size_t i = 6; i < 12; ++i) {
        CHECK(groups.confidence[i] < trace::kDoubtful);
    }
}

TEST_CASE("groups of specks that lie anywhere are bare, and doubtful; dots at one place are not") {
    trace::detail::Sheet sheet;
    sheet.cell = 24;
    sheet.columns = 10;
    sheet.rows = 10;
    sheet.straight = cv::Mat(240, 240, CV_8UC3, cv::Scalar::all(250));
    trace::detail::Groups groups;
    groups.count = 10; // paper, specks at eight places, a dot
    groups.of.assign(100, 0);
    groups.confidence.assign(100, 1);
    constexpr std::array<std::array<int, 2>, 8> kPlaces{
        {{5, 6}, {13, 5}, {8, 14}, {15, 15}, {10, 9}, {5, 14}, {15, 10}, {5, 10}}};
    const auto draw = [&](std::size_t cell, int x, int y, std::size_t group) {
        const cv::Rect box = sheet.box(static_cast<int>(cell) % 10, static_cast<int>(cell) / 10);
        sheet.straight(cv::Rect(box.x + x, box.y + y, 3, 4)).setTo(cv::Scalar::all(40));
        groups.of[cell] = static_cast<int>(group);
    };
    for (std::size_t i = 0; i < 32; ++i) {
        const auto [x, y] = kPlaces[i % 8];
        draw(3 * i, x + (i % 3 == 0 ? 1 : 0), y, 1 + i % 8);
    }
    for (std::size_t i = 0; i < 20; ++i) {
        draw(3 * i + 1, 10, 16, 9);
    }
    const cv::Mat looks = trace::detail::looksOf(sheet);
    auto groupLooks = trace::detail::groupLooks(looks, groups);
    const trace::detail::LookGrid grid{0, 10, 10};
    trace::detail::markBare(looks, std::span(&grid, 1), groups, groupLooks);
    for (std::size_t g = 1; g < 9; ++g) {
        CAPTURE(g);
        CHECK(groupLooks[g].isBare);
    }
    CHECK(groups.confidence[3] < trace::kDoubtful);
    CHECK_FALSE(groupLooks[9].isBare);
    CHECK(groups.confidence[1] > trace::kDoubtful);
}
