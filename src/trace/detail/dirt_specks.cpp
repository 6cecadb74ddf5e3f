#include "trace/detail/dirt_specks.h"

#include "trace/detail/cell_marks.h"
#include "trace/detail/median.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace otherskein::trace::detail {

namespace {

constexpr int kFirstPlace = 1;    // beside lines
constexpr float kLeastSpeck = 10; // grey levels, over 3 × 3 places
constexpr float kOfPeak = 0.5F;   // of a speck's darkest place: what counts to it
constexpr int kMostPlaces = 24;   // of a speck
constexpr int kMostWide = 6;
constexpr double kMostOfCells = 0.6; // of a group, that have a speck and nothing else
constexpr double kReach = 1.5;       // places
constexpr double kMostOften = 3;     // as often as anywhere: dirt was seen up to 2.6
constexpr double kChance = 2;        // specks
constexpr double kElsewhere = 2.5;   // as many as here there must be on the whole page

/// What is dark in a cell, if it is one small spot.
struct Speck {
    double x = 0;
    double y = 0;
    float peak = 0;
};

std::optional<Speck> speckOf(const float* look, const GroupLook& paper) {
    const float* ground = paper.mean.ptr<float>();
    const float step = levelOf(look).ground - levelOf(ground).ground;
    cv::Mat dark(kLookSide, kLookSide, CV_32F);
    for (int i = 0; i < kLookSide * kLookSide; ++i) {
        dark.at<float>(i / kLookSide, i % kLookSide) =
            ground[i] + lookWeights()[static_cast<std::size_t>(i)] * step - look[i];
    }
    constexpr int kLast = kLookSide - 1 - kFirstPlace;
    Speck speck;
    for (int y = kFirstPlace + 1; y < kLast; ++y) {
        for (int x = kFirstPlace + 1; x < kLast; ++x) {
            const auto mean = static_cast<float>(cv::mean(dark({x - 1, y - 1, 3, 3}))[0]);
            speck.peak = std::max(speck.peak, mean);
        }
    }
    if (speck.peak < kLeastSpeck) {
        return std::nullopt;
    }
    int count = 0;
    double sum = 0;
    cv::Rect box;
    for (int y = kFirstPlace; y <= kLast; ++y) {
        for (int x = kFirstPlace; x <= kLast; ++x) {
            const float one = dark.at<float>(y, x);
            if (one > kOfPeak * speck.peak) {
                ++count;
                sum += static_cast<double>(one);
                speck.x += x * static_cast<double>(one);
                speck.y += y * static_cast<double>(one);
                box = box.empty() ? cv::Rect(x, y, 1, 1) : box | cv::Rect(x, y, 1, 1);
            }
        }
    }
    if (count > kMostPlaces || std::max(box.width, box.height) > kMostWide) {
        return std::nullopt;
    }
    speck.x /= sum;
    speck.y /= sum;
    return speck;
}

/// Whether there are no more specks where these lie than anywhere else, as far as can be said.
bool isSpread(const std::vector<Speck>& own, const std::vector<Speck>& all) {
    std::vector<double> xs;
    std::vector<double> ys;
    for (const Speck& one : own) {
        xs.push_back(one.x);
        ys.push_back(one.y);
    }
    const double x = medianOf(xs);
    const double y = medianOf(ys);
    const auto here = static_cast<double>(std::ranges::count_if(
        all, [&](const Speck& one) { return std::hypot(one.x - x, one.y - y) < kReach; }));
    const auto count = static_cast<double>(all.size());
    constexpr double kInner = kLookSide - 2 * kFirstPlace;
    const double expected = count * std::numbers::pi * kReach * kReach / (kInner * kInner);
    return here < kMostOften * expected + kChance && count > kElsewhere * here;
}

} // namespace

std::vector<char> speckGroups(const cv::Mat& looks, const Groups& groups,
                              const std::vector<GroupLook>& found, std::size_t paper) {
    std::vector<std::vector<Speck>> specks(found.size());
    for (int i = 0; i < looks.rows; ++i) {
        if (const auto speck = speckOf(looks.ptr<float>(i), found[paper])) {
            specks[static_cast<std::size_t>(groups.of[static_cast<std::size_t>(i)])].push_back(
                *speck);
        }
    }
    std::vector<char> isSpeck(found.size(), 0);
    for (std::size_t g = 0; g < found.size(); ++g) {
        isSpeck[g] =
            found[g].isBare || static_cast<double>(specks[g].size()) > kMostOfCells * found[g].cells
                ? 1
                : 0;
    }
    // Dots at one place are a symbol, and say nothing of how specks are spread.
    for (bool isMore = true; isMore;) {
        isMore = false;
        std::vector<Speck> all;
        for (std::size_t g = 0; g < found.size(); ++g) {
            if (isSpeck[g] != 0) {
                all.insert(all.end(), specks[g].begin(), specks[g].end());
            }
        }
        for (std::size_t g = 0; g < found.size(); ++g) {
            if (isSpeck[g] != 0 && !found[g].isBare && !isSpread(specks[g], all)) {
                isSpeck[g] = 0;
                isMore = true;
            }
        }
    }
    for (std::size_t g = 0; g < found.size(); ++g) {
        isSpeck[g] = found[g].isBare ? 0 : isSpeck[g];
    }
    return isSpeck;
}

} // namespace otherskein::trace::detail
