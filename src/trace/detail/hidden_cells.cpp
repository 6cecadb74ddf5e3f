#include "trace/detail/hidden_cells.h"

#include "trace/detail/groups.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kCandidates = 4; // groups that a hidden cell is compared with closely
constexpr double kOdd = 6;             // unlikeness, beyond which a cell is of no group surely
constexpr double kLeastSeen = 0.45;    // of a cell, to be sure of it

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
        }
    });
    return result;
}

std::optional<std::vector<char>> withoutUnlike(const std::vector<char>& masked,
                                               const cv::Mat& visible,
                                               const std::vector<float>& confidence) {
    constexpr double kMostlySeen = 0.7;
    constexpr int kFew = 4;
    std::vector<char> result = masked;
    int count = 0;
    for (std::size_t i = 0; i < masked.size(); ++i) {
        const int row = static_cast<int>(i);
        if (masked[i] != 0 && confidence[i] <= 0 && cv::mean(visible.row(row))[0] > kMostlySeen) {
            result[i] = 0;
            ++count;
        }
    }
    return count > kFew ? std::optional(std::move(result)) : std::nullopt;
}

} // namespace otherskein::trace::detail
