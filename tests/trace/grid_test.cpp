#include "trace/detail/lattice_choice.h"
#include "trace/detail/lattice_lines.h"
#include "trace/detail/views.h"
#include "trace/tracing.h"

#include <QPainter>
#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

using namespace otherskein;

namespace {

/// A chart page that a test draws, in a style of its own.
struct Style {
    QSize size{1500, 1400};
    int columns = 30;
    int rows = 25;
    double pitch = 27.3;
    double turn = 0;   ///< degrees
    double thin = 1.2; ///< px; 0: no lines but the borders of colours and the bold ones
    int every = 10;    ///< lines from bold to bold; 0: none is
    double border = 3; ///< px, growing outwards
    QColor lines{60, 60, 60};
    QColor paper{Qt::white};
    std::function<void(QPainter&, int column, int row)> cell = {}; ///< the cell is 100 × 100
};

struct Drawn {
    trace::Page page;
    QPolygonF corners;
};

void drawGrid(QPainter& painter, const Style& style, const QPointF& origin) {
    const double width = style.columns * style.pitch;
    const double height = style.rows * style.pitch;
    painter.save();
    painter.translate(origin);
    for (int row = 0; row < style.rows && style.cell; ++row) {
        for (int column = 0; column < style.columns; ++column) {
            painter.save();
            painter.translate(column * style.pitch, row * style.pitch);
            painter.scale(style.pitch / 100, style.pitch / 100);
            style.cell(painter, column, row);
            painter.restore();
        }
    }
    const auto line = [&](int i, bool isRow) {
        const bool isBold = style.every > 0 && i % style.every == 0;
        if (!isBold && style.thin <= 0) {
            return;
        }
        const QPen pen(isBold ? QColor(Qt::black) : style.lines, isBold ? 3 : style.thin,
                       Qt::SolidLine, Qt::FlatCap);
        painter.setPen(pen);
        const double at = i * style.pitch;
        painter.drawLine(isRow ? QPointF(0, at) : QPointF(at, 0),
                         isRow ? QPointF(width, at) : QPointF(at, height));
    };
    for (int i = 1; i < style.columns; ++i) {
        line(i, false);
    }
    for (int i = 1; i < style.rows; ++i) {
        line(i, true);
    }
    if (style.border > 0) {
        painter.setPen(QPen(Qt::black, style.border, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
        painter.setBrush(Qt::NoBrush);
        const double out = style.border / 2;
        painter.drawRect(QRectF(-out, -out, width + style.border, height + style.border));
    }
    painter.restore();
}

Drawn drawn(const Style& style, const std::function<void(QPainter&)>& over = {}) {
    const QSizeF size = style.size;
    QImage picture(style.size, QImage::Format_RGB32);
    picture.fill(style.paper);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(size.width() / 2, size.height() / 2);
    painter.rotate(style.turn);
    painter.translate(-size.width() / 2, -size.height() / 2);
    const QPointF origin(170.4, 160.7);
    drawGrid(painter, style, origin);
    if (over) {
        over(painter);
    }
    const QRectF box(origin, QSizeF(style.columns * style.pitch, style.rows * style.pitch));
    Drawn result;
    result.corners << painter.transform().map(box.topLeft())
                   << painter.transform().map(box.topRight())
                   << painter.transform().map(box.bottomRight())
                   << painter.transform().map(box.bottomLeft());
    painter.end();
    result.page.source = QStringLiteral("drawn");
    result.page.picture = picture.convertToFormat(QImage::Format_BGR888);
    return result;
}

void checkFound(const Drawn& page, const Style& style) {
    const auto grids = trace::gridsOn(page.page);
    REQUIRE(grids.size() == 1);
    CHECK(grids[0].columns == style.columns);
    CHECK(grids[0].rows == style.rows);
    for (int i = 0; i < 4; ++i) {
        const QPointF off = grids[0].outline[i] - page.corners[i];
        CHECK(std::hypot(off.x(), off.y()) < style.pitch / 4);
    }
}

/// A third of the cells each: bare, a bar across the middle, a cross.
void drawSymbol(QPainter& painter, int column, int row) {
    painter.setPen(QPen(Qt::black, 10));
    const int kind = (column / 4 + row / 3 + column * row) % 3;
    if (kind > 0) {
        painter.drawLine(QPointF(18, 50), QPointF(82, 50));
    }
    if (kind > 1) {
        painter.drawLine(QPointF(50, 18), QPointF(50, 82));
    }
}

} // namespace

TEST_CASE("A grid whose pitch is not a whole number of pixels is found, turned or not") {
    for (const double pitch : {12.4, 20.83, 41.67}) {
        for (const double turn : {-3.0, 0.0, 3.0}) {
            Style style;
            style.pitch = pitch;
            style.columns = static_cast<int>(1000 / pitch);
            style.rows = static_cast<int>(900 / pitch);
            style.turn = turn;
            style.cell = drawSymbol;
            CAPTURE(pitch, turn);
            checkFound(drawn(style), style);
        }
    }
}

TEST_CASE("Faint thin lines count where every fifth line is bold") {
    Style style;
    style.every = 5;
    style.lines = QColor(205, 205, 205);
    style.paper = QColor(222, 222, 218);
    style.cell = drawSymbol;
    checkFound(drawn(style), style);
}

TEST_CASE("A border as thick as half a cell is no row of cells") {
    Style style;
    style.pitch = 22.6;
    style.border = 11;
    style.cell = drawSymbol;
    checkFound(drawn(style), style);
}

TEST_CASE("Thin lines that ink hides in half of the cells are still the grid's") {
    Style style;
    style.pitch = 21.04;
    style.every = 5;
    style.columns = 50;
    style.rows = 50;
    style.lines = QColor(160, 160, 160);
    style.cell = [](QPainter& painter, int column, int row) {
        if (std::hypot(column - 25, row - 25) < 20) {
            painter.fillRect(QRectF(-1, -1, 102, 102), Qt::black);
        }
    };
    checkFound(drawn(style), style);
}

TEST_CASE("Coloured cells without lines are a grid") {
    Style style;
    style.thin = 0;
    style.border = 2;
    style.cell = [](QPainter& painter, int column, int row) {
        const int kind = (column / 3 + row / 2 + (column * row) % 5) % 6;
        painter.fillRect(QRectF(-1, -1, 102, 102), QColor::fromHsv(60 * kind, 150, 200));
    };
    checkFound(drawn(style), style);
}

TEST_CASE("Two grids on the same lines, one below the other, are two") {
    Style style;
    style.rows = 22;
    style.cell = drawSymbol;
    Style second = style;
    second.columns = 20;
    second.rows = 14;
    const QPointF origin(170.4, 160.7 + 27.3 * 26);
    const Drawn page = drawn(style, [&](QPainter& painter) { drawGrid(painter, second, origin); });
    const auto grids = trace::gridsOn(page.page);
    REQUIRE(grids.size() == 2);
    CHECK(grids[0].columns == style.columns);
    CHECK(grids[0].rows == style.rows);
    CHECK(grids[1].columns == second.columns);
    CHECK(grids[1].rows == second.rows);
}

TEST_CASE("Words alone are no grid") {
    Style style;
    style.columns = 0;
    style.rows = 0;
    style.border = 0;
    const Drawn page = drawn(style, [](QPainter& painter) {
        painter.setFont(QFont(QStringLiteral("serif"), 18));
        painter.setPen(Qt::black);
        for (int i = 0; i < 30; ++i) {
            painter.drawText(QPointF(160, 200 + 36 * i),
                             QStringLiteral("the river kept its colour all autumn and nobody in "
                                            "the lane could say why"));
        }
    });
    CHECK(trace::gridsOn(page.page).empty());
}

TEST_CASE("Numbers in a dense row along the border are no row of cells") {
    Style style;
    style.pitch = 19.4;
    style.columns = 50;
    style.rows = 40;
    const Drawn page = drawn(style, [&](QPainter& painter) {
        painter.setPen(QPen(Qt::black, 2.4));
        for (int column = 0; column < style.columns; ++column) {
            const QRectF box(170.4 + column * style.pitch + 1, 160.7 - 18.5, style.pitch - 2.5, 12);
            painter.drawRect(box.adjusted(0, 0, -box.width() / 2 - 1, 0));
            painter.drawRect(box.adjusted(box.width() / 2 + 1, 0, 0, 0));
        }
    });
    checkFound(page, style);
}

TEST_CASE("Cells larger than a chart's are not taken for several of its cells") {
    Style style;
    style.pitch = 183;
    style.columns = 6;
    style.rows = 6;
    style.every = 3;
    style.cell = [](QPainter& painter, int column, int row) {
        if ((column * 5 + row * 3) % 4 == 0) {
            painter.setPen(QPen(Qt::black, 6));
            painter.drawEllipse(QPointF(50, 50), 12, 22);
        }
    };
    CHECK(trace::gridsOn(drawn(style).page).empty());
}

TEST_CASE("A frame of black cells is not the grid's last line") {
    for (const double pitch : {20.2, 21.5, 22.1, 23.62, 24.4, 25.3, 28.7}) {
        Style style;
        style.pitch = pitch;
        style.columns = 41;
        style.rows = 38;
        style.thin = 1;
        style.lines = QColor(140, 140, 140);
        style.cell = [&](QPainter& painter, int column, int row) {
            const int in =
                std::min({column, row, style.columns - 1 - column, style.rows - 1 - row});
            if (in == 1 || (in > 2 && (column / 3 * 7 + row / 5 * 3) % 4 == 0)) {
                painter.fillRect(QRectF(-1, -1, 102, 102), Qt::black);
            }
        };
        CAPTURE(pitch);
        checkFound(drawn(style), style);
    }
}

TEST_CASE("Staves of five lines with notes on them are no grid") {
    for (const double scale : {2.5, 3.1, 3.7, 4.2}) {
        Style style;
        style.size = QSize(600, 820) * scale;
        style.columns = 0;
        style.rows = 0;
        style.border = 0;
        const Drawn page = drawn(style, [&](QPainter& painter) {
            constexpr double kStep = 6;
            painter.scale(scale, scale);
            unsigned random = 7;
            for (int staff = 0; staff < 9; ++staff) {
                painter.save();
                painter.translate(50, 110 + 76 * staff);
                painter.setPen(QPen(Qt::black, 0.6));
                for (int line = 0; line < 5; ++line) {
                    painter.drawLine(QPointF(0, line * kStep), QPointF(495, line * kStep));
                }
                for (int bar = 0; bar <= 4; ++bar) {
                    const double x = 123.75 * bar;
                    painter.drawLine(QPointF(x, 0), QPointF(x, 4 * kStep));
                }
                for (int note = 0; note < 16; ++note) {
                    random = random * 1103515245U + 12345U;
                    const int height = static_cast<int>(random / 65536U % 10) - 1;
                    const QPointF at(35 + 28.5 * note, kStep / 2 * height);
                    painter.setBrush(random / 4096U % 3 == 0 ? Qt::white : Qt::black);
                    painter.drawEllipse(at, 3.6, 2.7);
                    painter.drawLine(at + QPointF(3.4, 0), at + QPointF(3.4, -19));
                }
                painter.restore();
            }
        });
        CAPTURE(scale);
        CHECK(trace::gridsOn(page.page).empty());
    }
}

TEST_CASE("A frame ends a grid whose lines are only around what is stitched") {
    Style style;
    style.thin = 0;
    style.every = 0;
    style.border = 2;
    style.cell = [](QPainter& painter, int column, int row) {
        if (std::hypot(column - 14, row - 14) < 9) {
            painter.setPen(QPen(Qt::black, 4));
            painter.setBrush((column / 3 + row / 4) % 2 == 0 ? QColor(190, 90, 120)
                                                             : QColor(120, 170, 90));
            painter.drawRect(0, 0, 100, 100);
        }
    };
    checkFound(drawn(style), style);
    // The page's own frame, further out, is none of the grid's.
    checkFound(drawn(style,
                     [](QPainter& painter) {
                         painter.setPen(QPen(Qt::black, 2));
                         painter.drawRect(30, 30, 1440, 1340);
                     }),
               style);
}

TEST_CASE("Where only every tenth line is drawn, those tell where cells lie, not symbols") {
    Style style;
    style.rows = 35;
    style.pitch = 30;
    style.thin = 0;
    style.size = {1300, 1450};
    style.cell = drawSymbol;
    const Drawn page = drawn(style);
    const auto maps = trace::detail::lineMapsOf(trace::detail::viewOf(page.page.picture), 8);
    // Half a cell aside, and by one cell in fifty too narrow: as fitted to symbols.
    trace::detail::Lattice lattice;
    lattice.pitch = 30;
    lattice.toPage = cv::Matx33d(30, 0, 170.4 - 15, 0, 29.4, 160.7, 0, 0, 1);
    const auto columns = trace::detail::strongLinesOf(maps, lattice, {0, 0, 32, 37}, false);
    REQUIRE(columns);
    CHECK(columns->areAlone);
    CHECK(std::abs(columns->start) > 0.35);
    CHECK(columns->step == Approx(1).margin(0.006));
    const auto rows = trace::detail::strongLinesOf(maps, lattice, {0, 0, 32, 37}, true);
    REQUIRE(rows);
    CHECK(rows->step == Approx(30 / 29.4).margin(0.006));
    // With all lines drawn there is nothing to move.
    style.thin = 1.2;
    const Drawn whole = drawn(style);
    const auto others = trace::detail::lineMapsOf(trace::detail::viewOf(whole.page.picture), 8);
    lattice.toPage = cv::Matx33d(30, 0, 170.4, 0, 30, 160.7, 0, 0, 1);
    const auto bold = trace::detail::strongLinesOf(others, lattice, {0, 0, 30, 35}, false);
    CHECK((!bold || !bold->areAlone));
}

TEST_CASE("Bold lines are every fifth one where what is printed repeats so") {
    using namespace trace::detail;
    const auto factorOf = [](const std::vector<double>& wide, const std::vector<double>& high) {
        std::vector<Candidate> all;
        for (const int parts : {5, 2, 1}) {
            all.push_back({{1, parts, 0}, 80.0 / parts});
        }
        std::vector<Period> ofColumns;
        std::vector<Period> ofRows;
        for (std::size_t i = 0; i < all.size(); ++i) {
            ofColumns.push_back({wide[i], all[i].scaling.factor()});
            ofRows.push_back({high[i], all[i].scaling.factor()});
        }
        std::pair<Choice, Choice> best{{{1, 1, 0}, ofColumns[2]}, {{1, 1, 0}, ofRows[2]}};
        refineBold(all, ofColumns, all, ofRows, best);
        return best.first.scaling.factor();
    };
    // As seen on pages: faint lines between bold ones; squares within cells, all alike.
    CHECK(factorOf({1.4, 0.5, 3.3}, {2.1, 0.3, 1.5}) == 0.2);
    CHECK(factorOf({2.1, 1.8, 4.4}, {1.8, 1.9, 3.7}) == 1);
}

TEST_CASE("Oblong cells of nine pixels are not taken for parts of larger ones") {
    Style style;
    style.columns = 96;
    style.rows = 80;
    style.pitch = 9.3;
    style.thin = 1;
    style.border = 0;
    style.lines = Qt::white;
    style.every = 0;
    style.cell = [](QPainter& painter, int column, int row) {
        const int kind = (column / 7 + row / 5) % 3;
        painter.fillRect(QRectF(0, 0, 100, 100), QColor(120 + 20 * kind, 150 - 30 * kind, 110));
    };
    checkFound(drawn(style), style);
}
