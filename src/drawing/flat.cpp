#include "drawing/flat.h"

#include "drawing/detail/halving.h"

#include <cassert>

namespace otherskein::drawing {

Paint paintOf(const chart::Key& key, QRgb ground) {
    Paint paint;
    paint.ground = ground;
    for (const chart::KeyRow& row : key) {
        paint.rows.push_back(qRgb(row.pixel.r, row.pixel.g, row.pixel.b));
    }
    return paint;
}

void paintFlat(QImage& image, const chart::Grid& grid, const Paint& paint,
               const chart::Area& area) {
    assert(image.format() == QImage::Format_RGB32);
    // Bare stitches sit at the far end of the range of indices: one subtraction brings them to the
    // front of a table of colours, so that the loop has no branch.
    std::vector<QRgb> colours{paint.ground};
    colours.insert(colours.end(), paint.rows.begin(), paint.rows.end());
    static_assert(static_cast<chart::KeyIndex>(chart::kBare + 1) == 0);
    for (int y = area.top; y < area.top + area.rows; ++y) {
        const auto row = grid.cells().subspan(grid.indexOf({area.left, y}),
                                              static_cast<std::size_t>(area.columns));
        auto* line = reinterpret_cast<QRgb*>(image.scanLine(y)) + area.left;
        for (std::size_t x = 0; x < row.size(); ++x) {
            assert(row[x] == chart::kBare || row[x] < paint.rows.size());
            line[x] = colours[static_cast<chart::KeyIndex>(row[x] + 1)];
        }
    }
}

QImage flatImage(const chart::Grid& grid, const Paint& paint) {
    QImage image(grid.columns(), grid.rows(), QImage::Format_RGB32);
    if (!image.isNull()) {
        paintFlat(image, grid, paint, {0, 0, grid.columns(), grid.rows()});
    }
    return image;
}

QImage halved(const QImage& image) {
    return detail::halvedOver(image.convertToFormat(QImage::Format_RGB32), std::nullopt);
}

} // namespace otherskein::drawing
