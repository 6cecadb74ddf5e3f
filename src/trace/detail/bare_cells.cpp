#include "trace/detail/bare_cells.h"

#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kLights = kLookSide * kLookSide;
constexpr int kTints = kLookTints * kLookTints;
constexpr float kWhitest = 45; // grey levels: the lightest group is bare up to there, if flat
constexpr float kWhiteTint = 12;
constexpr float kFlat = 25;     // its peak
constexpr float kSpeck = 40;    // grey levels that a speck or the rest of a line may darken a cell
constexpr float kFaint = 7;     // and that what lines leave may darken many
constexpr float kFrame = 30;    // of a rim, both its places together
constexpr float kPaleLight = 5; // by which the palest of fills is darker than paper
constexpr float kPaleTint = 4;
constexpr float kShade = 9; // the most by which light may fall off from one cell to the next
constexpr int kFew = 3;     // cells; more that look the same are no dirt
constexpr float kUnsure = 0.4F;

/// Light and tints of a cell as a whole.
struct Level {
    float light = 0;
    float ground = 0; ///< of what is light in it: paper or fill beside a symbol
    std::array<float, 2> tint{};

    [[nodiscard]] float tintTo(const Level& other) const {
        return std::hypot(tint[0] - other.tint[0], tint[1] - other.tint[1]);
    }
};

Level levelOf(const float* look) {
    std::vector<float> lights;
    for (int y = 3; y < kLookSide - 3; ++y) {
        for (int x = 3; x < kLookSide - 3; ++x) {
            lights.push_back(look[y * kLookSide + x]);
        }
    }
    Level level;
    level.light = medianOf(lights);
    const auto high = lights.begin() + static_cast<std::ptrdiff_t>(lights.size() * 4 / 5);
    std::ranges::nth_element(lights, high);
    level.ground = *high;
    for (int i = 0; i < kTints; ++i) {
        level.tint[0] += look[kLights + 2 * i] / kTints;
        level.tint[1] += look[kLights + 2 * i + 1] / kTints;
    }
    return level;
}

/// What stands out of a look's own level, less what stands out of paper's.
struct Mark {
    float peak = 0;   ///< of the middle, over 3 × 3 places
    float rim = 0;    ///< the same around the middle, where lines leave traces
    float framed = 0; ///< of the least dark of the four rims: an outline is dark at all
};

/// How much a look's places count, from the look of an even cell.
const std::vector<float>& weights() {
    static const std::vector<float> all = [] {
        Sheet even;
        even.cell = 32;
        even.columns = 1;
        even.rows = 1;
        even.straight = cv::Mat(32, 32, CV_8UC3, cv::Scalar::all(155));
        const cv::Mat look = looksOf(even) / -100;
        return std::vector<float>(look.ptr<float>(), look.ptr<float>() + kLights);
    }();
    return all;
}

Mark markOf(const float* look, const Level& level, const float* paper, const Level& paperLevel) {
    const std::vector<float>& weight = weights();
    const float step = level.light - paperLevel.light;
    const auto at = [&](int y, int x) {
        const int i = y * kLookSide + x;
        return look[i] - paper[i] - weight[static_cast<std::size_t>(i)] * step;
    };
    Mark mark;
    for (int y = 2; y < kLookSide - 2; ++y) {
        for (int x = 2; x < kLookSide - 2; ++x) {
            float sum = 0;
            for (int dy = -1; dy <= 1; ++dy) {
                for (int dx = -1; dx <= 1; ++dx) {
                    sum += at(y + dy, x + dx) / 9;
                }
            }
            const bool isInner = x > 2 && y > 2 && x < kLookSide - 3 && y < kLookSide - 3;
            float& most = isInner ? mark.peak : mark.rim;
            most = std::max(most, std::abs(sum));
        }
    }
    std::array<float, 4> rims{};
    const int end = kLookSide - 1;
    for (int i = 0; i < kLookSide; ++i) {
        rims[0] -= (at(0, i) + at(1, i)) / kLookSide;
        rims[1] -= (at(end, i) + at(end - 1, i)) / kLookSide;
        rims[2] -= (at(i, 0) + at(i, 1)) / kLookSide;
        rims[3] -= (at(i, end) + at(i, end - 1)) / kLookSide;
    }
    mark.framed = std::ranges::min(rims);
    return mark;
}

/// Steps from bare cells to a group's own, by the side of the bare cell that they lie at.
struct Borders {
    std::array<std::vector<float>, 4> lights;
    std::vector<float> all;
    std::vector<float> tints;
};

class BareGroups {
  public:
    BareGroups(const cv::Mat& looks, std::span<const LookGrid> grids, Groups& groups,
               std::vector<GroupLook>& groupLooks)
        : m_looks(looks), m_grids(grids), m_groups(groups), m_found(groupLooks) {
        for (int i = 0; i < looks.rows; ++i) {
            m_levels.push_back(levelOf(looks.ptr<float>(i)));
        }
        for (const GroupLook& one : groupLooks) {
            m_means.push_back(levelOf(one.mean.ptr<float>()));
        }
    }

