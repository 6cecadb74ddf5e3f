#include "drawing/detail/relief_cache.h"

#include "drawing/detail/resampling.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace otherskein::drawing::detail {

namespace {

using ReliefKey = std::array<int, 5>;

std::size_t bytesOf(const CrossRelief& relief) {
    return 4 * sizeof(float) * relief.size() + sizeof(CrossRelief);
}
std::size_t bytesOf(const ClothRelief& relief) {
    return sizeof(float) * relief.shade.size() + sizeof(ClothRelief);
}

/// Forgets in two generations: what was not asked for since the last change goes.
template <typename Relief>
class Kept {
  public:
    template <typename Make>
    std::shared_ptr<const Relief> get(const ReliefKey& key, Make make) {
        if (const auto found = m_new.find(key); found != m_new.end()) {
            return found->second;
        }
        std::shared_ptr<const Relief> relief;
        if (const auto found = m_old.find(key); found != m_old.end()) {
            relief = found->second;
        } else {
            relief = std::make_shared<const Relief>(make());
        }
        const std::size_t bytes = bytesOf(*relief);
        if (m_newBytes + bytes > kMostReliefBytes / 4) { // two generations of two kinds
            m_old = std::move(m_new);
            m_oldBytes = m_newBytes;
            m_new.clear();
            m_newBytes = 0;
        }
        m_new.emplace(key, relief);
        m_newBytes += bytes;
        return relief;
    }
    [[nodiscard]] std::size_t bytes() const { return m_oldBytes + m_newBytes; }

  private:
    std::map<ReliefKey, std::shared_ptr<const Relief>> m_new;
    std::map<ReliefKey, std::shared_ptr<const Relief>> m_old;
    std::size_t m_newBytes = 0;
    std::size_t m_oldBytes = 0;
};

Kept<CrossRelief>& keptCrosses() {
    thread_local Kept<CrossRelief> kept;
    return kept;
}
Kept<ClothRelief>& keptCloths() {
    thread_local Kept<ClothRelief> kept;
    return kept;
}

/// Crosses are drawn in one of two sizes, then made smaller or larger. The first frame of a chart
/// with four thicknesses needs 16 of them, so all but the largest cells of a screen of two pixels
/// to one take the smaller: it stays sharp enough to a half more than its size.
constexpr int kModel = 64;
constexpr int kFineModel = 128;
constexpr int kFineFrom = 100; ///< pixels a cell

/// A cross to be resized. Light and gloss are weighed by how much of a texel the thread covers,
/// shadow by how much it leaves.
CrossRelief modelOf(int side, double coverage, int variant) {
    CrossRelief model = crossRelief(side, side, coverage, variant);
    for (std::size_t i = 0; i < model.size(); ++i) {
        model.shade[i] *= model.cover[i];
        model.sheen[i] *= model.cover[i];
        model.shadow[i] *= 1 - model.cover[i];
    }
    return model;
}

/// The mean of a plane under each pixel of a smaller one, or drawn out.
std::vector<float> resized(const std::vector<float>& plane, int side,
                           const std::vector<Sources>& columns, const std::vector<Sources>& rows) {
    std::vector<float> out;
    out.reserve(columns.size() * rows.size());
    std::vector<float> line(static_cast<std::size_t>(side));
    const auto inside = [side](int i) {
        return static_cast<std::size_t>(std::clamp(i, 0, side - 1));
    };
    for (const Sources& row : rows) {
        std::ranges::fill(line, 0.0F);
        for (std::size_t j = 0; j < row.share.size(); ++j) {
            const float* from =
                plane.data() + inside(row.first + static_cast<int>(j)) * line.size();
            for (std::size_t x = 0; x < line.size(); ++x) {
                line[x] += row.share[j] * from[x];
            }
        }
        for (const Sources& column : columns) {
            float sum = 0;
            for (std::size_t i = 0; i < column.share.size(); ++i) {
                sum += column.share[i] * line[inside(column.first + static_cast<int>(i))];
            }
            out.push_back(sum);
        }
    }
    return out;
}

CrossRelief resized(const CrossRelief& model, int width, int height) {
    const std::vector<Sources> columns = sourcesOf(model.width, width);
    const std::vector<Sources> rows = sourcesOf(model.height, height);
    const auto plane = [&](const std::vector<float>& from) {
        return resized(from, model.width, columns, rows);
    };
    CrossRelief relief{width,
                       height,
                       plane(model.cover),
                       plane(model.shade),
                       plane(model.sheen),
                       plane(model.shadow),
                       0};
    for (std::size_t i = 0; i < relief.size(); ++i) {
        const float cover = std::max(relief.cover[i], 1e-6F);
        relief.shade[i] /= cover;
        relief.sheen[i] /= cover;
        relief.shadow[i] /= std::max(1 - relief.cover[i], 1e-6F);
        relief.brightest = std::max(relief.brightest, relief.shade[i]);
    }
    return relief;
}

} // namespace

std::shared_ptr<const CrossRelief> keptCross(const CrossWish& wish) {
    constexpr int kSteps = 256;
    const int step = static_cast<int>(std::lround(std::clamp(wish.coverage, 0.0, 1.0) * kSteps));
    const int side = wish.size < kFineFrom ? kModel : kFineModel;
    return keptCrosses().get({wish.width, wish.height, side, step, wish.variant}, [&] {
        const auto model = keptCrosses().get({side, side, 0, step, wish.variant}, [&] {
            return modelOf(side, static_cast<double>(step) / kSteps, wish.variant);
        });
        return resized(*model, wish.width, wish.height);
    });
}

std::shared_ptr<const ClothRelief> keptCloth(int width, int height, const Cloth& cloth, int place) {
    return keptCloths().get({width, height, static_cast<int>(cloth.weave), cloth.over, place},
                            [&] { return clothRelief(width, height, cloth, place); });
}

std::size_t keptReliefBytes() {
    return keptCrosses().bytes() + keptCloths().bytes();
}

} // namespace otherskein::drawing::detail
