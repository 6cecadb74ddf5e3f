#include "trace/detail/edge_shade.h"

#include "trace/detail/median.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <vector>

namespace otherskein::trace::detail {

namespace {

constexpr float kWhite = 255;
constexpr float kLeastStep = 8; // grey levels between paper and a shade
constexpr float kDarkest = 120; // a shade under symbols leaves them readable
constexpr double kAlike = 6;    // grounds of one shade
constexpr double kAll = 0.85;   // of a shaded column's cells
constexpr double kNone = 0.1;   // of the next column's
constexpr double kVaried = 16;  // grey levels by which contents differ where they are varied
constexpr int kSmall = 6;       // places a side at which contents are compared

/// Where a run of cells lies: the i-th along a side, k-th from it.
struct Side {
    bool isColumn;
    bool isFromEnd;

    [[nodiscard]] int depth(const Sheet& sheet) const {
        return isColumn ? sheet.columns : sheet.rows;
    }
    [[nodiscard]] int length(const Sheet& sheet) const {
        return isColumn ? sheet.rows : sheet.columns;
    }
    [[nodiscard]] cv::Rect box(const Sheet& sheet, int k, int i) const {
        const int at = isFromEnd ? depth(sheet) - 1 - k : k;
        return isColumn ? sheet.box(at, i) : sheet.box(i, at);
    }
};

class Grounds {
  public:
    explicit Grounds(const Sheet& sheet)
        : m_cell(sheet.cell), m_columns(static_cast<std::size_t>(sheet.columns)) {
        m_all.resize(m_columns * static_cast<std::size_t>(sheet.rows));
        m_isLifted.assign(m_all.size(), 0);
        cv::parallel_for_({0, sheet.rows}, [&](const cv::Range& range) {
            std::vector<float> values;
            for (int row = range.start; row < range.end; ++row) {
                for (int column = 0; column < sheet.columns; ++column) {
                    const int inset = sheet.cell / 8; // lines lie there
                    const cv::Rect box = sheet.box(column, row);
                    const cv::Mat inner =
                        sheet.straight({box.x + inset, box.y + inset, sheet.cell - 2 * inset,
                                        sheet.cell - 2 * inset});
                    cv::Vec3f& ground = m_all[indexOf(box)];
                    for (int channel = 0; channel < 3; ++channel) {
                        values.clear();
                        for (int y = 0; y < inner.rows; ++y) {
                            for (int x = 0; x < inner.cols; ++x) {
                                values.push_back(inner.at<cv::Vec3b>(y, x)[channel]);
                            }
                        }
                        const auto high =
                            values.begin() + static_cast<std::ptrdiff_t>(values.size() * 4 / 5);
                        std::ranges::nth_element(values, high);
                        ground[channel] = *high;
                    }
                }
            }
        });
    }

    [[nodiscard]] const cv::Vec3f& at(const cv::Rect& box) const { return m_all[indexOf(box)]; }

    /// Along one side already; says nothing about the others.
    [[nodiscard]] bool isLifted(const cv::Rect& box) const { return m_isLifted[indexOf(box)] != 0; }
    void setLifted(const cv::Rect& box) { m_isLifted[indexOf(box)] = 1; }

  private:
    [[nodiscard]] std::size_t indexOf(const cv::Rect& box) const {
        const auto row = static_cast<std::size_t>(box.y / m_cell);
        return row * m_columns + static_cast<std::size_t>(box.x / m_cell);
    }

