#include "drawing/swatch.h"

#include "drawing/detail/cell_raster.h"
#include "drawing/detail/near_cells.h"
#include "drawing/detail/relief_cache.h"

#include <algorithm>
#include <cmath>

namespace otherskein::drawing {

namespace {

constexpr double kLeastSwatchCell = 3;
constexpr float kContact = 0.34F; ///< light that the stitches' shadow takes from the cloth beside
constexpr double kCast = 0.09;    ///< how far, in cells, the shadow lies to the lower right

/// Where the cells of a swatch lie and which are stitched.
struct SwatchPlan {
    detail::CellRaster raster;
    int columns = 0;
    int rows = 0;

    [[nodiscard]] bool isStitched(int column, int row) const {
        return column >= 0 && column < columns && row >= 0 && row < rows;
    }
};

SwatchPlan planOf(const Swatch& swatch) {
    View view;
    view.cell = std::max(swatch.cell, kLeastSwatchCell);
    view.origin = QPointF(0.08 * swatch.size.width(), 0.08 * swatch.size.height());
    const auto cells = [&view](double pixels) {
        return std::max(1, static_cast<int>(std::lround(pixels / view.cell)));
    };
    return {detail::CellRaster(view), cells(0.65 * swatch.size.width()),
            cells(0.70 * swatch.size.height())};
}

QRect partOf(const SwatchPlan& plan, const QSize& size) {
    return QRect(plan.raster.left, plan.raster.top, plan.raster.side(plan.columns),
                 plan.raster.side(plan.rows)) &
           QRect(QPoint(0, 0), size);
}

/// A plane of 0..1 over the swatch.
struct Plane {
    int width = 0;
    int height = 0;
    std::vector<float> at;

    Plane(const QSize& size)
        : width(size.width()), height(size.height()),
          at(static_cast<std::size_t>(width) * static_cast<std::size_t>(height)) {}
    [[nodiscard]] float* line(int y) { return at.data() + static_cast<std::ptrdiff_t>(y) * width; }
};

/// The mean of `2 · reach + 1` values along a line; beyond its ends lies nothing.
void blurLine(const float* from, float* to, int count, int reach) {
    const float share = 1.0F / static_cast<float>(2 * reach + 1);
    float sum = 0;
    for (int i = 0; i < std::min(reach, count); ++i) {
        sum += from[i];
    }
    for (int i = 0; i < count; ++i) {
        sum += i + reach < count ? from[i + reach] : 0;
        to[i] = sum * share;
        sum -= i - reach >= 0 ? from[i - reach] : 0;
    }
}

/// The same down the columns, all of them at once.
void blurColumns(Plane& from, Plane& to, int reach) {
    const float share = 1.0F / static_cast<float>(2 * reach + 1);
    std::vector<float> sum(static_cast<std::size_t>(from.width));
    const auto add = [&](int y, float sign) {
        if (y >= 0 && y < from.height) {
            const float* line = from.line(y);
            for (std::size_t x = 0; x < sum.size(); ++x) {
                sum[x] += sign * line[x];
            }
        }
    };
    for (int y = 0; y < reach; ++y) {
        add(y, 1);
    }
    for (int y = 0; y < from.height; ++y) {
        add(y + reach, 1);
        float* out = to.line(y);
        for (std::size_t x = 0; x < sum.size(); ++x) {
            out[x] = sum[x] * share;
        }
        add(y - reach, -1);
    }
}

/// Softened all round, so that a shadow has no edge.
Plane blurred(Plane cover, int reach) {
    Plane other(QSize(cover.width, cover.height));
    for (int round = 0; round < 2; ++round) {
        for (int y = 0; y < cover.height; ++y) {
            blurLine(cover.line(y), other.line(y), cover.width, reach);
        }
        blurColumns(other, cover, reach);
    }
    return cover;
}

/// Light on the bare cloth around the stitches. They shade each other's cloth as their reliefs say.
class ContactShadow {
  public:
    ContactShadow(Plane cover, double cell)
        : m_cast(std::max(1, static_cast<int>(std::lround(kCast * cell)))),
          m_soft(blurred(std::move(cover), m_cast)) {}
    [[nodiscard]] float light(int x, int y) {
        return 1 - kContact * m_soft.line(std::max(0, y - m_cast))[std::max(0, x - m_cast)];
    }