    void mark() {
        if (!findPaper()) {
            return;
        }
        measureNoise();
        std::vector<Mark> marks;
        for (std::size_t g = 0; g < m_found.size(); ++g) {
            marks.push_back(
                markOf(m_found[g].mean.ptr<float>(), m_means[g], paper(), m_means[m_paper]));
        }
        m_found[m_paper].isBare = true;
        flood();
        for (bool isMore = true; isMore;) {
            isMore = false;
            const std::vector<Borders> borders = bordersOfBare();
            for (std::size_t g = 0; g < m_found.size(); ++g) {
                if (!m_found[g].isBare && m_found[g].cells > 0 && isFlat(g, marks[g]) &&
                    isPaper(g, borders[g])) {
                    m_found[g].isBare = true;
                    isMore = true;
                }
            }
        }
        doubt(marks);
    }

  private:
    [[nodiscard]] const float* paper() const { return m_found[m_paper].mean.ptr<float>(); }

    /// The lightest group that is flat.
    bool findPaper() {
        const std::vector<float> none(kLookSize, 0);
        float least = 1e6F;
        bool isFound = false;
        for (std::size_t g = 0; g < m_found.size(); ++g) {
            const Mark one = markOf(m_found[g].mean.ptr<float>(), m_means[g], none.data(), {});
            const float tint = m_means[g].tintTo({});
            const float light = std::abs(m_means[g].light);
            const float sum = light + one.peak + tint + one.framed;
            if (m_found[g].cells > 0 && one.peak < kFlat && one.framed < kFrame &&
                tint < kWhiteTint && light < kWhitest && sum < least) {
                least = sum;
                m_paper = g;
                isFound = true;
            }
        }
        return isFound;
    }

    /// How much single cells of paper differ: by their marks, and by the step to the next one.
    void measureNoise() {
        std::vector<float> peaks;
        for (int i = 0; i < m_looks.rows; ++i) {
            const auto at = static_cast<std::size_t>(i);
            if (m_groups.of[at] == static_cast<int>(m_paper)) {
                peaks.push_back(
                    markOf(m_looks.ptr<float>(i), m_levels[at], paper(), m_means[m_paper]).peak);
            }
        }
        m_peak = peaks.empty() ? 0 : medianOf(peaks);
        std::vector<float> steps;
        eachBorder([&](std::size_t one, std::size_t other, int) {
            if (m_groups.of[one] == static_cast<int>(m_paper) &&
                m_groups.of[other] == static_cast<int>(m_paper)) {
                steps.push_back(std::abs(m_levels[one].light - m_levels[other].light));
            }
        });
        m_step = steps.empty() ? 0 : medianOf(steps);
    }

    /// Finds the cells whose ground goes over into paper's without a step, from cell to cell.
    void flood() {
        std::vector<char> isReached(m_levels.size(), 0);
        std::vector<std::size_t> next;
        std::vector<std::vector<std::size_t>> around(m_levels.size());
        eachBorder([&](std::size_t one, std::size_t other, int) {
            if (std::abs(m_levels[one].ground - m_levels[other].ground) <= kPaleLight + m_step &&
                m_levels[one].tintTo(m_levels[other]) <= kPaleTint + m_step) {
                around[one].push_back(other);
            }
        });
        for (std::size_t i = 0; i < m_levels.size(); ++i) {
            if (m_groups.of[i] == static_cast<int>(m_paper)) {
                isReached[i] = 1;
                next.push_back(i);
            }
        }
        m_reached.assign(m_found.size(), 0);
        while (!next.empty()) {
            const std::size_t at = next.back();
            next.pop_back();
            ++m_reached[static_cast<std::size_t>(m_groups.of[at])];
            for (const std::size_t other : around[at]) {
                if (isReached[other] == 0) {
                    isReached[other] = 1;
                    next.push_back(other);
                }
            }
        }
    }

    /// Calls `each(one, other, side)`: `other` lies at the right (0), below (1), at the left (2),
    /// above (3).
    template <typename Each>
    void eachBorder(const Each& each) const {
        for (const LookGrid& grid : m_grids) {
            for (int row = 0; row < grid.rows; ++row) {
                for (int column = 0; column < grid.columns; ++column) {
                    const auto at =
                        static_cast<std::size_t>(grid.first + row * grid.columns + column);
                    if (column + 1 < grid.columns) {
                        each(at, at + 1, 0);
                        each(at + 1, at, 2);
                    }
                    if (row + 1 < grid.rows) {
                        const std::size_t below = at + static_cast<std::size_t>(grid.columns);
                        each(at, below, 1);
                        each(below, at, 3);
                    }
                }
            }
        }
    }

