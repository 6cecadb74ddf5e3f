#include "trace/detail/text_runs.h"

#include <QRegularExpression>

#include <algorithm>

namespace otherskein::trace::detail {

namespace {

constexpr int kInk = 70;   // grey levels darker than the lightest around
constexpr int kAround = 3; // px around a box that must be free of ink

/// Whether ink reaches all sides of a box and none goes beyond.
bool isTight(const QRectF& box, const QImage& bgr) {
    const QRect around = box.toAlignedRect().adjusted(-kAround, -kAround, kAround, kAround);
    if (!bgr.rect().contains(around) || around.width() * around.height() > 40'000) {
        return false;
    }
    QRect ink;
    for (int y = around.top(); y <= around.bottom(); ++y) {
        const uchar* pixel = bgr.constScanLine(y) + 3 * static_cast<qsizetype>(around.left());
        for (int x = around.left(); x <= around.right(); ++x, pixel += 3) {
            if (std::min({pixel[0], pixel[1], pixel[2]}) < 255 - kInk) {
                ink |= QRect(x, y, 1, 1);
            }
        }
    }
    const auto isNear = [](double one, double other) {
        return std::abs(one - other) < kAround - 0.4;
    };
    return !ink.isEmpty() && isNear(ink.left(), box.left()) && isNear(ink.top(), box.top()) &&
           isNear(ink.right() + 1, box.right()) && isNear(ink.bottom() + 1, box.bottom());
}

/// Where the page's corner may lie on the paper, points, as the file says of all its pages; most
/// begin at 0, 0.
std::vector<QPointF> cornersIn(const QByteArray& pdf) {
    constexpr std::size_t kMost = 6;
    constexpr qsizetype kLongest = 60; // bytes of two numbers
    std::vector<QPointF> corners{{0, 0}};
    for (const QByteArrayView name : {QByteArrayView("/MediaBox"), QByteArrayView("/CropBox")}) {
        for (auto at = pdf.indexOf(name); at >= 0 && corners.size() < kMost;
             at = pdf.indexOf(name, at + name.size())) {
            static const QRegularExpression box(
                QStringLiteral(R"(^\s*\[\s*(-?\d+\.?\d*)\s+(-?\d+\.?\d*)\s)"));
            const auto one = box.match(QString::fromLatin1(pdf.mid(at + name.size(), kLongest)));
            const QPointF corner(one.captured(1).toDouble(), one.captured(2).toDouble());
            if (std::ranges::find(corners, corner) == corners.end()) {
                corners.push_back(corner);
            }
        }
    }
    return corners;
}

} // namespace

QRectF TextFrame::shown(const QRectF& told) const {
    const QRectF box = told.translated(-corner.x(), corner.y());
    // Told from the top of the page as shown, but along the page's own ways: `up` is from its foot.
    const double up = size.height() - box.bottom();
    switch (quarters) {
    case 1:
        return {up, box.left(), box.height(), box.width()};
    case 2:
        return {size.width() - box.right(), up, box.width(), box.height()};
    case 3:
        return {size.width() - up - box.height(), size.height() - box.right(), box.height(),
                box.width()};
    default:
        return box;
    }
}

TextFrame textFrameOf(std::span<const QRectF> runs, const QByteArray& pdf, const QImage& bgr,
                      double scale) {
    constexpr std::size_t kEnough = 150;
    TextFrame best{{0, 0}, 0, QSizeF(bgr.size()) / scale};
    int most = 0;
    for (const QPointF& corner : cornersIn(pdf)) {
        for (int quarters = 0; quarters < 4; ++quarters) {
            const TextFrame frame{corner, quarters, best.size};
            int tight = 0;
            for (std::size_t i = 0; i < runs.size(); i += 1 + runs.size() / kEnough) {
                const QRectF box = frame.shown(runs[i]);
                tight += isTight({box.topLeft() * scale, box.size() * scale}, bgr) ? 1 : 0;
            }
            if (tight > most) {
                most = tight;
                best = frame;
            }
        }
    }
    return best;
}

} // namespace otherskein::trace::detail
