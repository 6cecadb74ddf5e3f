#include "trace/detail/tiles.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <numeric>

namespace otherskein::trace::detail {

namespace {

constexpr double kMostSlope = 0.08;   // 3° of turning and what perspective adds
constexpr double kCoarseSlope = 0.01; // a line smeared by half of that is still seen
constexpr double kFineSlope = 0.0025;
constexpr double kPitchStep = 0.25;
constexpr float kFloor = 4; // of 255: the borders of JPEG's blocks, which come to no more
constexpr float kOfMean = 0.4F;
constexpr double kLeastSwing = 0.1; // root mean square of a profile's logarithm: below is grain
constexpr int kAllTeeth = 100;
constexpr int kMostParts = 10;
constexpr double kNearlyAs = 0.78;

/// Mean strength by place, `slope` taken out; `along` and `across` are the tile's centre.
void fillProfile(const LineMap& map, double along, double across, double slope,
                 std::vector<unsigned>& profile) {
    std::ranges::fill(profile, 0U);
    const int half = kTileSide / 2;
    const int first = std::max(0, static_cast<int>((along - half) / map.strip));
    const int last = std::min(map.strength.rows, static_cast<int>((along + half) / map.strip));
    for (int i = first; i < last; ++i) {
        const double offset = (i + 0.5) * map.strip - along;
        const int start = static_cast<int>(std::lround(across - half + slope * offset));
        const int from = std::max(0, -start);
        const int to = std::min(kTileSide, map.strength.cols - start);
        const uchar* row = map.strength.ptr(i);
        for (int k = from; k < to; ++k) {
            profile[static_cast<std::size_t>(k)] += row[start + k];
        }
    }
}

double energyOf(const std::vector<unsigned>& profile) {
    double sum = 0;
    for (const unsigned one : profile) {
        sum += static_cast<double>(one) * one;
    }
    return sum;
}

/// Correlation of the profile with itself by shift, 1 at none.
std::vector<float> selfCorrelation(const std::vector<float>& profile) {
    const int size = static_cast<int>(profile.size());
    const int most = size * 3 / 4;
    std::vector<float> result(static_cast<std::size_t>(most));
    for (int shift = 0; shift < most; ++shift) {
        float sum = 0;
        for (int k = 0; k < size - shift; ++k) {
            sum +=
                profile[static_cast<std::size_t>(k)] * profile[static_cast<std::size_t>(k + shift)];
        }
        result[static_cast<std::size_t>(shift)] = sum / static_cast<float>(size - shift);
    }
    const float whole = result[0];
    for (float& one : result) {
        one /= whole;
    }
    return result;
}

/// A thin line shows as two edges, one at either side: blurred, it is one.
void blur(std::vector<float>& profile) {
    cv::Mat view(1, static_cast<int>(profile.size()), CV_32F, profile.data());
    cv::GaussianBlur(view, view, {9, 1}, 1.7);
}

/// Bold lines would speak louder than all others: the logarithm above what grain gives anywhere.
std::vector<float> levelled(std::vector<float> profile) {
    blur(profile);
    std::vector<float> sorted = profile;
    const auto quarter = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 4);
    std::ranges::nth_element(sorted, quarter);
    const float grain = *quarter;
    for (float& one : profile) {
        one = std::log1p(std::max(0.0F, one - grain) / (kFloor + grain / 2));
    }
    return profile;
}

/// What two thirds of the strips have at each place, `slope` taken out: a line goes through all of
/// them, rows of symbols do not.
std::vector<float> throughProfile(const LineMap& map, double along, double across, double slope) {
    const int half = kTileSide / 2;
    const int first = std::max(0, static_cast<int>((along - half) / map.strip));
    const int last = std::min(map.strength.rows, static_cast<int>((along + half) / map.strip));
    const int strips = std::max(0, last - first);
    cv::Mat values(kTileSide, std::max(1, strips), CV_8U, cv::Scalar(0));
    for (int i = 0; i < strips; ++i) {
        const double offset = (first + i + 0.5) * map.strip - along;
        const int start = static_cast<int>(std::lround(across - half + slope * offset));
        const uchar* row = map.strength.ptr(first + i);
        const int to = std::min(kTileSide, map.strength.cols - start);
        for (int k = std::max(0, -start); k < to; ++k) {
            values.at<uchar>(k, i) = row[start + k];
        }
    }
    std::vector<float> result(kTileSide);
    for (int k = 0; k < kTileSide; ++k) {
        uchar* row = values.ptr(k);
        uchar* third = row + values.cols / 3;
        std::nth_element(row, third, row + values.cols);
        result[static_cast<std::size_t>(k)] = *third;
    }
    return result;
}

/// Strokes shorter than two strips, as of symbols, wiped out.
LineMap withoutShort(const LineMap& map) {
    LineMap result{map.strip, {}};
    const cv::Mat two = cv::getStructuringElement(cv::MORPH_RECT, {1, 2});
    cv::erode(map.strength, result.strength, two, {0, 0});
    cv::dilate(result.strength, result.strength, two, {0, 1});
    return result;
}

TileLines linesOf(const LineMap& map, double along, double across, bool countsSymbols) {
    TileLines best;
    std::vector<unsigned> profile(kTileSide);
    std::vector<unsigned> bestProfile(kTileSide);
    double most = -1;
    const auto trySlope = [&](double slope) {
        fillProfile(map, along, across, slope, profile);
        if (const double energy = energyOf(profile); energy > most) {
            most = energy;
            best.slope = slope;
            bestProfile.swap(profile);
        }
    };
    for (double slope = -kMostSlope; slope <= kMostSlope + 1e-9; slope += kCoarseSlope) {
        trySlope(slope);
    }
    for (const double step : {2 * kFineSlope, kFineSlope}) {
        const double middle = best.slope;
        trySlope(middle - step);
        trySlope(middle + step);
    }
    // Where colours have borders but no lines, nothing goes through: their mean counts, if less.
    std::vector<float> mean(bestProfile.begin(), bestProfile.end());
    const float strips = static_cast<float>(kTileSide) / static_cast<float>(map.strip);
    for (float& one : mean) {
        one /= strips;
    }
    mean = levelled(std::move(mean));
    best.profile = levelled(throughProfile(map, along, across, best.slope));
    float sum = 0;
    for (std::size_t k = 0; k < mean.size(); ++k) {
        best.profile[k] = (countsSymbols ? 0 : best.profile[k]) + kOfMean * mean[k];
        sum += best.profile[k];
    }
    double swing = 0;
    for (float& one : best.profile) {
        one -= sum / kTileSide;
        swing += static_cast<double>(one * one) / kTileSide;
    }
    if (swing < kLeastSwing * kLeastSwing) {
        return best;
    }
    best.correlation = selfCorrelation(best.profile);
    const auto tryPitch = [&](double pitch) {
        if (const double score = combScore(best.correlation, pitch, kFewTeeth);
            score > best.score) {
            best.score = score;
            best.pitch = pitch;
        }
    };
    for (double pitch = kLeastPitch; pitch <= kMostPitch; pitch += kPitchStep) {
        tryPitch(pitch);
    }
    // What repeats so also does so every few times: the finest that fits nearly as well.
    const double whole = best.pitch;
    const double score = best.score;
    for (int parts = kMostParts; parts >= 2; --parts) {
        const double fine = whole / parts;
        best.score = 0;
        for (double pitch = fine * 0.98; pitch <= fine * 1.02 && fine >= kLeastPitch;
             pitch += kPitchStep / 2) {
            tryPitch(pitch);
        }
        if (best.score > kNearlyAs * score) {
            return best;
        }
    }
    best.pitch = whole;
    best.score = score;
    return best;
}

} // namespace

