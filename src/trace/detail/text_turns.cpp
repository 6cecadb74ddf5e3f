#include "trace/detail/text_runs.h"

#include <QtMath>

#include <algorithm>
#include <array>

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

} // namespace

QRectF turnedBox(const QRectF& told, int quarters, const QSizeF& size) {
    // Told from the top of the page as shown, but along the page's own ways: `up` is from its foot.
    const double up = size.height() - told.bottom();
    switch (quarters) {
    case 1:
        return {up, told.left(), told.height(), told.width()};
    case 2:
        return {size.width() - told.right(), up, told.width(), told.height()};
    case 3:
        return {size.width() - up - told.height(), size.height() - told.right(), told.height(),
                told.width()};
    default:
        return told;
    }
}

int quarterTurns(std::span<const QRectF> runs, const QImage& bgr, double scale) {
    constexpr std::size_t kEnough = 150;
    const QSizeF size = QSizeF(bgr.size()) / scale;
    std::array<int, 4> tight{};
    for (std::size_t i = 0; i < runs.size(); i += 1 + runs.size() / kEnough) {
        for (int quarters = 0; quarters < 4; ++quarters) {
            const QRectF box = turnedBox(runs[i], quarters, size);
            tight[static_cast<std::size_t>(quarters)] +=
                isTight({box.topLeft() * scale, box.size() * scale}, bgr) ? 1 : 0;
        }
    }
    return static_cast<int>(std::ranges::max_element(tight) - tight.begin());
}

} // namespace otherskein::trace::detail
