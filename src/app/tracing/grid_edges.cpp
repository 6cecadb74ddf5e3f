#include "app/tracing/grid_edges.h"

#include "chart/chart.h"

#include <QTransform>

namespace otherskein::app {

namespace {

/// The number of a grid's first line where it is printed; one before the first is none.
std::optional<int> movedFirst(std::optional<int> first, int by) {
    return first && *first + by >= 1 ? std::optional(*first + by) : std::nullopt;
}

} // namespace

trace::FoundGrid withEdgeMoved(const trace::FoundGrid& grid, GridSide side, int by) {
    QRectF cells(0, 0, grid.columns, grid.rows);
    QTransform toPage;
    if (grid.outline.size() != 4 ||
        !QTransform::quadToQuad(
            QPolygonF({cells.topLeft(), cells.topRight(), cells.bottomRight(), cells.bottomLeft()}),
            grid.outline, toPage)) {
        return grid;
    }
    trace::FoundGrid after = grid;
    switch (side) {
    case GridSide::Left:
        cells.setLeft(-by);
        after.firstColumn = movedFirst(grid.firstColumn, -by);
        break;
    case GridSide::Right:
        cells.setRight(cells.right() + by);
        break;
    case GridSide::Top:
        cells.setTop(-by);
        after.firstRow = movedFirst(grid.firstRow, -by);
        break;
    case GridSide::Bottom:
        cells.setBottom(cells.bottom() + by);
        break;
    }
    after.columns = qRound(cells.width());
    after.rows = qRound(cells.height());
    if (after.columns < 1 || after.rows < 1 || after.columns > chart::kMostColumns ||
        after.rows > chart::kMostRows) {
        return grid;
    }
    after.outline = QPolygonF({toPage.map(cells.topLeft()), toPage.map(cells.topRight()),
                               toPage.map(cells.bottomRight()), toPage.map(cells.bottomLeft())});
    return after;
}

} // namespace otherskein::app