double combScore(const std::vector<float>& correlation, double pitch, int mostTeeth) {
    if (correlation.empty()) {
        return 0;
    }
    const auto at = [&](double shift) {
        const auto whole = static_cast<std::size_t>(shift);
        const double part = shift - static_cast<double>(whole);
        return static_cast<double>(correlation[whole]) * (1 - part) +
               static_cast<double>(correlation[whole + 1]) * part;
    };
    const int teeth = std::min(
        mostTeeth, static_cast<int>((static_cast<double>(correlation.size()) - 2) / pitch));
    double sum = 0;
    double most = 0;
    for (int k = 1; k <= teeth; ++k) {
        const double one = at(k * pitch) - at((k - 0.5) * pitch);
        sum += one;
        most = std::max(most, one);
    }
    // The best does not count: bold lines alone fit at every third of their own pitch as well.
    return teeth > 1 ? (sum - most) / (teeth - 1) : sum;
}

NearPitch nearPitch(const TileLines& lines, double pitch, double share) {
    NearPitch best{pitch, 0};
    const double step = std::max(0.05, pitch * 0.003);
    for (double one = pitch * (1 - share); one <= pitch * (1 + share); one += step) {
        if (const double score = combScore(lines.correlation, one, kAllTeeth); score > best.score) {
            best = {one, score};
        }
    }
    return best;
}

Tiles tilesOf(const LineMaps& maps, bool countsSymbols) {
    const int width = maps.y.strength.cols;
    const int height = maps.x.strength.cols;
    const auto count = [](int length) { return std::max(1, (length - kTileSide / 2) / kTileStep); };
    const LineMap x = countsSymbols ? maps.x : withoutShort(maps.x);
    const LineMap y = countsSymbols ? maps.y : withoutShort(maps.y);
    Tiles result;
    result.across = count(width);
    result.down = count(height);
    result.tiles.resize(static_cast<std::size_t>(result.across) *
                        static_cast<std::size_t>(result.down));
    cv::parallel_for_({0, static_cast<int>(result.tiles.size())}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            Tile& tile = result.tiles[static_cast<std::size_t>(i)];
            tile.centre = {kTileSide / 2.0 + kTileStep * (i % result.across),
                           kTileSide / 2.0 + kTileStep * (i / result.across)};
            tile.x = linesOf(x, tile.centre.x, tile.centre.y, countsSymbols);
            tile.y = linesOf(y, tile.centre.y, tile.centre.x, countsSymbols);
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
