#include "trace/detail/chart_ground.h"

#include "trace/detail/cell_marks.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr float kPlain = 12;  // grey levels: the peak of what has no mark
constexpr float kMarked = 30; // the peak of what clearly has one
constexpr double kMarkedRough = 15;
constexpr double kPlainRough = 6; // of its places: a fine pattern is a mark too
constexpr float kPlainRim = 40;   // and nearer its sides
constexpr float kUnframed = 19;   // and along them all, where lines leave traces
constexpr int kSameGround = 12;   // levels of a channel, by which grounds of marks are one
constexpr float kSameLight = 6;   // grey levels, where a ground is seen beside a mark
constexpr float kSameTints = 12;
constexpr double kLeastSeen = 0.12;   // of a marked cell's places
constexpr double kMostMarks = 0.5;    // of the cells of other looks, that stand on a ground
constexpr double kAllMarked = 0.9;    // of the cells of other looks, where a plain one stands out
constexpr double kLeastGround = 0.02; // of all cells
constexpr float kPale = 165;          // light of a tint; printing black on less is hard to read
constexpr float kVeryPale = 215;
constexpr float kMuchDarker = 50;
constexpr double kMostRim = 0.6; // of the cells along the chart's sides
constexpr double kMostCells = 0.4;
constexpr double kShown = 0.5;    // of other looks, by number, that the key shows
constexpr double kSameSize = 1.4; // of patches of one key
constexpr int kFewOfLook = 4;     // cells; of fewer nothing is known
constexpr std::size_t kMostAsked = 16;

/// How much a look's places differ, without what is smooth.
double roughnessOf(const float* look, const Level& level) {
    std::vector<float> offs;
    for (int y = 2; y + 2 < kLookSide; ++y) {
        for (int x = 2; x + 2 < kLookSide; ++x) {
            const int i = y * kLookSide + x;
            offs.push_back(look[i] - lookWeights()[static_cast<std::size_t>(i)] * level.light);
        }
    }
    return cv::norm(offs) / std::sqrt(static_cast<double>(offs.size()));
}

class Ground {
  public:
    Ground(std::span<const LookGrid> grids, const Groups& groups,
           const std::vector<GroupLook>& looks)
        : m_grids(grids), m_groups(groups), m_looks(looks) {
        const std::vector<float> none(kLookSize, 0);
        for (const GroupLook& one : looks) {
            const float* look = one.mean.ptr<float>();
            const Level level = levelOf(look);
            const Mark mark = markOf(look, level, none.data(), {});
            const double roughness = roughnessOf(look, level);
            m_lights.push_back(255 + level.light);
            m_isPlain.push_back(roughness < kPlainRough && mark.peak < kPlain &&
                                        mark.rim < kPlainRim && std::abs(mark.framed) < kUnframed
                                    ? 1
                                    : 0);
            const bool isMarked =
                std::max({mark.peak, mark.rim, std::abs(mark.framed)}) > kMarked ||
                roughness > kMarkedRough;
            m_isMarked.push_back(isMarked ? 1 : 0);
            m_cells += one.cells;
        }
    }

    /// What is as the page around the chart.
    [[nodiscard]] std::optional<std::size_t> asAround(const BesideChart& beside) const {
        return most([&](std::size_t g) {
            std::vector<int> cells;
            for (std::size_t i = 0; i < m_groups.of.size(); ++i) {
                if (m_groups.of[i] == static_cast<int>(g)) {
                    cells.push_back(static_cast<int>(i));
                }
            }
            return beside.isAround(cells) ? m_looks[g].cells : 0;
        });
    }

    /// What most marks stand on.
    [[nodiscard]] std::optional<std::size_t> underMarks() const {
        return most([&](std::size_t g) {
            int on = 0;
            int others = 0;
            for (std::size_t o = 0; o < m_looks.size(); ++o) {
                if (isSameAs(o, g) && m_isPlain[o] != 0) {
                    continue; // the ground itself
                }
                others += m_looks[o].cells;
                on += m_isPlain[o] == 0 && standsOn(o, g) ? m_looks[o].cells : 0;
            }
            return on >= kFewOfLook && on > kMostMarks * others ? m_looks[g].cells : 0;
        });
    }

