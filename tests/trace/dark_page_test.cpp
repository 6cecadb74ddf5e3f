#include "drawn_page.h"
#include "trace/tracing.h"

#include <catch2/catch.hpp>

using namespace otherskein;

TEST_CASE("A chart on dark paper ends where its cells do") {
    DrawnPage drawn;
    drawn.paper = QColor(28, 30, 36);
    drawn.cell = [](QPainter& painter, int column, int row) {
        const int kind = (column / 5 + row / 4) % 3;
        painter.fillRect(QRectF(0, 0, 100, 100), QColor(200 - 40 * kind, 140, 150 + 40 * kind));
        painter.setPen(QPen(Qt::black, 8));
        painter.drawRect(30, 30, 20 + 20 * kind, 40);
    };
    drawn.over = [&](QPainter& painter) {
        painter.setPen(Qt::white);
        QFont font = painter.font();
        font.setPixelSize(28);
        painter.setFont(font);
        for (int i = 10; i <= drawn.columns; i += 10) {
            painter.drawText(QPointF(drawn.left + drawn.pitch * i - 16, drawn.top - 14),
                             QString::number(i));
        }
        for (int i = 3; i <= drawn.rows; i += 3) {
            painter.drawText(QPointF(drawn.left - 46, drawn.top + drawn.pitch * i + 6),
                             QString::number(10 * i));
        }
        font.setPixelSize(34);
        painter.setFont(font);
        painter.drawText(QPointF(drawn.left, drawn.top - 60),
                         QStringLiteral("A dark evening lane"));
    };
    const auto grids = trace::gridsOn(drawn.page());
    REQUIRE(grids.size() == 1);
    CHECK(grids[0].columns == drawn.columns);
    CHECK(grids[0].rows == drawn.rows);
}