    int m_cell;
    std::size_t m_columns;
    std::vector<cv::Vec3f> m_all; ///< what is light in each cell
    std::vector<char> m_isLifted;
};

bool isAlike(const cv::Vec3f& one, const cv::Vec3f& other) {
    return cv::norm(one - other, cv::NORM_INF) <= kAlike;
}

double shareOf(const Sheet& sheet, const Grounds& grounds, const Side& side, int k,
               const cv::Vec3f& shade) {
    int alike = 0;
    int open = 0;
    for (int i = 0; i < side.length(sheet); ++i) {
        const cv::Rect box = side.box(sheet, k, i);
        const cv::Vec3f& ground = grounds.at(box);
        const bool isCovered = std::max({ground[0], ground[1], ground[2]}) < kDarkest; // by a sign
        if (!isCovered && !grounds.isLifted(box)) {
            ++open;
            alike += isAlike(ground, shade) ? 1 : 0;
        }
    }
    return 3 * open < side.length(sheet) ? 0 : static_cast<double>(alike) / open;
}

/// Whether shaded cells of the first `depth` columns have different things in them.
bool isVaried(const Sheet& sheet, const Grounds& grounds, const Side& side, int depth,
              const cv::Vec3f& shade) {
    std::array<std::vector<float>, std::size_t{kSmall} * kSmall> places;
    for (int k = 0; k < depth; ++k) {
        for (int i = 0; i < side.length(sheet); ++i) {
            const cv::Rect box = side.box(sheet, k, i);
            if (!isAlike(grounds.at(box), shade)) {
                continue;
            }
            const int inset = sheet.cell / 6;
            cv::Mat grey;
            cv::cvtColor(sheet.straight({box.x + inset, box.y + inset, sheet.cell - 2 * inset,
                                         sheet.cell - 2 * inset}),
                         grey, cv::COLOR_BGR2GRAY);
            cv::Mat small;
            cv::resize(grey, small, cv::Size(kSmall, kSmall), 0, 0, cv::INTER_AREA);
            for (std::size_t place = 0; place < places.size(); ++place) {
                places[place].push_back(small.data[place]);
            }
        }
    }
    double sum = 0;
    for (const std::vector<float>& values : places) {
        cv::Scalar mean;
        cv::Scalar spread;
        cv::meanStdDev(values, mean, spread);
        sum += spread[0] / static_cast<double>(places.size());
    }
    return sum > kVaried;
}

/// Whether some cells of the first `depth` columns have something in them and some have not.
bool isPrintedInPart(const Sheet& sheet, const Side& side, int depth) {
    constexpr double kSome = 0.02;  // of the cells
    constexpr double kPrinted = 40; // grey levels
    constexpr double kInset = 0.25; // of a cell: lines and dashes
    int printed = 0;
    for (int k = 0; k < depth; ++k) {
        for (int i = 0; i < side.length(sheet); ++i) {
            const cv::Rect box = side.box(sheet, k, i);
            const int inset = static_cast<int>(kInset * sheet.cell);
            cv::Mat grey;
            cv::cvtColor(sheet.straight({box.x + inset, box.y + inset, sheet.cell - 2 * inset,
                                         sheet.cell - 2 * inset}),
                         grey, cv::COLOR_BGR2GRAY);
            double least = 0;
            double most = 0;
            cv::minMaxLoc(grey, &least, &most);
            printed += most - least > kPrinted ? 1 : 0;
        }
    }
    const double all = depth * side.length(sheet);
    return printed > kSome * all && printed < (1 - kSome) * all;
}

/// Whether no other cell of the chart, as much set aside along all of its sides, stands on a tint:
/// then a band of `depth` columns is none of its colours, though little is printed on it.
bool isOnlyTint(const Sheet& sheet, const Grounds& grounds, int depth) {
    constexpr double kTinted = 0.002; // of the cells
    int tinted = 0;
    int cells = 0;
    for (int row = depth; row < sheet.rows - depth; ++row) {
        for (int column = depth; column < sheet.columns - depth; ++column) {
            const cv::Vec3f& ground = grounds.at(sheet.box(column, row));
            const float darkest = std::min({ground[0], ground[1], ground[2]});
            const float lightest = std::max({ground[0], ground[1], ground[2]});
            tinted += darkest < kWhite - kLeastStep && lightest >= kDarkest ? 1 : 0;
            ++cells;
        }
    }
    return cells > 0 && tinted <= kTinted * cells;
}

/// How many columns along a side are shaded, and in what colour.
int shadedAlong(const Sheet& sheet, const Grounds& grounds, const Side& side, cv::Vec3f& shade) {
    for (int channel = 0; channel < 3; ++channel) {
        std::vector<float> values;
        values.reserve(static_cast<std::size_t>(side.length(sheet)));
        for (int i = 0; i < side.length(sheet); ++i) {
            values.push_back(grounds.at(side.box(sheet, 0, i))[channel]);
        }
        shade[channel] = medianOf(values);
    }
    const float darkest = std::min({shade[0], shade[1], shade[2]});
    if (darkest > kWhite - kLeastStep || darkest < kDarkest) {
        return 0;
    }
    int depth = 0;
    while (depth < side.depth(sheet) / 3 && shareOf(sheet, grounds, side, depth, shade) >= kAll) {
        ++depth;
    }
    if (depth == 0 || shareOf(sheet, grounds, side, depth, shade) > kNone ||
        (!isVaried(sheet, grounds, side, depth, shade) &&
         !(isPrintedInPart(sheet, side, depth) && isOnlyTint(sheet, grounds, depth)))) {
        return 0;
    }
    return depth;
}

void lift(cv::Mat cell, const cv::Vec3f& shade) {
    cv::Scalar gain;
    for (int channel = 0; channel < 3; ++channel) {
        gain[channel] = static_cast<double>(kWhite / shade[channel]);
    }
    cv::multiply(cell, gain, cell);
}

} // namespace

void liftEdgeShade(Sheet& sheet) {
    Grounds grounds(sheet);
    constexpr std::array<Side, 4> kSides{
        {{true, false}, {true, true}, {false, false}, {false, true}}};
    std::array<bool, 4> isDone{};
    // Where two shaded sides meet, one hides the end of the other until it is lifted.
    for (bool isMore = true; isMore;) {
        isMore = false;
        for (std::size_t which = 0; which < kSides.size(); ++which) {
            const Side& side = kSides[which];
            cv::Vec3f shade;
            const int depth = isDone[which] ? 0 : shadedAlong(sheet, grounds, side, shade);
            for (int k = 0; k < depth; ++k) {
                for (int i = 0; i < side.length(sheet); ++i) {
                    const cv::Rect box = side.box(sheet, k, i);
                    if (!grounds.isLifted(box)) {
                        lift(sheet.straight(box), shade);
                        grounds.setLifted(box);
                    }
                }
            }
            isDone[which] = isDone[which] || depth > 0;
            isMore = isMore || depth > 0;
        }
    }
}

} // namespace otherskein::trace::detail
