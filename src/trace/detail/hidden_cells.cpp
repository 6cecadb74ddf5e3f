#include "trace/detail/hidden_cells.h"

#include "trace/detail/groups.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <functional>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kCandidates = 4; // groups that a hidden cell is compared with closely
constexpr double kOdd = 6;             // unlikeness, beyond which a cell is of no group surely
constexpr double kLeastSeen = 0.45;    // of a cell, to be sure of it
constexpr double kNewSign = 20;        // unlikeness: what no line's rest explains
constexpr double kLeastBoth = 0.3;     // of a cell, that two of one new sign must both show
constexpr std::size_t kFewAlike = 3;   // fewer may be a line's rests after all
constexpr float kUnsureSign = 0.3F;

/// What is seen, at the pictures' own size.
cv::Mat seenOf(const float* look, int side) {
    const cv::Mat small(kLookSide, kLookSide, CV_32F, const_cast<float*>(look));
    cv::Mat light;
    cv::resize(small, light, {side, side}, 0, 0, cv::INTER_LINEAR);
    cv::Mat coarse;
    cv::resize(small, coarse, {kPictureTints, kPictureTints}, 0, 0, cv::INTER_AREA);
    cv::Mat row(1, side * side + 2 * kPictureTints * kPictureTints, CV_32F);
    auto* out = row.ptr<float>();
    for (int i = 0; i < side * side; ++i) {
        *out++ = light.at<float>(i / side, i % side) > 0.99F ? 1.0F : 0.0F;
    }
    for (int i = 0; i < kPictureTints * kPictureTints; ++i) {
        const float share = coarse.at<float>(i / kPictureTints, i % kPictureTints);
        *out++ = share > 0.99F ? 1.0F : 0.0F;
        *out++ = share > 0.99F ? 1.0F : 0.0F;
    }
    return row;
}

/// A hidden picture that no group is like.
struct Unplaced {
    int row;
    cv::Mat seen;
    double share; ///< of it that is seen
};

/// A sign that stands under or beside lines only.
struct NewSign {
    Likeness likeness;
    cv::Mat seen;
    std::vector<int> rows;
};

/// Gives numbers from `first` on to those that are alike by what is seen of both, if they are many.
void placeNewSigns(std::vector<Unplaced> unplaced, const cv::Mat& hidden, int side,
                   const PrintNoise& noise, int first, std::vector<Belonging>& belongings) {
    std::ranges::stable_sort(unplaced, std::greater{}, &Unplaced::share);
    std::vector<NewSign> signs;
    for (const Unplaced& one : unplaced) {
        const auto found = std::ranges::find_if(signs, [&](const NewSign& sign) {
            const cv::Mat both = sign.seen.mul(one.seen);
            return cv::mean(both)[0] > kLeastBoth &&
                   sign.likeness.unlikenessSeen(hidden.row(one.row), both).rest < kOdd;
        });
        if (found == signs.end()) {
            signs.push_back({Likeness(hidden.row(one.row), side, noise, 1), one.seen, {one.row}});
        } else {
            found->rows.push_back(one.row);
        }
    }
    for (const NewSign& sign : signs) {
        if (sign.rows.size() < kFewAlike) {
            continue;
        }
        for (const int row : sign.rows) {
            belongings[static_cast<std::size_t>(row)] = {first, kUnsureSign};
        }
        ++first;
    }
}

} // namespace

std::vector<Belonging> belongingsOf(const cv::Mat& hidden, const cv::Mat& seen,
                                    const std::vector<Group>& groups, const Pictures& pictures,
                                    const PrintNoise& noise) {
    std::vector<cv::Mat> means;
    std::vector<Likeness> likenesses;
    if (hidden.rows > 0) {
        for (const Group& group : groups) {
            means.push_back(meanOf(group.members, pictures.rows));
            likenesses.emplace_back(means.back(), pictures.side, noise, 1);
        }
    }
    std::vector<Belonging> result(static_cast<std::size_t>(hidden.rows));
    std::vector<double> rests(result.size());
    cv::parallel_for_({0, hidden.rows}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            const cv::Mat mask = seenOf(seen.ptr<float>(i), pictures.side);
            std::vector<std::pair<double, std::size_t>> near;
            for (std::size_t g = 0; g < means.size(); ++g) {
                const cv::Mat step = (hidden.row(i) - means[g]).mul(mask);
                near.emplace_back(step.dot(step), g);
            }
            const std::size_t kept = std::min(kCandidates, near.size());
            std::ranges::partial_sort(near, near.begin() + static_cast<std::ptrdiff_t>(kept));
            double best = 1e30;
            double second = 1e30;
            double rest = 0;
            for (std::size_t k = 0; k < kept; ++k) {
                const Unlikeness one =
                    likenesses[near[k].second].unlikenessSeen(hidden.row(i), mask);
                const double all = one.rest * hidden.cols + one.moved;
                if (all < best) {
                    second = best;
                    best = all;
                    rest = one.rest;
                    result[static_cast<std::size_t>(i)].group = static_cast<int>(near[k].second);
                } else {
                    second = std::min(second, all);
                }
            }
            const double share = cv::mean(mask)[0];
            const double ratio = std::sqrt(best / std::max(1.0, second));
            result[static_cast<std::size_t>(i)].sure = static_cast<float>(std::clamp(
                std::min({(1 - ratio) / 0.5, 1.5 - rest / kOdd, 0.5 + 2 * (share - kLeastSeen)}),
                0.0, 1.0));
            rests[static_cast<std::size_t>(i)] = rest;
        }
    });
    std::vector<Unplaced> unplaced;
    for (int i = 0; i < hidden.rows; ++i) {
        if (rests[static_cast<std::size_t>(i)] > kNewSign) {
            const cv::Mat mask = seenOf(seen.ptr<float>(i), pictures.side);
            unplaced.push_back({i, mask, cv::mean(mask)[0]});
        }
    }
    placeNewSigns(std::move(unplaced), hidden, pictures.side, noise,
                  static_cast<int>(groups.size()), result);
    return result;
}

} // namespace otherskein::trace::detail
