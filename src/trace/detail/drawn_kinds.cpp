#include "trace/detail/drawn_kinds.h"

#include <algorithm>
#include <map>

namespace otherskein::trace::detail {

std::vector<std::size_t> DrawnKinds::sizes() const {
    std::vector<std::size_t> result(shapes.size(), 0);
    for (std::size_t s = 0; s < shapes.size(); ++s) {
        result[static_cast<std::size_t>(of[s])] += members[s].size();
    }
    return result;
}

std::optional<std::size_t> DrawnKinds::shapeOf(const DrawnCell& cell) const {
    const cv::Mat sums = sumsOf(cell);
    std::optional<std::size_t> best;
    double least = 0;
    for (std::size_t s = 0; s < shapes.size(); ++s) {
        if (!shapes[s].mayBe(cell, sums) || !shapes[s].isSame(cell)) {
            continue;
        }
        if (cell.inner.area() >= shapes[s].cell().inner.area()) {
            return s; // all of it was seen
        }
        const double off =
            cv::norm(cell.picture(cell.inner), shapes[s].cell().picture(cell.inner), cv::NORM_L1);
        if (!best || off < least) {
            best = s;
            least = off;
        }
    }
    return best;
}

NearestGroup nearestOf(const DrawnCell& cell, const cv::Mat& seen, const DrawnKinds& kinds,
                       const std::function<bool(int group)>& may) {
    constexpr double kForLooks =
        0.02;                        // what the plain difference counts, of which rounding is part
    constexpr double kExact = 0.001; // of the plain difference: the very same pixels
    constexpr double kUnlike = 0.004;
    struct Off {
        double share = 1;
        double all = 1e30; ///< with the plain difference
        double plain = 1;
    };
    std::map<int, Off> offs;
    const double count = std::max(1, cv::countNonZero(seen(cell.inner)));
    for (std::size_t s = 0; s < kinds.shapes.size(); ++s) {
        if (!may(kinds.of[s])) {
            continue;
        }
        const cv::Rect box = cell.inner & kinds.shapes[s].cell().inner;
        const double share = cv::countNonZero(kinds.shapes[s].differences(cell) & seen) / count;
        const double plain = cv::norm(cell.picture(box), kinds.shapes[s].cell().picture(box),
                                      cv::NORM_L1, seen(box)) /
                             (3 * 255.0 * count);
        Off& known = offs[kinds.of[s]];
        known.share = std::min(known.share, share);
        known.all = std::min(known.all, share + kForLooks * plain);
        known.plain = std::min(known.plain, plain);
    }
    NearestGroup result;
    double least = 1e30;
    for (const auto& [group, off] : offs) {
        if (off.all < least) {
            least = off.all;
            result.group = group;
            result.off = off.share;
        }
    }
    result.isExact = result.group >= 0 && offs[result.group].plain < kExact &&
                     std::ranges::all_of(offs, [&](const auto& one) {
                         return one.first == result.group || one.second.plain > kUnlike;
                     });
    for (const auto& [group, off] : offs) {
        if (group != result.group) {
            result.second = std::min(result.second, off.share);
        }
        if (off.share < result.off + kTold) {
            result.asNear.push_back(group);
        }
    }
    return result;
}

bool comesFromBeyond(const cv::Mat& off, const cv::Rect& inner) {
    const cv::Rect within(inner.x + 1, inner.y + 1, inner.width - 2, inner.height - 2);
    return cv::countNonZero(off(inner)) > cv::countNonZero(off(within));
}

} // namespace otherskein::trace::detail
