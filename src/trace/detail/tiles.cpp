#include "trace/detail/tiles.h"

#include <opencv2/imgproc.hpp>

#include <complex>
#include <numbers>
#include <numeric>

namespace otherskein::trace::detail {

namespace {

constexpr int kSqueeze = 8;         // px along the lines that are averaged first
constexpr double kMostSlope = 0.08; // 3° of turning and what perspective adds
constexpr double kSlopeStep = 0.005;
constexpr double kLeastPitch = 9;
constexpr double kMostPitch = 115;
constexpr double kPitchStep = 0.25;
constexpr double kBold = 0.05;       // of the places across: bold lines of the coarsest grids
constexpr double kBoldOfFine = 0.12; // where every fifth line of a fine grid is bold
constexpr double kLeastBold = 55;    // px from bold line to bold line, five fine cells at least

/// Edges squeezed along the lines and laid so that places across them are neighbours in memory.
cv::Mat squeezed(const cv::Mat& along) {
    cv::Mat small;
    cv::resize(along, small, {std::max(1, along.cols / kSqueeze), along.rows}, 0, 0,
               cv::INTER_AREA);
    cv::Mat turned;
    cv::transpose(small, turned);
    cv::Mat result;
    turned.convertTo(result, CV_32F);
    return result;
}

/// Mean edge by place, `slope` taken out; `along` and `across` are the tile's centre.
void fillProfile(const cv::Mat& lines, double along, double across, double slope,
                 std::vector<float>& profile) {
    std::ranges::fill(profile, 0.0F);
    const int half = kTileSide / 2;
    const int first = std::max(0, static_cast<int>((along - half) / kSqueeze));
    const int last = std::min(lines.rows, static_cast<int>((along + half) / kSqueeze));
    for (int i = first; i < last; ++i) {
        const double offset = (i + 0.5) * kSqueeze - along;
        const int start = static_cast<int>(std::lround(across - half + slope * offset));
        const int from = std::max(0, -start);
        const int to = std::min(kTileSide, lines.cols - start);
        const float* row = lines.ptr<float>(i);
        for (int k = from; k < to; ++k) {
            profile[static_cast<std::size_t>(k)] += row[start + k];
        }
    }
}

double energyOf(const std::vector<float>& profile) {
    return std::inner_product(profile.begin(), profile.end(), profile.begin(), 0.0);
}

/// Correlation of the profile with itself by shift, 1 at none; empty when there is nothing.
std::vector<double> selfCorrelation(const std::vector<float>& profile) {
    const int size = static_cast<int>(profile.size());
    const int most = size * 3 / 4;
    std::vector<double> result(static_cast<std::size_t>(most));
    for (int shift = 0; shift < most; ++shift) {
        float sum = 0;
        for (int k = 0; k < size - shift; ++k) {
            sum +=
                profile[static_cast<std::size_t>(k)] * profile[static_cast<std::size_t>(k + shift)];
        }
        result[static_cast<std::size_t>(shift)] = sum / static_cast<float>(size - shift);
    }
    if (result[0] < 1e-3) {
        return {};
    }
    const double whole = result[0];
    for (double& one : result) {
        one /= whole;
    }
    return result;
}

/// High where a shift by whole pitches fits and one by half a pitch more does not.
double combScore(const std::vector<double>& correlation, double pitch) {
    const auto at = [&](double shift) {
        const auto whole = static_cast<std::size_t>(shift);
        const double part = shift - static_cast<double>(whole);
        return correlation[whole] * (1 - part) + correlation[whole + 1] * part;
    };
    const int teeth =
        std::min(5, static_cast<int>((static_cast<double>(correlation.size()) - 2) / pitch));
    if (teeth < 1) {
        return 0;
    }
    double sum = 0;
    for (int k = 1; k <= teeth; ++k) {
        sum += at(k * pitch) - at((k - 0.5) * pitch);
    }
    return sum / teeth;
}

/// A thin line shows as two edges, one at either side: blurred, it is one.
void blur(std::vector<float>& profile) {
    cv::Mat view(1, static_cast<int>(profile.size()), CV_32F, profile.data());
    cv::GaussianBlur(view, view, {9, 1}, 1.7);
}

/// Bold lines would speak louder than all others: the highest `share` is cut off level, the mean
/// then taken off.
void level(std::vector<float>& profile, double share) {
    std::vector<float> sorted = profile;
    const auto top =
        sorted.begin() + static_cast<std::ptrdiff_t>(static_cast<double>(sorted.size()) * share);
    std::ranges::nth_element(sorted, top, std::greater<>());
    for (float& one : profile) {
        one = std::min(one, *top);
    }
    const float mean =
        std::accumulate(profile.begin(), profile.end(), 0.0F) / static_cast<float>(profile.size());
    for (float& one : profile) {
        one -= mean;
    }
}

TileLines linesOf(const cv::Mat& lines, double along, double across) {
    TileLines best;
    best.profile.resize(kTileSide);
    std::vector<float> profile(kTileSide);
    double most = -1;
    for (double slope = -kMostSlope; slope <= kMostSlope + 1e-9; slope += kSlopeStep) {
        fillProfile(lines, along, across, slope, profile);
        if (const double energy = energyOf(profile); energy > most) {
            most = energy;
            best.slope = slope;
            best.profile.swap(profile);
        }
    }
    blur(best.profile);
    std::vector<float> fineProfile = best.profile;
    level(best.profile, kBold);
    std::vector<double> correlation = selfCorrelation(best.profile);
    if (correlation.empty()) {
        return best;
    }
    const auto tryPitch = [&](double pitch) {
        if (const double score = combScore(correlation, pitch); score > best.score) {
            best.score = score;
            best.pitch = pitch;
        }
    };
    for (double pitch = kLeastPitch; pitch <= kMostPitch; pitch += kPitchStep) {
        tryPitch(pitch);
    }
    // Every few lines a bolder one: the finer pitch is the grid's, where it fits nearly as well, be
    // it only with the bold ones cut off.
    const TileLines coarse = best;
    const auto hasFiner = [&](double whole) {
        for (int parts = 10; parts >= 2; --parts) {
            best.score = 0;
            const double fine = coarse.pitch / parts;
            for (double pitch = fine * 0.98; pitch <= fine * 1.02 && fine >= kLeastPitch;
                 pitch += kPitchStep / 2) {
                tryPitch(pitch);
            }
            if (best.score > 0.78 * whole) {
                return true;
            }
        }
        return false;
    };
    if (hasFiner(coarse.score)) {
        return best;
    }
    level(fineProfile, kBoldOfFine);
    correlation = selfCorrelation(fineProfile);
    if (!correlation.empty() && coarse.pitch > kLeastBold && hasFiner(coarse.score)) {
        best.profile = fineProfile;
        return best;
    }
    return coarse;
}

} // namespace

Tiles tilesOf(const cv::Mat& alongX, const cv::Mat& alongYTransposed) {
    const cv::Mat x = squeezed(alongX);
    const cv::Mat y = squeezed(alongYTransposed);
    const cv::Size page = alongX.size();
    const auto count = [](int length) { return std::max(1, (length - kTileSide / 2) / kTileStep); };
    Tiles result;
    result.across = count(page.width);
    result.down = count(page.height);
    result.tiles.resize(static_cast<std::size_t>(result.across) *
                        static_cast<std::size_t>(result.down));
    cv::parallel_for_({0, static_cast<int>(result.tiles.size())}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            Tile& tile = result.tiles[static_cast<std::size_t>(i)];
            tile.centre = {kTileSide / 2.0 + kTileStep * (i % result.across),
                           kTileSide / 2.0 + kTileStep * (i / result.across)};
            tile.x = linesOf(x, tile.centre.x, tile.centre.y);
            tile.y = linesOf(y, tile.centre.y, tile.centre.x);
        }
    });
    return result;
}

double phaseOf(const std::vector<float>& profile, double pitch, double at, double width,
               double* strength) {
    const double middle = static_cast<double>(profile.size()) / 2 - 0.5;
    const int from = std::max(0, static_cast<int>(middle + at - width / 2));
    const int to =
        std::min(static_cast<int>(profile.size()), static_cast<int>(middle + at + width / 2) + 1);
    std::complex<double> sum = 0;
    double whole = 1e-9;
    double mean = 0;
    for (int k = from; k < to; ++k) {
        mean += double(profile[static_cast<std::size_t>(k)]) / std::max(1, to - from);
    }
    for (int k = from; k < to; ++k) {
        const double place = k - middle - at;
        const double window = 0.5 + 0.5 * std::cos(2 * std::numbers::pi * place / width);
        const double value =
            (static_cast<double>(profile[static_cast<std::size_t>(k)]) - mean) * window;
        sum += value * std::polar(1.0, -2 * std::numbers::pi * place / pitch);
        whole += std::abs(value);
    }
    if (strength != nullptr) {
        *strength = std::abs(sum) / whole;
    }
    return -std::arg(sum) / (2 * std::numbers::pi);
}

} // namespace otherskein::trace::detail
