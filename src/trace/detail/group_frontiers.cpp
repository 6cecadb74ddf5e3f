#include "trace/detail/group_frontiers.h"

#include "trace/detail/placing.h"

#include <algorithm>

namespace otherskein::trace::detail {

namespace {

constexpr double kHalfWay = 0.35; // of the way from one mean to the other

/// Calls `each(one, own, other)` for what of each of these cells no movement, ink or line explains,
/// the mean of its own side without it, and that of the other side; until it says no.
template <typename Each>
void eachAgainstOthers(const Sides& cells, const Likeness& likeness, const Each& each) {
    Sides rests;
    Sides sums;
    for (std::size_t side = 0; side < 2; ++side) {
        rests[side] = likeness.scaledRests(cells[side]);
        cv::reduce(rests[side], sums[side], 0, cv::REDUCE_SUM);
    }
    for (std::size_t side = 0; side < 2; ++side) {
        const cv::Mat otherMean = sums[1 - side] / rests[1 - side].rows;
        for (int i = 0; i < rests[side].rows; ++i) {
            const cv::Mat one = rests[side].row(i);
            const cv::Mat ownMean = (sums[side] - one) / (rests[side].rows - 1);
            if (!each(one, ownMean, otherMean)) {
                return;
            }
        }
    }
}

} // namespace

double bridgeOf(const Group& one, const Group& other, const cv::Mat& from, const cv::Mat& to,
                const cv::Mat& rows) {
    constexpr std::size_t kMost = 200;
    const cv::Mat along = to - from;
    const double squared = along.dot(along);
    double least = 1;
    double between = 0;
    double fewest = 1e30;
    for (const Group* group : {&one, &other}) {
        const std::size_t step = std::max<std::size_t>(1, group->members.size() / kMost);
        double count = 0;
        double inner = 0;
        for (std::size_t i = 0; i < group->members.size(); i += step) {
            const double at = (rows.row(group->members[i]) - from).dot(along) / squared;
            inner += at > 0.35 && at < 0.65 ? 1 : 0;
            ++count;
        }
        const auto size = static_cast<double>(group->members.size());
        between += inner / count * size;
        fewest = std::min(fewest, size);
        least = std::min(least, inner / count);
    }
    return std::min(between / fewest, 3 * least + 0.05);
}

Frontier frontierOf(const Group& one, const Group& other, const std::vector<cv::Point2f>& places,
                    std::size_t most) {
    constexpr std::size_t kMost = 150;
    struct Pair {
        float far;
        int a;
        int b;
    };
    std::vector<Pair> nearest; // to each of one, of the other
    const std::size_t stepOne = std::max<std::size_t>(1, one.members.size() / kMost);
    const std::size_t stepOther = std::max<std::size_t>(1, other.members.size() / kMost);
    for (std::size_t i = 0; i < one.members.size(); i += stepOne) {
        const int a = one.members[i];
        for (std::size_t k = 0; k < other.members.size(); k += stepOther) {
            const int b = other.members[k];
            const cv::Point2f step =
                places[static_cast<std::size_t>(a)] - places[static_cast<std::size_t>(b)];
            nearest.push_back({step.dot(step), a, b});
        }
    }
    const std::size_t kept = std::min<std::size_t>(nearest.size(), 30 * most);
    std::ranges::partial_sort(nearest, nearest.begin() + static_cast<std::ptrdiff_t>(kept), {},
                              &Pair::far);
    Frontier result;
    for (std::size_t i = 0; i < kept; ++i) {
        const auto add = [most](std::vector<int>& to, int cell) {
            if (to.size() < most && std::ranges::find(to, cell) == to.end()) {
                to.push_back(cell);
            }
        };
        add(result.one, nearest[i].a);
        add(result.other, nearest[i].b);
    }
    return result;
}

Sides sidesOf(const Frontier& cells, const Pictures& pictures, cv::Point2f step) {
    Sides sides;
    for (const int i : cells.one) {
        sides[0].push_back(pictures.rows.row(i));
    }
    for (const int i : cells.other) {
        sides[1].push_back(isStep(step) ? stepped(pictures.rows.row(i), pictures.side, step)
                                        : pictures.rows.row(i));
    }
    return sides;
}

cv::Mat meanOfAll(const cv::Mat& rows) {
    cv::Mat mean;
    cv::reduce(rows, mean, 0, cv::REDUCE_AVG);
    return mean;
}

double toldApart(const Sides& cells, const Likeness& likeness) {
    double right = 0;
    eachAgainstOthers(
        cells, likeness, [&](const cv::Mat& one, const cv::Mat& own, const cv::Mat& other) {
            right +=
                cv::norm(one, own, cv::NORM_L2SQR) < cv::norm(one, other, cv::NORM_L2SQR) ? 1 : 0;
            return true;
        });
    return right / static_cast<double>(cells[0].rows + cells[1].rows);
}

bool areTwoKinds(const Sides& cells, const Likeness& likeness) {
    bool areTwo = true;
    eachAgainstOthers(cells, likeness,
                      [&](const cv::Mat& one, const cv::Mat& own, const cv::Mat& other) {
                          const cv::Mat along = other - own;
                          areTwo = (one - own).dot(along) <= kHalfWay * along.dot(along);
                          return areTwo;
                      });
    return areTwo;
}

} // namespace otherskein::trace::detail
