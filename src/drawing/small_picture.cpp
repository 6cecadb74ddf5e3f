#include "drawing/detail/chart_frame.h"
#include "drawing/flat.h"

namespace otherskein::drawing {

QImage smallPicture(const chart::Chart& chart, const Paint& paint, const QSize& size) {
    QImage image(size, QImage::Format_RGB32);
    if (image.isNull()) {
        return image;
    }
    detail::ChartFrame frame;
    frame.setChart(chart.grid, chart.lines, paint);
    Layers layers;
    layers.grid = false;
    const double margin = 0.06 * std::min(size.width(), size.height());
    const View view = fitted(chart.grid, QSizeF(size), margin);
    // Ground as far as the picture reaches.
    const int cells = static_cast<int>(std::max(size.width(), size.height()) / view.cell) + 1;
    frame.fill({reinterpret_cast<QRgb*>(image.bits()),
                image.bytesPerLine() / static_cast<qsizetype>(sizeof(QRgb)), image.rect()},
               view, layers, cells, paint.ground);
    return image;
}

} // namespace otherskein::drawing
