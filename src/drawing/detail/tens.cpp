#include "drawing/detail/near_cells.h"

namespace otherskein::drawing::detail {

namespace {

constexpr int kTen = 10;

void darkenOrLighten(const Frame& frame, const QRect& line, bool light, float strength) {
    const QRect inside = line & frame.area;
    for (int y = inside.top(); y <= inside.bottom(); ++y) {
        QRgb* pixels = frame.line(y) - frame.left();
        for (int x = inside.left(); x <= inside.right(); ++x) {
            pixels[x] = lined(pixels[x], light, strength);
        }
    }
}

/// From afar a pixel is as much as a cell: it says itself how it is lined.
void lineByPixel(const Frame& frame, const QRect& line, float strength) {
    const QRect inside = line & frame.area;
    for (int y = inside.top(); y <= inside.bottom(); ++y) {
        QRgb* pixels = frame.line(y) - frame.left();
        for (int x = inside.left(); x <= inside.right(); ++x) {
            pixels[x] = lined(pixels[x], wantsLightLine(pixels[x]), strength);
        }
    }
}

/// The whole tens and the end.
std::vector<int> tensOf(const Run& run, int end) {
    std::vector<int> tens;
    for (int i = run.first - run.first % kTen; i <= run.end && i < end; i += kTen) {
        tens.push_back(i);
    }
    tens.push_back(end);
    return tens;
}

} // namespace

void paintTens(const Frame& frame, const CellRaster& raster, const chart::Grid& grid,
               const Sprites* sprites, int width, float strength) {
    const Run columns = frame.columns(raster, 0, grid.columns());
    const Run rows = frame.rows(raster, 0, grid.rows());
    const int before = width / 2; // lines lie astride the cells' sides
    for (const int column : tensOf(columns, grid.columns())) {
        const int x = raster.x(column) - before;
        if (sprites == nullptr) {
            lineByPixel(frame, {x, raster.y(0), width, raster.side(grid.rows())}, strength);
            continue;
        }
        for (int row = rows.first; row < rows.end; ++row) {
            const chart::KeyIndex key = grid.at({std::min(column, grid.columns() - 1), row});
            darkenOrLighten(frame, {x, raster.y(row), width, raster.y(row + 1) - raster.y(row)},
                            sprites->hasLightLines(key), strength);
        }
    }
    for (const int row : tensOf(rows, grid.rows())) {
        const int y = raster.y(row) - before;
        if (sprites == nullptr) {
            lineByPixel(frame, {raster.x(0), y, raster.side(grid.columns()), width}, strength);
            continue;
        }
        for (int column = columns.first; column < columns.end; ++column) {
            const chart::KeyIndex key = grid.at({column, std::min(row, grid.rows() - 1)});
            darkenOrLighten(frame,
                            {raster.x(column), y, raster.x(column + 1) - raster.x(column), width},
                            sprites->hasLightLines(key), strength);
        }
    }
}

} // namespace otherskein::drawing::detail