    [[nodiscard]] std::vector<Borders> bordersOfBare() const {
        std::vector<Borders> borders(m_found.size());
        eachBorder([&](std::size_t one, std::size_t other, int side) {
            const auto group = static_cast<std::size_t>(m_groups.of[other]);
            if (m_found[static_cast<std::size_t>(m_groups.of[one])].isBare &&
                !m_found[group].isBare) {
                const float step = m_levels[other].light - m_levels[one].light;
                borders[group].lights[static_cast<std::size_t>(side)].push_back(step);
                borders[group].all.push_back(step);
                borders[group].tints.push_back(m_levels[other].tintTo(m_levels[one]));
            }
        });
        return borders;
    }

    [[nodiscard]] bool isFlat(std::size_t g, const Mark& mark) const {
        // The mean of many cells has little noise; that of one cell has all of it.
        const float noise =
            m_peak * (0.5F + 1.5F / std::sqrt(static_cast<float>(m_found[g].cells)));
        const bool mayBeDirt = m_found[g].cells == 1;
        return mark.peak < std::max(kFaint + noise, mayBeDirt ? kSpeck : 0) &&
               mark.rim < (mayBeDirt ? 2 * kSpeck : 4 * kFaint + 2 * noise) &&
               mark.framed < frameLimit();
    }

    /// On a clean page outlines at the rim show, however thin.
    [[nodiscard]] float frameLimit() const { return std::min(kFrame, 10 + 5 * m_peak); }

    [[nodiscard]] bool isPaper(std::size_t g, Borders borders) const {
        const float noise = m_step / 2;
        if (10 * m_reached[g] > 6 * m_found[g].cells) {
            return true;
        }
        const double few = 3 + std::sqrt(static_cast<double>(m_found[g].cells));
        if (static_cast<double>(borders.all.size()) < few) {
            return std::abs(m_means[g].light - m_means[m_paper].light) <= kPaleLight + noise &&
                   m_means[g].tintTo(m_means[m_paper]) <= kPaleTint + noise / 2;
        }
        if (medianOf(borders.tints) > kPaleTint + m_step) {
            return false;
        }
        const float step = std::abs(medianOf(borders.all));
        if (step <= kPaleLight + noise) {
            return true;
        }
        // Light falls off one way; a fill is darker than the paper on all its sides.
        const auto isDarker = [&](std::size_t side) {
            auto& steps = borders.lights[side];
            return steps.size() >= 2 && medianOf(steps) < -kPaleLight;
        };
        const bool isAround = (isDarker(0) && isDarker(2)) || (isDarker(1) && isDarker(3));
        // Or is it much darker farther in? A fill is not.
        const float whole = std::abs(m_means[g].light - m_means[m_paper].light);
        return step < kShade && (!isAround || step < 0.3F * whole);
    }

    /// Single cells: marks in what is called bare, and what is called stitched but is about bare.
    void doubt(const std::vector<Mark>& marks) {
        for (int i = 0; i < m_looks.rows; ++i) {
            const auto at = static_cast<std::size_t>(i);
            const auto g = static_cast<std::size_t>(m_groups.of[at]);
            float& sure = m_groups.confidence[at];
            if (m_found[g].isBare) {
                const Mark own = markOf(m_looks.ptr<float>(i), m_levels[at],
                                        m_found[g].mean.ptr<float>(), m_means[g]);
                if (own.peak > kSpeck / 2 + 3 * m_peak || own.framed > 2 * frameLimit()) {
                    sure = std::min(sure, kUnsure);
                }
            } else if (m_found[g].cells <= kFew && marks[g].peak < 2 * kSpeck) {
                sure = std::min(sure, kUnsure);
            }
        }
        for (std::size_t g = 0; g < m_found.size(); ++g) {
            if (!m_found[g].isBare || m_found[g].cells > kFew ||
                marks[g].peak < kFaint + 2 * m_peak) {
                continue;
            }
            for (int i = 0; i < m_looks.rows; ++i) {
                if (m_groups.of[static_cast<std::size_t>(i)] == static_cast<int>(g)) {
                    float& sure = m_groups.confidence[static_cast<std::size_t>(i)];
                    sure = std::min(sure, kUnsure);
                }
            }
        }
    }

    const cv::Mat& m_looks;
    std::span<const LookGrid> m_grids;
    Groups& m_groups;
    std::vector<GroupLook>& m_found;
    std::vector<Level> m_levels; ///< of cells
    std::vector<Level> m_means;  ///< of groups
    std::size_t m_paper = 0;     ///< the group that is paper for sure
    std::vector<int> m_reached;  ///< cells of each group that the flood from paper reached
    float m_peak = 0;
    float m_step = 0;
};

} // namespace

void markBare(const cv::Mat& looks, std::span<const LookGrid> grids, Groups& groups,
              std::vector<GroupLook>& groupLooks) {
    BareGroups(looks, grids, groups, groupLooks).mark();
}

} // namespace otherskein::trace::detail
