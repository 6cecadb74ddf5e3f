#include "trace/detail/on_paper.h"

#include <QColorSpace>
#include <QPainter>

#include <opencv2/core.hpp>

namespace otherskein::trace::detail {

namespace {

/// Lays the picture on white as a painter does, to the very level, and turns its pixels round in
/// the same go.
QImage laidOnWhite(const QImage& picture) {
    QImage paper(picture.size(), QImage::Format_BGR888);
    uchar* bits = paper.bits();
    const qsizetype stride = paper.bytesPerLine();
    cv::parallel_for_({0, picture.height()}, [&](const cv::Range& range) {
        for (int y = range.start; y < range.end; ++y) {
            const auto* in = reinterpret_cast<const QRgb*>(picture.constScanLine(y));
            uchar* out = bits + y * stride;
            for (int x = 0; x < picture.width(); ++x, out += 3) {
                const QRgb ink = qPremultiply(in[x]);
                const int white = 255 - qAlpha(ink);
                out[0] = static_cast<uchar>(qBlue(ink) + white);
                out[1] = static_cast<uchar>(qGreen(ink) + white);
                out[2] = static_cast<uchar>(qRed(ink) + white);
            }
        }
    });
    return paper;
}

} // namespace

QImage printed(QImage picture) {
    if (picture.colorSpace().isValid() && picture.colorSpace() != QColorSpace(QColorSpace::SRgb)) {
        picture.convertToColorSpace(QColorSpace(QColorSpace::SRgb));
    }
    if (!picture.hasAlphaChannel()) {
        return picture.convertToFormat(QImage::Format_BGR888);
    }
    if (picture.format() == QImage::Format_ARGB32) {
        return laidOnWhite(picture);
    }
    QImage paper(picture.size(), QImage::Format_RGB32);
    paper.fill(Qt::white);
    QPainter painter(&paper);
    painter.drawImage(0, 0, picture);
    painter.end();
    return paper.convertToFormat(QImage::Format_BGR888);
}

} // namespace otherskein::trace::detail
