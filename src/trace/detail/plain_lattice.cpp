#include "trace/detail/plain_lattice.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kFar = 0.3;       // cells; samples farther off are of other lines
constexpr double kAsGood = 1.15;   // times the middle residual of the freest map
constexpr double kNothing = 0.002; // cells that no one sees

/// Column and row of a place: a row of `rows` each, for 1, x and y.
using Affine = std::array<cv::Vec3d, 2>;

double residualOf(const Affine& map, const LatticeSample& one) {
    return map[one.isRow ? 1 : 0].dot({1, one.place.x, one.place.y}) - one.coordinate;
}

double residualOf(const cv::Matx33d& map, const LatticeSample& one) {
    const cv::Vec3d at = map * cv::Vec3d(one.place.x, one.place.y, 1);
    return at[one.isRow ? 1 : 0] / at[2] - one.coordinate;
}

template <typename Map>
double middleResidual(const Map& map, std::span<const LatticeSample> samples) {
    std::vector<double> all;
    for (const LatticeSample& one : samples) {
        all.push_back(std::abs(residualOf(map, one)));
    }
    const auto middle = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
    std::ranges::nth_element(all, middle);
    return *middle;
}

/// Iteratively reweighted least squares with Cauchy's weights, from where `start` has the samples.
Affine fitted(std::span<const LatticeSample> samples, const cv::Matx33d& start, bool isUpright) {
    std::vector<double> off;
    for (const LatticeSample& one : samples) {
        off.push_back(residualOf(start, one));
    }
    Affine map;
    for (int round = 0; round < 12; ++round) {
        std::vector<double> sizes = off;
        for (double& one : sizes) {
            one = std::abs(one);
        }
        const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
        std::ranges::nth_element(sizes, middle);
        const double scale = std::max(0.002, 1.5 * *middle);
        std::array<cv::Matx33d, 2> products{cv::Matx33d::zeros(), cv::Matx33d::zeros()};
        std::array<cv::Vec3d, 2> sides{};
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const LatticeSample& one = samples[i];
            if (std::abs(off[i]) > kFar) {
                continue;
            }
            const double weight = 1 / (1 + off[i] * off[i] / (scale * scale));
            cv::Vec3d terms(1, one.place.x, one.place.y);
            if (isUpright) {
                terms[one.isRow ? 1 : 2] = 0;
            }
            const std::size_t which = one.isRow ? 1 : 0;
            products[which] += weight * (terms * terms.t());
            sides[which] += weight * one.coordinate * terms;
        }
        for (std::size_t which = 0; which < 2; ++which) {
            if (isUpright) {
                products[which](which == 1 ? 1 : 2, which == 1 ? 1 : 2) = 1;
            }
            map[which] = products[which].solve(sides[which], cv::DECOMP_SVD);
        }
        for (std::size_t i = 0; i < samples.size(); ++i) {
            off[i] = residualOf(map, samples[i]);
        }
    }
    return map;
}

} // namespace

cv::Matx33d plainestMap(std::span<const LatticeSample> samples, const cv::Matx33d& toPage) {
    const cv::Matx33d free = toPage.inv();
    std::vector<LatticeSample> near;
    for (const LatticeSample& one : samples) {
        if (std::abs(residualOf(free, one)) < kFar) {
            near.push_back(one);
        }
    }
    if (near.size() < 40) {
        return toPage;
    }
    const double usual = middleResidual(free, near);
    for (const bool isUpright : {true, false}) {
        const Affine map = fitted(near, free, isUpright);
        if (middleResidual(map, near) <= kAsGood * usual + kNothing) {
            const cv::Matx33d toLattice(map[0][1], map[0][2], map[0][0], map[1][1], map[1][2],
                                        map[1][0], 0, 0, 1);
            return toLattice.inv();
        }
    }
    return toPage;
}

} // namespace otherskein::trace::detail
