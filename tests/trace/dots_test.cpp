#include "trace/tracing.h"

#include <QPainter>
#include <catch2/catch.hpp>

#include <cmath>

using namespace otherskein;

namespace {

/// A page that prints a dot at every crossing, bold lines at every tenth, and a frame.
struct DotPage {
    int columns = 39;
    int rows = 26;
    double pitch = 47.3;
    double dots = 0; ///< cells by which the dots lie off the lines
    bool hasFrame = true;
    void (*cell)(QPainter&, int column, int row) = nullptr; ///< the cell is 1 × 1

    [[nodiscard]] trace::Page page() const {
        const QPointF origin(150.3, 120.6);
        QImage picture(2100, 1500, QImage::Format_RGB32);
        picture.fill(Qt::white);
        QPainter painter(&picture);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.translate(origin);
        painter.save();
        painter.scale(pitch, pitch);
        for (int row = 0; row < rows; ++row) {
            for (int column = 0; column < columns; ++column) {
                painter.save();
                painter.translate(column, row);
                cell(painter, column, row);
                painter.restore();
            }
        }
        painter.restore();
        const auto lineOf = [&](int every, int count, bool isRow) {
            const double far = (isRow ? columns : rows) * pitch;
            painter.setPen(QPen(Qt::black, 2.5));
            for (int i = 0; i <= count; i += every) {
                const double at = i * pitch;
                painter.drawLine(isRow ? QPointF(0, at) : QPointF(at, 0),
                                 isRow ? QPointF(far, at) : QPointF(at, far));
            }
        };
        for (int row = 0; row <= rows; ++row) {
            for (int column = 0; column <= columns; ++column) {
                painter.fillRect(
                    QRectF((column + dots) * pitch - 2, (row + dots) * pitch - 2, 4, 4),
                    QColor(120, 120, 130));
            }
        }
        if (hasFrame) {
            lineOf(10, rows, true);
            lineOf(10, columns, false);
            lineOf(rows, rows, true);
            lineOf(columns, columns, false);
        }
        painter.end();
        trace::Page result;
        result.source = QStringLiteral("drawn");
        result.picture = picture.convertToFormat(QImage::Format_BGR888);
        return result;
    }
};

/// Filled, in large parts.
void fillCell(QPainter& painter, int column, int row) {
    const bool isBand = row == 19 || row == 22;
    const bool isDiamond = std::abs(column % 11 - 5) + std::abs(row - 6) < 6;
    const bool isBlock = column % 11 > 3 && column % 11 < 7 && row > 13 && row < 18;
    if (isBand || isDiamond || isBlock) {
        painter.fillRect(QRectF(0, 0, 1, 1), Qt::black);
    }
}

void signCell(QPainter& painter, int column, int row) {
    painter.setPen(QPen(Qt::black, 0.09));
    const int kind = (column / 5 + row / 4 + column * row / 9) % 3;
    painter.drawLine(QPointF(0.3, 0.15), QPointF(0.3, 0.85));
    if (kind > 0) {
        painter.drawLine(QPointF(0.3, 0.2), QPointF(0.75, 0.2));
    }
    if (kind > 1) {
        painter.drawLine(QPointF(0.75, 0.2), QPointF(0.75, 0.85));
    }
}

} // namespace

TEST_CASE("A dot at every crossing within a frame tells the grid") {
    for (const auto cell : {fillCell, signCell}) {
        DotPage dots;
        dots.cell = cell;
        const auto grids = trace::gridsOn(dots.page());
        REQUIRE(grids.size() == 1);
        CHECK(grids[0].columns == dots.columns);
        CHECK(grids[0].rows == dots.rows);
        const QPointF off = grids[0].outline[0] - QPointF(150.3 - 0.5, 120.6 - 0.5);
        CHECK(std::hypot(off.x(), off.y()) < 1.5);
    }
}

TEST_CASE("Dots within cells are no crossings") {
    DotPage dots;
    dots.cell = [](QPainter&, int, int) {};
    dots.dots = 0.5;
    for (const trace::FoundGrid& grid : trace::gridsOn(dots.page())) {
        const QPointF off = grid.outline[0] - QPointF(150.3 - 0.5, 120.6 - 0.5);
        const double cells = off.x() / dots.pitch;
        CHECK(std::abs(cells - std::round(cells)) < 0.25);
    }
}