    /// The one plain look among marked ones.
    [[nodiscard]] std::optional<std::size_t> amongMarked() const {
        return most([&](std::size_t g) {
            int marked = 0;
            int others = 0;
            for (std::size_t o = 0; o < m_looks.size(); ++o) {
                if (m_isMarked[o] != 0) {
                    marked += m_looks[o].cells;
                }
                others += m_isPlain[o] != 0 && isSameAs(o, g) ? 0 : m_looks[o].cells;
            }
            const bool isOnly = marked >= kFewOfLook && marked > kAllMarked * others;
            return isOnly && m_lights[g] > kPale ? m_looks[g].cells : 0;
        });
    }

    /// The palest of plain looks.
    [[nodiscard]] std::optional<std::size_t> palest(const BesideChart& beside) const {
        std::optional<std::size_t> found;
        for (std::size_t g = 0; g < m_looks.size(); ++g) {
            if (mayBe(g) && (!found || m_lights[g] > m_lights[*found])) {
                found = g;
            }
        }
        if (!found || m_lights[*found] < kPale) {
            return std::nullopt;
        }
        if (const auto shown = isShown(*found, beside)) {
            return *shown ? std::nullopt : found;
        }
        const std::vector<std::size_t> others = othersThan(*found);
        const bool isApart = std::ranges::all_of(
            others, [&](std::size_t o) { return m_lights[*found] - m_lights[o] > kMuchDarker; });
        return isApart && !others.empty() && m_lights[*found] > kVeryPale && isAround(*found)
                   ? found
                   : std::nullopt;
    }

    /// Whether the page's key shows a plain look as it does others; none where it shows no others.
    [[nodiscard]] std::optional<bool> isShown(std::size_t g, const BesideChart& beside) const {
        const std::vector<std::size_t> others = othersThan(g);
        std::vector<double> sizes;
        std::size_t shown = 0;
        for (const std::size_t o : others) {
            const std::vector<double> its = beside.patches(colourOf(o));
            sizes.insert(sizes.end(), its.begin(), its.end());
            shown += its.empty() ? 0 : 1;
        }
        if (shown == 0 ||
            static_cast<double>(shown) < kShown * static_cast<double>(others.size())) {
            return std::nullopt;
        }
        return std::ranges::any_of(beside.patches(colourOf(g)), [&](double own) {
            return std::ranges::any_of(
                sizes, [&](double size) { return std::max(size / own, own / size) < kSameSize; });
        });
    }

  private:
    /// Other plain looks, those of most cells first.
    [[nodiscard]] std::vector<std::size_t> othersThan(std::size_t g) const {
        std::vector<std::size_t> others;
        for (std::size_t o = 0; o < m_looks.size(); ++o) {
            if (m_isPlain[o] != 0 && m_looks[o].cells >= kFewOfLook && !isSameAs(o, g)) {
                others.push_back(o);
            }
        }
        std::ranges::stable_sort(others, std::greater<>(),
                                 [&](std::size_t o) { return m_looks[o].cells; });
        others.resize(std::min(others.size(), kMostAsked));
        return others;
    }

    template <typename CountOf>
    [[nodiscard]] std::optional<std::size_t> most(const CountOf& countOf) const {
        std::optional<std::size_t> found;
        int best = 0;
        for (std::size_t g = 0; g < m_looks.size(); ++g) {
            const int count = mayBe(g) ? countOf(g) : 0;
            if (count > best) {
                best = count;
                found = g;
            }
        }
        return found;
    }

    [[nodiscard]] bool mayBe(std::size_t g) const {
        return m_isPlain[g] != 0 && m_looks[g].cells >= kFewOfLook &&
               m_looks[g].cells > kLeastGround * m_cells;
    }

