#include "drawing/chart_painter.h"

#include <algorithm>

namespace otherskein::drawing {

QPointF toCells(const View& view, const QPointF& widgetPoint) {
    return (widgetPoint - view.origin) / view.cell;
}

QPointF fromCells(const View& view, const QPointF& cells) {
    return view.origin + cells * view.cell;
}

View zoomed(const View& view, double cell, const QPointF& fixed) {
    View next = view;
    next.cell = std::clamp(cell, kLeastCell, kMostCell);
    next.origin = fixed - toCells(view, fixed) * next.cell;
    return next;
}

View fitted(const chart::Grid& grid, const QSizeF& size, double margin) {
    View view;
    view.size = size;
    const double columns = std::max(1, grid.columns());
    const double rows = std::max(1, grid.rows());
    const double cell =
        std::min((size.width() - 2 * margin) / columns, (size.height() - 2 * margin) / rows);
    view.cell = std::clamp(cell, kLeastCell, kMostCell);
    view.origin = QPointF(size.width() - view.cell * grid.columns(),
                          size.height() - view.cell * grid.rows()) /
                  2;
    return view;
}

} // namespace otherskein::drawing
