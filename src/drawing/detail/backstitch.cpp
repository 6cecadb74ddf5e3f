#include "drawing/detail/backstitch.h"

#include "drawing/detail/light.h"

#include <numbers>

namespace otherskein::drawing::detail {

namespace {

constexpr double kMiddlingWidth = 0.22; ///< in cells
constexpr double kLeastRadius = 0.5;
/// From this radius on, in pixels, a thread is seen to be round and twisted.
constexpr double kRoundRadius = 1.4;

struct Stroke {
    double ax;
    double ay;
    double bx;
    double by;
    double radius;
};

/// Light on the thread at `u` (-1..1 across, lit side first) and `turns` along.
double lightOf(double u, double turns) {
    const double height = std::sqrt(std::max(0.0, 1 - u * u));
    const double groove = 0.5 + 0.5 * std::cos(2 * std::numbers::pi * (turns + 0.3 * u));
    return (0.58 + 0.5 * height - 0.2 * u) * (1 - 0.22 * groove * groove);
}

QRgb blended(const LightTables& tables, QRgb under, const Light& over, float cover) {
    return tables.rgb(cover * over + (1 - cover) * tables.light(under));
}

void paintStroke(const Frame& frame, const Stroke& stroke, const Light& thread, double strength) {
    const LightTables& tables = lightTables();
    const double reach = stroke.radius + 0.5;
    const double length = std::hypot(stroke.bx - stroke.ax, stroke.by - stroke.ay);
    const double dx = length > 0 ? (stroke.bx - stroke.ax) / length : 1;
    const double dy = length > 0 ? (stroke.by - stroke.ay) / length : 0;
    // Across the thread, away from the light at the upper left.
    const double away = dx - dy >= 0 ? 1 : -1;
    const bool isRound = stroke.radius >= kRoundRadius;
    const int top =
        std::max(frame.top(), static_cast<int>(std::floor(std::min(stroke.ay, stroke.by) - reach)));
    const int bottom = std::min(
        frame.bottom(), static_cast<int>(std::ceil(std::max(stroke.ay, stroke.by) + reach)));
    for (int y = top; y < bottom; ++y) {
        const double py = y + 0.5 - stroke.ay;
        double from = std::min(stroke.ax, stroke.bx) - reach;
        double to = std::max(stroke.ax, stroke.bx) + reach;
        if (std::abs(dy) > 1e-9) { // only where the band crosses this row
            const double middle = stroke.ax + py * dx / dy;
            from = std::max(from, middle - reach / std::abs(dy));
            to = std::min(to, middle + reach / std::abs(dy));
        }
        QRgb* line = frame.line(y) - frame.left();
        const int end = std::min(frame.right(), static_cast<int>(std::ceil(to)));
        for (int x = std::max(frame.left(), static_cast<int>(std::floor(from))); x < end; ++x) {
            const double px = x + 0.5 - stroke.ax;
            const double along = std::clamp(px * dx + py * dy, 0.0, length);
            const double across = py * dx - px * dy;
            const double distance = std::hypot(px - along * dx, py - along * dy);
            const double cover = std::clamp(stroke.radius + 0.5 - distance, 0.0, 1.0) * strength;
            if (cover <= 0) {
                continue;
            }
            const double light = isRound
                                     ? lightOf(std::clamp(away * across / stroke.radius, -1.0, 1.0),
                                               along / (2.6 * stroke.radius))
                                     : 1;
            line[x] = blended(tables, line[x], static_cast<float>(light) * thread,
                              static_cast<float>(cover));
        }
    }
}

} // namespace

void paintBackstitch(const Frame& frame, const CellRaster& raster,
                     std::span<const chart::Line> lines, const Paint& paint, double width,
                     double strength) {
    const double radius =
        std::max(kLeastRadius, (width > 0 ? width : kMiddlingWidth) / 2 * raster.cell);
    const int reach = static_cast<int>(std::ceil(radius)) + 1;
    const QRect near = frame.area.adjusted(-reach, -reach, reach, reach);
    // The frame in half cells: most lines of a large chart are passed over by whole numbers.
    const int least = 2 * raster.holding(near.left() - raster.left);
    const int most = 2 * raster.holding(near.right() - raster.left) + 2;
    const int highest = 2 * raster.holding(near.top() - raster.top);
    const int lowest = 2 * raster.holding(near.bottom() - raster.top) + 2;
    for (const chart::Line& line : lines) {
        if (std::max(line.x1, line.x2) < least || std::min(line.x1, line.x2) > most ||
            std::max(line.y1, line.y2) < highest || std::min(line.y1, line.y2) > lowest) {
            continue;
        }
        paintStroke(frame,
                    {raster.xOfHalf(line.x1), raster.yOfHalf(line.y1), raster.xOfHalf(line.x2),
                     raster.yOfHalf(line.y2), radius},
                    lightTables().light(paint.rows[line.key]), strength);
    }
}

} // namespace otherskein::drawing::detail