    [[nodiscard]] bool isSameAs(std::size_t one, std::size_t other) const {
        const colour::Srgb8& a = m_looks[one].ground;
        const colour::Srgb8& b = m_looks[other].ground;
        return std::max({std::abs(a.r - b.r), std::abs(a.g - b.g), std::abs(a.b - b.b)}) <=
               kSameGround;
    }

    /// Whether the ground shows beside a mark: in some places, and in a corner with its tint.
    [[nodiscard]] bool standsOn(std::size_t marked, std::size_t ground) const {
        const float* look = m_looks[marked].mean.ptr<float>();
        const float* its = m_looks[ground].mean.ptr<float>();
        int same = 0;
        for (int y = 1; y + 1 < kLookSide; ++y) {
            for (int x = 1; x + 1 < kLookSide; ++x) {
                const int i = y * kLookSide + x;
                same += std::abs(look[i] - its[i]) <= kSameLight ? 1 : 0;
            }
        }
        if (same < kLeastSeen * (kLookSide - 2) * (kLookSide - 2)) {
            return false;
        }
        constexpr int kLast = kLookTints - 1;
        constexpr std::array kCorners{0, kLast, kLast * kLookTints, kLast * (kLookTints + 1)};
        return std::ranges::any_of(kCorners, [&](int corner) {
            const int i = kLookSide * kLookSide + 2 * corner;
            return std::hypot(look[i] - its[i], look[i + 1] - its[i + 1]) <= kSameTints;
        });
    }

    [[nodiscard]] cv::Vec3f colourOf(std::size_t g) const {
        const colour::Srgb8& one = m_looks[g].ground;
        return {static_cast<float>(one.b), static_cast<float>(one.g), static_cast<float>(one.r)};
    }

    /// Most of the chart and of its rim.
    [[nodiscard]] bool isAround(std::size_t g) const {
        int rim = 0;
        int own = 0;
        for (const LookGrid& grid : m_grids) {
            for (int i = 0; i < grid.columns * grid.rows; ++i) {
                const int column = i % grid.columns;
                const int row = i / grid.columns;
                if (column == 0 || row == 0 || column + 1 == grid.columns || row + 1 == grid.rows) {
                    ++rim;
                    own += isSameAs(static_cast<std::size_t>(
                                        m_groups.of[static_cast<std::size_t>(grid.first + i)]),
                                    g)
                               ? 1
                               : 0;
                }
            }
        }
        return own > kMostRim * rim && m_looks[g].cells > kMostCells * m_cells;
    }

    std::span<const LookGrid> m_grids;
    const Groups& m_groups;
    const std::vector<GroupLook>& m_looks;
    std::vector<float> m_lights;  ///< of groups, paper 255
    std::vector<char> m_isPlain;  ///< without a mark
    std::vector<char> m_isMarked; ///< clearly
    int m_cells = 0;
};

} // namespace

std::optional<std::size_t> groundOf(std::span<const LookGrid> grids, const Groups& groups,
                                    const std::vector<GroupLook>& looks,
                                    const BesideChart& beside) {
    const Ground ground(grids, groups, looks);
    if (const auto found = ground.asAround(beside)) {
        return found;
    }
    if (const auto found = ground.underMarks()) {
        return found;
    }
    if (const auto found = ground.amongMarked()) {
        return found;
    }
    return ground.palest(beside);
}

bool isOfKey(std::size_t group, std::span<const LookGrid> grids, const Groups& groups,
             const std::vector<GroupLook>& looks, const BesideChart& beside) {
    constexpr int kTinted = 12; // levels of a channel: else no patch of it would be seen
    const colour::Srgb8& ground = looks[group].ground;
    const cv::Vec3f colour(ground.b, ground.g, ground.r);
    // Its own patches first: each colour costs a look at the whole page.
    return std::min({ground.r, ground.g, ground.b}) < 255 - kTinted &&
           !beside.patches(colour).empty() &&
           Ground(grids, groups, looks).isShown(group, beside).value_or(false);
}

} // namespace otherskein::trace::detail