  private:
    int m_cast;
    Plane m_soft;
};

/// One cell of the swatch on the image.
struct SwatchCell {
    QRect area; ///< may lie partly outside
    const detail::ClothRelief& cloth;
    const detail::CrossRelief* cross = nullptr; ///< none: bare
};

template <typename Draw>
void eachCell(const SwatchPlan& plan, const Swatch& swatch, bool onlyStitched, Draw draw) {
    const detail::CellRaster& raster = plan.raster;
    const int repeat = repeatOf(swatch.cloth);
    const int least = static_cast<int>(raster.cell);
    const detail::Frame frame{nullptr, 0, QRect(QPoint(0, 0), swatch.size)};
    const int most = std::max(swatch.size.width(), swatch.size.height()) + 1;
    const detail::Run columns =
        frame.columns(raster, onlyStitched ? 0 : -most, onlyStitched ? plan.columns : most);
    const detail::Run rows =
        frame.rows(raster, onlyStitched ? 0 : -most, onlyStitched ? plan.rows : most);
    for (int row = rows.first; row < rows.end; ++row) {
        for (int column = columns.first; column < columns.end; ++column) {
            const QRect area(raster.x(column), raster.y(row),
                             raster.x(column + 1) - raster.x(column),
                             raster.y(row + 1) - raster.y(row));
            const auto cloth = detail::keptCloth(area.width(), area.height(), swatch.cloth,
                                                 detail::placeOf(column, row, repeat));
            const auto cross =
                plan.isStitched(column, row)
                    ? detail::keptCross({area.width(), area.height(), least, swatch.coverage,
                                         detail::variantOf(column, row)})
                    : nullptr;
            draw(SwatchCell{area, *cloth, cross.get()});
        }
    }
}

class SwatchPainter {
  public:
    SwatchPainter(const Swatch& swatch, QImage& image, ContactShadow& shadow)
        : m_image(image), m_shadow(shadow), m_thread(m_tables.light(swatch.thread)),
          m_ground(m_tables.light(swatch.ground)) {}

    void paint(const SwatchCell& cell) {
        const QRect seen = cell.area & m_image.rect();
        m_onCloth = detail::lightingOf(m_ground, cell.cloth.brightest, detail::kClothLoss);
        if (cell.cross != nullptr) {
            m_onThread = detail::lightingOf(m_thread, cell.cross->brightest, detail::kThreadLoss);
        }
        for (int y = seen.top(); y <= seen.bottom(); ++y) {
            auto* line = reinterpret_cast<QRgb*>(m_image.scanLine(y));
            auto at = static_cast<std::size_t>(y - cell.area.top()) *
                          static_cast<std::size_t>(cell.area.width()) +
                      static_cast<std::size_t>(seen.left() - cell.area.left());
            for (int x = seen.left(); x <= seen.right(); ++x, ++at) {
                line[x] = cell.cross != nullptr
                              ? stitched(*cell.cross, cell.cloth, at)
                              : m_tables.rgb(m_shadow.light(x, y) *
                                             m_onCloth.of(cell.cloth.shade[at]) * m_ground);
            }
        }
    }

  private:
    [[nodiscard]] QRgb stitched(const detail::CrossRelief& cross, const detail::ClothRelief& cloth,
                                std::size_t at) const {
        const float cover = cross.cover[at];
        const float gloss = cover * detail::kSheen * cross.sheen[at];
        return m_tables.rgb(cover * m_onThread.of(cross.shade[at]) * m_thread +
                            (1 - cover) * cross.shadow[at] * m_onCloth.of(cloth.shade[at]) *
                                m_ground +
                            detail::Light{gloss, gloss, gloss});
    }

    const detail::LightTables& m_tables = detail::lightTables();
    QImage& m_image;
    ContactShadow& m_shadow;
    detail::Light m_thread;
    detail::Light m_ground;
    detail::Lighting m_onThread;
    detail::Lighting m_onCloth;
};

Plane coverOf(const SwatchPlan& plan, const Swatch& swatch) {
    Plane cover(swatch.size);
    const QRect all(QPoint(0, 0), swatch.size);
    eachCell(plan, swatch, true, [&](const SwatchCell& cell) {
        const QRect seen = cell.area & all;
        for (int y = seen.top(); y <= seen.bottom(); ++y) {
            const float* from =
                cell.cross->cover.data() +
                static_cast<std::ptrdiff_t>(y - cell.area.top()) * cell.area.width() -
                cell.area.left();
            std::copy(from + seen.left(), from + seen.right() + 1, cover.line(y) + seen.left());
        }
    });
    return cover;
}

} // namespace

QRect stitchedPart(const Swatch& swatch) {
    return swatch.size.isEmpty() ? QRect() : partOf(planOf(swatch), swatch.size);
}

QImage swatch(const Swatch& swatch) {
    if (swatch.size.isEmpty()) {
        return {};
    }
    const SwatchPlan plan = planOf(swatch);
    QImage image(swatch.size, QImage::Format_RGB32);
    ContactShadow shadow(coverOf(plan, swatch), plan.raster.cell);
    SwatchPainter painter(swatch, image, shadow);
    eachCell(plan, swatch, false, [&painter](const SwatchCell& cell) { painter.paint(cell); });
    return image;
}

} // namespace otherskein::drawing
