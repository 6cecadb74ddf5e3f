// Bare cells of pages whose lines are broad and blurred.
#include "trace/detail/views.h"
#include "traced_page.h"

#include <opencv2/imgproc.hpp>

#include <catch2/catch.hpp>

using namespace otherskein;

TEST_CASE("cells between broad blurred lines are bare where most cells are so") {
    DrawnPage drawn;
    drawn.columns = 40;
    drawn.rows = 30;
    drawn.pitch = 18;
    const auto isSign = [](int column, int row) { return (7 * column + 11 * row) % 13 == 0; };
    drawn.cell = [&](QPainter& painter, int column, int row) {
        if (isSign(column, row)) {
            painter.fillRect(QRectF(30, 30, 40, 40), Qt::black);
        }
    };
    drawn.over = [&](QPainter& painter) {
        painter.setPen(QPen(QColor(110, 110, 110), 2.6));
        for (int i = 0; i <= 40; ++i) {
            const double at = drawn.left + 18 * i;
            painter.drawLine(QPointF(at, drawn.top), QPointF(at, drawn.top + 18 * 30));
        }
        for (int i = 0; i <= 30; ++i) {
            const double at = drawn.top + 18 * i;
            painter.drawLine(QPointF(drawn.left, at), QPointF(drawn.left + 18 * 40, at));
        }
    };
    trace::Page page = drawn.page();
    cv::Mat view = trace::detail::viewOf(page.picture);
    cv::GaussianBlur(view, view, {}, 1.6);
    const trace::Tracing tracing = tracedWhole(page);
    int wrong = 0;
    for (std::size_t i = 0; i < tracing.chart.grid.cells().size(); ++i) {
        const chart::Cell cell = tracing.chart.grid.cellAt(i);
        wrong +=
            isSign(cell.column, cell.row) == (tracing.chart.grid.at(cell) == chart::kBare) ? 1 : 0;
    }
    CHECK(wrong == 0);
}
