#include "drawing/detail/chart_frame.h"

#include "colour/conversion.h"
#include "colour/mixing.h"
#include "drawing/detail/backstitch.h"
#include "drawing/detail/far_cells.h"
#include "drawing/detail/near_cells.h"

#include <array>
#include <cassert>

namespace otherskein::drawing::detail {

namespace {

// Where things begin to be seen.
constexpr double kLeastNear = 3;     ///< device pixels a cell: below, the pyramid is drawn
constexpr double kLeastTens = 0.8;   ///< logical pixels a cell
constexpr double kLeastHairline = 5; ///< logical pixels a cell
constexpr double kLeastLines = 0.8;  ///< logical pixels a cell
constexpr int kFlatStitch = 3;   ///< device pixels a cell: apparent colour alone; from there on …
constexpr int kWholeStitch = 7;  ///< … stitches show through it, until they are whole
constexpr double kBoldGrid = 22; ///< logical pixels a cell: tens are two pixels wide

/// 0 at `from`, 1 at `to`.
float ramp(double value, double from, double to) {
    return static_cast<float>(std::clamp((value - from) / (to - from), 0.0, 1.0));
}

/// Murray-Davies for every row: what a stitched area looks like from afar. `coverage` where the
/// rows have none of their own.
Paint apparentPaint(const Paint& plain, double coverage) {
    const auto labOf = [](QRgb colour) {
        return colour::labFromSrgb(colour::Srgb8{static_cast<std::uint8_t>(qRed(colour)),
                                                 static_cast<std::uint8_t>(qGreen(colour)),
                                                 static_cast<std::uint8_t>(qBlue(colour))});
    };
    Paint paint = plain;
    paint.cover.clear(); // it is in the colours now
    const colour::Lab ground = labOf(plain.ground);
    for (std::size_t i = 0; i < paint.rows.size(); ++i) {
        const double covered = plain.cover.empty()
                                   ? coverage
                                   : std::clamp(static_cast<double>(plain.cover[i]), 0.0, 1.0);
        const colour::Srgb8 seen =
            colour::srgbFromLab(colour::apparentColour(labOf(paint.rows[i]), ground, covered));
        paint.rows[i] = qRgb(seen.r, seen.g, seen.b);
    }
    return paint;
}

void fillRect(const Frame& frame, const QRect& rect, QRgb colour) {
    const QRect inside = rect & frame.area;
    for (int y = inside.top(); y <= inside.bottom(); ++y) {
        QRgb* line = frame.line(y) + (inside.left() - frame.left());
        std::fill(line, line + inside.width(), colour);
    }
}

/// All of the frame but `inside`.
void fillAround(const Frame& frame, const QRect& inside, QRgb colour) {
    const QRect& area = frame.area;
    if (inside.isEmpty()) {
        fillRect(frame, area, colour);
        return;
    }
    fillRect(frame, {area.left(), area.top(), area.width(), inside.top() - area.top()}, colour);
    fillRect(frame, {area.left(), inside.bottom() + 1, area.width(), area.height()}, colour);
    fillRect(frame, {area.left(), inside.top(), inside.left() - area.left(), inside.height()},
             colour);
    fillRect(frame, {inside.right() + 1, inside.top(), area.width(), inside.height()}, colour);
}

} // namespace

void ChartFrame::setChart(const chart::Grid& grid, const std::vector<chart::Line>& lines,
                          const Paint& paint) {
    m_grid = grid;
    m_lines = lines;
    m_pyramid.reset();
    setPaint(paint);
}

void ChartFrame::setPaint(const Paint& paint) {
    assert(paint.cover.empty() || paint.cover.size() == paint.rows.size());
    if (paint != m_plain) {
        m_plain = paint;
        m_coverage = -1;
    }
}

void ChartFrame::setCells(const chart::Grid& grid, const chart::Area& area) {
    assert(grid.columns() == m_grid.columns() && grid.rows() == m_grid.rows());
    for (int row = area.top; row < area.top + area.rows; ++row) {
        const auto from = grid.cells().subspan(grid.indexOf({area.left, row}),
                                               static_cast<std::size_t>(area.columns));
        std::ranges::copy(from, m_grid.cells().begin() +
                                    static_cast<std::ptrdiff_t>(m_grid.indexOf({area.left, row})));
    }
    m_pyramid.setCells(m_grid, m_far, area);
}

void ChartFrame::useColours(const Layers& layers) {
    if (m_coverage != layers.coverage) {
        m_coverage = layers.coverage;
        m_apparent = apparentPaint(m_plain, m_coverage);
    }
    const Paint& far = layers.stitches && !layers.symbols ? m_apparent : m_plain;
    if (far.rows != m_far.rows || far.ground != m_far.ground) {
        m_far = far;
        m_pyramid.reset();
    }
    m_sprites.setColours(m_plain, m_apparent);
}

void ChartFrame::fill(const Frame& frame, const View& view, const Layers& layers, int margin,
                      QRgb surround) {
    const CellRaster raster(view);
    useColours(layers);
    const QRect ground(
        QPoint(raster.x(-margin), raster.y(-margin)),
        QPoint(raster.x(m_grid.columns() + margin) - 1, raster.y(m_grid.rows() + margin) - 1));
    const QRect inside = m_grid.cells().empty() ? QRect() : ground & frame.area;
    fillAround(frame, inside, surround);
    if (inside.isEmpty()) {
        return;
    }
    if (raster.cell < kLeastNear) {
        fillFar(frame, raster, inside);
    } else {
        fillNear(frame, view, layers, raster, margin);
    }
    if (layers.grid && view.cell >= kLeastTens) {
        fillGrid(frame, view, raster);
    }
    if (layers.lines && view.cell > kLeastLines) {
        const float strength = ramp(view.cell, kLeastLines, 2.5);
        paintBackstitch(frame, raster, m_lines, m_plain, layers.lineWidth,
                        static_cast<double>(strength));
    }
}

void ChartFrame::fillFar(const Frame& frame, const CellRaster& raster, const QRect& inside) {
    int level = 0;
    double scale = raster.cell;
    while (scale < 0.7) {
        scale *= 2;
        ++level;
    }
    paintFar(frame, inside, m_pyramid.level(m_grid, m_far, level), scale, {raster.left, raster.top},
             m_plain.ground);
}

void ChartFrame::fillNear(const Frame& frame, const View& view, const Layers& layers,
                          const CellRaster& raster, int margin) {
    CellLook look;
    look.size = static_cast<int>(std::floor(raster.cell));
    look.coverage = layers.coverage;
    if (layers.symbols) {
        look.kind = CellLook::Kind::Marked;
    } else if (layers.stitches) {
        look.kind = CellLook::Kind::Stitched;
        look.relief = ramp(look.size, kFlatStitch, kWholeStitch);
        look.cloth = layers.cloth;
    }
    if (layers.grid && view.cell >= kLeastHairline) {
        const float most = look.kind == CellLook::Kind::Stitched ? 0.14F : 0.2F;
        look.hairline = most * (0.4F + 0.6F * ramp(view.cell, kLeastHairline, 10));
        // In few steps: every other strength is a new set of pictures.
        look.hairline = std::round(look.hairline * 64) / 64;
    }
    m_sprites.setLook(look);
    paintNear(frame, raster, m_grid, m_sprites, margin);
}

void ChartFrame::fillGrid(const Frame& frame, const View& view, const CellRaster& raster) {
    const int pixel = std::max(1, static_cast<int>(std::lround(view.pixelRatio)));
    const int width = view.cell >= kBoldGrid ? 2 * pixel : pixel;
    const float strength = 0.1F + 0.2F * ramp(view.cell, kLeastTens, 4);
    const bool isFar = raster.cell < kLeastNear;
    paintTens(frame, raster, m_grid, isFar ? nullptr : &m_sprites, width, strength);
}

} // namespace otherskein::drawing::detail
