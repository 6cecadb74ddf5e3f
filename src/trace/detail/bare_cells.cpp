#include "trace/detail/bare_cells.h"

#include "trace/detail/cell_marks.h"
#include "trace/detail/chart_ground.h"
#include "trace/detail/dirt_specks.h"
#include "trace/detail/median.h"
#include "trace/detail/passing_marks.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr float kWhitest = 45; // grey levels: the lightest group is bare up to there, if flat
constexpr float kWhiteTint = 12;
constexpr float kFlat = 25;         // its peak
constexpr float kOfContrast = 0.6F; // of what groups usually stand out by: what is not flat
constexpr float kLeastFlat = 15;
constexpr float kSpeck = 40; // grey levels that a speck or the rest of a line may darken a cell
constexpr float kFaint = 7;  // and that what lines leave may darken many
constexpr float kFrame = 30; // of a rim, both its places together
constexpr float kPaperFrame = 19; // of a paper's own: what lines leave there was seen up to 16
constexpr float kBroadFrame = 40;
constexpr float kPaleLight = 5; // by which the palest of fills is darker than paper
constexpr float kPaleTint = 4;
constexpr float kShade = 9;      // the most by which light may fall off from one cell to the next
constexpr float kOfRuns = 0.22F; // of a mark: what is left of it without what runs through
constexpr int kCoarse = 7;       // squares of a cell's side, to compare marks by
constexpr double kCommon = 0.5;  // of marks that cells share, or they are dirt
constexpr int kFew = 3;          // cells; more that look the same are no dirt
constexpr float kUnsure = 0.4F;

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
        m_members.resize(groupLooks.size());
        for (int i = 0; i < looks.rows; ++i) {
            m_levels.push_back(levelOf(looks.ptr<float>(i)));
            m_members[static_cast<std::size_t>(groups.of[static_cast<std::size_t>(i)])].push_back(
                i);
        }
        for (const GroupLook& one : groupLooks) {
            m_means.push_back(levelOf(one.mean.ptr<float>()));
        }
    }

    void mark(const BesideChart& beside) {
        if (!findPaper() || isOfKey(m_paper, m_grids, m_groups, m_found, beside)) {
            const auto ground = groundOf(m_grids, m_groups, m_found, beside);
            if (!ground) {
                return;
            }
            m_paper = *ground;
        }
        measureNoise();
        std::vector<Mark> marks;
        for (std::size_t g = 0; g < m_found.size(); ++g) {
            const auto* look = m_found[g].mean.ptr<float>();
            marks.push_back(markOf(look, m_means[g], paper(), m_means[m_paper]));
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
        markPassed(marks);
        markDirt(marks);
        markSpecks();
        doubt(marks);
    }

  private:
    /// Groups with nothing but what runs through from cell to cell.
    void markPassed(const std::vector<Mark>& marks) {
        const PassingMarks passing(m_looks, m_grids, m_groups, paper(), kFaint + m_peak);
        for (std::size_t g = 0; g < m_found.size(); ++g) {
            if (m_found[g].isBare || m_found[g].cells == 0 || !passing.goOn(g)) {
                continue;
            }
            const cv::Mat look = passing.withoutRuns(m_found[g].mean);
            const Mark rest =
                markOf(look.ptr<float>(), levelOf(look.ptr<float>()), paper(), m_means[m_paper]);
            const bool isRun =
                std::max(rest.peak, rest.rim) < kOfRuns * std::max(marks[g].peak, marks[g].rim);
            m_found[g].isBare =
                isRun && isFlat(g, rest) && (hasGroundOfPaper(g) || passing.crosses(g));
            // In the midst of a cell it may be a sign after all, whose like stand beside it.
            if (m_found[g].isBare && marks[g].peak > kSpeck) {
                beUnsure(g);
            }
        }
    }

    /// A symbol is what its cells have in common; groups whose cells share nothing but some dirt.
    void markDirt(const std::vector<Mark>& marks) {
        std::vector<double> still; // energy of paper
        for (const int i : m_members[m_paper]) {
            const cv::Mat one = coarse(i);
            still.push_back(one.dot(one));
        }
        const double noise = medianOf(still);
        for (std::size_t g = 0; g < m_found.size(); ++g) {
            const auto n = static_cast<double>(m_members[g].size());
            if (m_found[g].isBare || n < 2 || marks[g].framed > frameLimit() ||
                !hasGroundOfPaper(g)) {
                continue;
            }
            cv::Mat sum = cv::Mat::zeros(kCoarse, kCoarse, CV_32F);
            double all = 0;
            for (const int i : m_members[g]) {
                const cv::Mat one = coarse(i);
                all += one.dot(one);
                sum += one;
            }
            // Each cell along the mean of the others.
            const double common = (sum.dot(sum) - all) / (n - 1);
            if (common < kCommon * (all - n * noise)) {
                m_found[g].isBare = true;
                beUnsure(g);
            }
        }
    }

    void markSpecks() {
        const std::vector<char> isSpeck = speckGroups(m_looks, m_groups, m_found, m_paper);
        for (std::size_t g = 0; g < m_found.size(); ++g) {
            if (isSpeck[g] != 0 && hasGroundOfPaper(g)) {
                m_found[g].isBare = true;
                beUnsure(g);
            }
        }
    }

    void beUnsure(std::size_t group) {
        for (const int i : m_members[group]) {
            float& sure = m_groups.confidence[static_cast<std::size_t>(i)];
            sure = std::min(sure, kUnsure);
        }
    }

    /// What a cell has beyond paper in a few places.
    [[nodiscard]] cv::Mat coarse(int cell) const {
        cv::Mat result = cv::Mat::zeros(kCoarse, kCoarse, CV_32F);
        const float* look = m_looks.ptr<float>(cell);
        const float step =
            m_levels[static_cast<std::size_t>(cell)].ground - m_means[m_paper].ground;
        constexpr int kEach = (kLookSide - 2) / kCoarse;
        for (int y = 1; y + 1 < kLookSide; ++y) {
            for (int x = 1; x + 1 < kLookSide; ++x) {
                const int i = y * kLookSide + x;
                result.at<float>((y - 1) / kEach, (x - 1) / kEach) +=
                    (look[i] - paper()[i] - lookWeights()[static_cast<std::size_t>(i)] * step) /
                    (kEach * kEach);
            }
        }
        return result;
    }

    [[nodiscard]] const float* paper() const { return m_found[m_paper].mean.ptr<float>(); }

    /// On a faint page signs are faint too.
    [[nodiscard]] float flatLimit() const {
        const std::vector<float> none(kLookSize, 0);
        std::vector<float> contrasts;
        for (std::size_t g = 0; g < m_found.size(); ++g) {
            if (m_found[g].cells > kFew) {
                const Mark one = markOf(m_found[g].mean.ptr<float>(), m_means[g], none.data(), {});
                contrasts.push_back(std::max({one.peak, one.rim, std::abs(m_means[g].light)}));
            }
        }
        return std::clamp(kOfContrast * medianOf(contrasts), kLeastFlat, kFlat);
    }

    /// The lightest group that is flat.
    bool findPaper() {
        const std::vector<float> none(kLookSize, 0);
        constexpr float kNone = 1e6F;
        float least = kNone;
        const float flat = flatLimit();
        for (std::size_t g = 0; g < m_found.size(); ++g) {
            const float* look = m_found[g].mean.ptr<float>();
            const Mark one = markOf(look, m_means[g], none.data(), {});
            const float tint = m_means[g].tintTo({});
            const float light = std::abs(m_means[g].light);
            const float sum = light + one.peak + tint + one.framed;
            // Broad blurred lines leave much at the rim of most cells.
            const bool isUsual = one.peak < kFaint && 10 * m_found[g].cells > 6 * m_looks.rows;
            if (m_found[g].cells > 0 && !m_found[g].isSquare && one.peak < flat &&
                !isSignMean(look, m_found[g].cells, one.peak) &&
                one.framed < (isUsual ? kBroadFrame : kPaperFrame) && tint < kWhiteTint &&
                light < kWhitest && sum < least) {
                least = sum;
                m_paper = g;
            }
        }
        return least < kNone;
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

    /// Is it paper where it is lightest?
    [[nodiscard]] bool hasGroundOfPaper(std::size_t g) const {
        return 10 * m_reached[g] > 6 * m_found[g].cells ||
               std::abs(m_means[g].ground - m_means[m_paper].ground) <= kShade + m_step / 2;
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
            if (m_found[g].isBare && m_found[g].cells <= kFew &&
                marks[g].peak >= kFaint + 2 * m_peak) {
                beUnsure(g);
            }
        }
    }

    const cv::Mat& m_looks;
    std::span<const LookGrid> m_grids;
    Groups& m_groups;
    std::vector<GroupLook>& m_found;
    std::vector<std::vector<int>> m_members;
    std::vector<Level> m_levels; ///< of cells
    std::vector<Level> m_means;  ///< of groups
    std::size_t m_paper = 0;     ///< the group that is paper for sure
    std::vector<int> m_reached;  ///< cells of each group that the flood from paper reached
    float m_peak = 0;
    float m_step = 0;
};

} // namespace

void markBare(const cv::Mat& looks, std::span<const LookGrid> grids, Groups& groups,
              std::vector<GroupLook>& groupLooks, const BesideChart& beside) {
    BareGroups(looks, grids, groups, groupLooks).mark(beside);
}

} // namespace otherskein::trace::detail
