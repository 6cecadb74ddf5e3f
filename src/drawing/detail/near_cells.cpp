#include "drawing/detail/near_cells.h"

#include <cstring>
#include <vector>

namespace otherskein::drawing::detail {

namespace {

/// The pixels of a column of cells that lie in the frame.
struct Strip {
    int column;
    int x;     ///< in the frame's lines
    int skip;  ///< pixels of the picture left of the frame
    int count; ///< pixels
    int width; ///< of the picture
    bool wide;
};

std::vector<Strip> stripsOf(const Frame& frame, const CellRaster& raster, const Run& columns,
                            int size) {
    std::vector<Strip> strips;
    for (int column = columns.first; column < columns.end; ++column) {
        const int left = raster.x(column);
        const int right = raster.x(column + 1);
        const int from = std::max(left, frame.left());
        const int to = std::min(right, frame.right());
        if (to > from) {
            strips.push_back({column, from - frame.left(), from - left, to - from, right - left,
                              right - left > size});
        }
    }
    return strips;
}

} // namespace

int variantOf(int column, int row) {
    std::uint32_t mixed = static_cast<std::uint32_t>(column) * 0x9e3779b1U +
                          static_cast<std::uint32_t>(row) * 0x85ebca6bU;
    mixed ^= mixed >> 15;
    mixed *= 0x2c1b3c6dU;
    return static_cast<int>(mixed >> 30);
}

void paintNear(const Frame& frame, const CellRaster& raster, const chart::Grid& grid,
               Sprites& sprites, int margin) {
    const int size = static_cast<int>(std::floor(raster.cell));
    const Run columns = frame.columns(raster, -margin, grid.columns() + margin);
    const Run rows = frame.rows(raster, -margin, grid.rows() + margin);
    const std::vector<Strip> strips = stripsOf(frame, raster, columns, size);
    std::vector<const QRgb*> pictures(strips.size());
    const int repeat = sprites.repeat();
    for (int row = rows.first; row < rows.end; ++row) {
        const int top = raster.y(row);
        const int bottom = raster.y(row + 1);
        const bool tall = bottom - top > size;
        for (std::size_t i = 0; i < strips.size(); ++i) {
            const chart::Cell cell{strips[i].column, row};
            const int place = placeOf(cell.column, cell.row, repeat);
            pictures[i] = grid.contains(cell)
                              ? sprites.picture(grid.at(cell), variantOf(cell.column, cell.row),
                                                place, strips[i].wide, tall)
                              : sprites.margin(place, strips[i].wide, tall);
        }
        for (int y = std::max(top, frame.top()); y < std::min(bottom, frame.bottom()); ++y) {
            QRgb* line = frame.line(y);
            for (std::size_t i = 0; i < strips.size(); ++i) {
                const Strip& strip = strips[i];
                std::memcpy(line + strip.x, pictures[i] + (y - top) * strip.width + strip.skip,
                            static_cast<std::size_t>(strip.count) * sizeof(QRgb));
            }
        }
    }
}

} // namespace otherskein::drawing::detail
