#include "trace/detail/plain_lattice.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kFar = 0.3;       // cells; samples farther off are of other lines
constexpr double kAsGood = 1.15;   // times the middle residual of the freest map
constexpr double kNothing = 0.002; // cells that no one sees
constexpr double kLeastSpread = 0.002;
constexpr double kBent = 0.05; // cells by which lines of a bent page lie off, and still count
constexpr int kRounds = 12;
constexpr int kLeastSamples = 8; // of each way

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
Affine fitted(std::span<const LatticeSample> samples, const cv::Matx33d& start, bool isUpright,
              double leastSpread) {
    std::vector<double> off;
    for (const LatticeSample& one : samples) {
        off.push_back(residualOf(start, one));
    }
    Affine map;
    for (int round = 0; round < kRounds; ++round) {
        std::vector<double> sizes = off;
        for (double& one : sizes) {
            one = std::abs(one);
        }
        const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
        std::ranges::nth_element(sizes, middle);
        const double scale = std::max(leastSpread, 1.5 * *middle);
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

/// The same for a projective map: u·(g x + h y + 1) = a x + b y + c and the like for v. Places are
/// in units of half the samples' extent, so that the small pull of g and h to 0 is fair.
cv::Matx33d fittedProjective(std::span<const LatticeSample> samples, const cv::Matx33d& start,
                             double leastSpread) {
    constexpr double kPull = 20; // as if that many cells² of error stood against g = h = 1
    cv::Point2d low(1e9, 1e9);
    cv::Point2d high(-1e9, -1e9);
    for (const LatticeSample& one : samples) {
        low = {std::min(low.x, one.place.x), std::min(low.y, one.place.y)};
        high = {std::max(high.x, one.place.x), std::max(high.y, one.place.y)};
    }
    const cv::Point2d centre = (low + high) / 2;
    const double scale = std::max({high.x - low.x, high.y - low.y, 1.0}) / 2;
    const cv::Matx33d placed(1 / scale, 0, -centre.x / scale, 0, 1 / scale, -centre.y / scale, 0, 0,
                             1);
    // Coordinates around 0 keep the equations of g and h from drowning the others.
    const cv::Vec3d middle = start * cv::Vec3d(centre.x, centre.y, 1);
    const cv::Vec2d shift(std::round(middle[0] / middle[2]), std::round(middle[1] / middle[2]));
    const cv::Matx33d shifted(1, 0, shift[0], 0, 1, shift[1], 0, 0, 1);
    cv::Matx33d map = start;
    for (int round = 0; round < kRounds; ++round) {
        const double spread = std::max(leastSpread, 1.5 * middleResidual(map, samples));
        cv::Matx<double, 8, 8> product = cv::Matx<double, 8, 8>::zeros();
        cv::Vec<double, 8> side;
        for (const LatticeSample& one : samples) {
            const double off = residualOf(map, one) / spread;
            const double weight = 1 / (1 + off * off);
            const cv::Point2d at = (one.place - centre) / scale;
            const double value = one.coordinate - shift[one.isRow ? 1 : 0];
            cv::Vec<double, 8> terms;
            const int first = one.isRow ? 3 : 0;
            terms[first] = at.x;
            terms[first + 1] = at.y;
            terms[first + 2] = 1;
            terms[6] = -value * at.x;
            terms[7] = -value * at.y;
            product += weight * (terms * terms.t());
            side += weight * value * terms;
        }
        product(6, 6) += kPull;
        product(7, 7) += kPull;
        const cv::Vec<double, 8> s = product.solve(side, cv::DECOMP_SVD);
        map = shifted * cv::Matx33d(s[0], s[1], s[2], s[3], s[4], s[5], s[6], s[7], 1) * placed;
    }
    return map;
}

/// Those that `map` has at least about where they say they are.
std::vector<LatticeSample> nearOf(std::span<const LatticeSample> samples, const cv::Matx33d& map) {
    std::vector<LatticeSample> near;
    for (const LatticeSample& one : samples) {
        if (std::abs(residualOf(map, one)) < kFar) {
            near.push_back(one);
        }
    }
    return near;
}

cv::Matx33d toPageOf(const Affine& map) {
    return cv::Matx33d(map[0][1], map[0][2], map[0][0], map[1][1], map[1][2], map[1][0], 0, 0, 1)
        .inv();
}

} // namespace

std::optional<cv::Matx33d> settledMap(std::span<const LatticeSample> samples,
                                      const cv::Matx33d& toPage) {
    const cv::Matx33d start = toPage.inv();
    const std::vector<LatticeSample> near = nearOf(samples, start);
    const auto rows = std::ranges::count_if(near, &LatticeSample::isRow);
    if (rows < kLeastSamples || std::ssize(near) - rows < kLeastSamples) {
        return std::nullopt;
    }
    const Affine plain = fitted(near, start, false, kBent);
    const cv::Matx33d free = fittedProjective(near, start, kBent);
    return kAsGood * middleResidual(free, near) + kNothing < middleResidual(plain, near)
               ? free.inv()
               : toPageOf(plain);
}

std::optional<cv::Matx33d> plainestMap(std::span<const LatticeSample> samples,
                                       const cv::Matx33d& toPage) {
    const cv::Matx33d free = toPage.inv();
    const std::vector<LatticeSample> near = nearOf(samples, free);
    if (near.size() < 40) {
        return toPage;
    }
    const auto rows = std::ranges::count_if(near, &LatticeSample::isRow);
    if (rows < kLeastSamples || std::ssize(near) - rows < kLeastSamples) {
        return std::nullopt;
    }
    const cv::Matx33d exact = fittedProjective(near, free, kLeastSpread);
    const double usual = std::min(middleResidual(exact, near), middleResidual(free, near));
    for (const bool isUpright : {true, false}) {
        const Affine map = fitted(near, free, isUpright, kLeastSpread);
        if (middleResidual(map, near) <= kAsGood * usual + kNothing) {
            return toPageOf(map);
        }
    }
    return middleResidual(exact, near) < middleResidual(free, near) ? exact.inv() : toPage;
}

} // namespace otherskein::trace::detail
