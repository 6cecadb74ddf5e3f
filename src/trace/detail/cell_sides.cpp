#include "trace/detail/cell_sides.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>

namespace otherskein::trace::detail {

namespace {

/// What four fifths of the values are at least.
double lowFifth(const cv::Mat& values) {
    std::array<std::size_t, 256> counts{};
    for (int y = 0; y < values.rows; ++y) {
        const uchar* row = values.ptr(y);
        for (int x = 0; x < values.cols; ++x) {
            ++counts[row[x]];
        }
    }
    std::size_t sum = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        sum += counts[i];
        if (sum > values.total() / 5) {
            return static_cast<double>(i);
        }
    }
    return 0;
}

/// Per side, (across + 1) × along, the strength along its middle, best within `reach` bins
/// of where it should be, `shift` bins away, less what paper and print give anywhere. A line that
/// ends hardly past a corner is no side of the next cell.
cv::Mat sides(const LineSheet& sheet, int along, int across, int reach, int shift = 0) {
    cv::Mat result(across + 1, along, CV_32F, cv::Scalar(0));
    for (int k = 0; k < along; ++k) {
        const uchar* one = sheet.strength.ptr(k * sheet.steps + sheet.steps / 2 - 1);
        const uchar* other = sheet.strength.ptr(k * sheet.steps + sheet.steps / 2);
        for (int i = 0; i <= across; ++i) {
            uchar most = 0;
            const int middle = i * sheet.bins + shift;
            const int to = std::min(sheet.strength.cols, middle + reach);
            for (int b = std::max(0, middle - reach); b < to; ++b) {
                most = std::max(most, std::min(one[b], other[b]));
            }
            result.at<float>(i, k) = most;
        }
    }
    return result - lowFifth(sheet.strength);
}

/// How many of `values` are above each of 0 to 255, as a share.
std::array<double, 256> sharesAbove(const cv::Mat& values) {
    std::array<double, 257> counts{};
    for (auto it = values.begin<float>(); it != values.end<float>(); ++it) {
        ++counts[static_cast<std::size_t>(std::clamp(*it, 0.0F, 256.0F))];
    }
    std::array<double, 256> shares{};
    double above = 0;
    for (std::size_t i = 256; i-- > 0;) {
        above += counts[i + 1] / static_cast<double>(values.total());
        shares[i] = above;
    }
    return shares;
}

/// What counts as a line: a third of what most sides of the seed show; less, where that tells them
/// better from what lies half a cell beside them (Kolmogorov and Smirnov's distance): faint lines
/// among strong borders of colours.
double leastOfLine(const cv::Mat& sides, const cv::Mat& between, const cv::Rect& seed) {
    constexpr std::size_t kGrain = 4; // of 255
    constexpr double kLeast = 12;
    constexpr double kTellsApart = 0.5;
    constexpr double kNearly = 0.02;
    const cv::Rect part = seed & cv::Rect(0, 0, sides.cols, sides.rows);
    const cv::Mat inside = sides(part).clone();
    std::vector<float> sorted(inside.begin<float>(), inside.end<float>());
    const auto high = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() * 6 / 10);
    std::ranges::nth_element(sorted, high);
    const double usual = std::max(kLeast, static_cast<double>(*high) * 0.35);
    const std::array<double, 256> lines = sharesAbove(sides(part));
    const std::array<double, 256> others = sharesAbove(between(part));
    double most = 0;
    for (std::size_t i = kGrain; i < lines.size(); ++i) {
        most = std::max(most, lines[i] - others[i]);
    }
    if (most < kTellsApart) {
        return usual;
    }
    std::size_t first = lines.size();
    std::size_t last = 0;
    for (std::size_t i = kGrain; i < lines.size(); ++i) {
        if (lines[i] - others[i] >= most - kNearly) {
            first = std::min(first, i);
            last = i;
        }
    }
    return std::min(usual, static_cast<double>(first + last) / 2);
}

cv::Rect turned(const cv::Rect& box) {
    return {box.y, box.x, box.height, box.width};
}

/// The grey of a dark page's paper: what is commonest on it and at its rim. Far from
/// any where the page is not dark.
int darkPaper(const cv::Mat& page, double dark) {
    constexpr int kSamples = 100; // each way
    constexpr int kRim = 3;
    constexpr int kAbout = 12; // of 255
    cv::Mat small;
    cv::resize(page, small, {kSamples, kSamples}, 0, 0, cv::INTER_NEAREST);
    cv::cvtColor(small, small, cv::COLOR_BGR2GRAY);
    std::array<int, 256> counts{};
    std::array<int, 256> atRim{};
    for (int y = 0; y < kSamples; ++y) {
        for (int x = 0; x < kSamples; ++x) {
            const uchar grey = small.at<uchar>(y, x);
            ++counts[grey];
            const int aside = std::min({x, y, kSamples - 1 - x, kSamples - 1 - y});
            atRim[grey] += aside < kRim ? 1 : 0;
        }
    }
    const auto most = [](const std::array<int, 256>& all) {
        return static_cast<int>(std::distance(all.begin(), std::ranges::max_element(all)));
    };
    const int paper = most(counts);
    return paper < dark && std::abs(paper - most(atRim)) < kAbout ? paper : 512;
}

/// Which cells are ink all over, a quarter from each corner: a border as thick as half a cell is
/// none, nor is dark paper.
cv::Mat solidCells(const cv::Mat& page, const Lattice& lattice, const cv::Rect& area) {
    const cv::Mat small = straightened(page, lattice, 2, area);
    cv::Mat grey;
    cv::cvtColor(small, grey, cv::COLOR_BGR2GRAY);
    std::vector<uchar> sorted(grey.begin<uchar>(), grey.end<uchar>());
    const auto paper = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() * 95 / 100);
    std::ranges::nth_element(sorted, paper);
    const double dark = *paper * 0.55;
    constexpr int kAsPaper = 8; // of 255
    const int paperGrey = darkPaper(page, dark);
    cv::Mat solid(area.size(), CV_8U);
    for (int r = 0; r < area.height; ++r) {
        const uchar* upper = grey.ptr(2 * r);
        const uchar* lower = grey.ptr(2 * r + 1);
        for (int c = 0; c < area.width; ++c) {
            const auto [least, most] =
                std::minmax({upper[2 * c], upper[2 * c + 1], lower[2 * c], lower[2 * c + 1]});
            const bool isPaper = least > paperGrey - kAsPaper && most < paperGrey + kAsPaper;
            solid.at<uchar>(r, c) = most < dark && !isPaper ? 1 : 0;
        }
    }
    return solid;
}

/// Dashes joined, then what is shorter than a cell wiped out: digits have no line so long.
void keepLong(LineSheet& sheet) {
    const auto along = [](int length) {
        return cv::getStructuringElement(cv::MORPH_RECT, {1, length});
    };
    // Of two samples, so that nothing moves: up first, then back down.
    cv::dilate(sheet.strength, sheet.strength, along(2), {0, 0});
    cv::erode(sheet.strength, sheet.strength, along(2), {0, 1});
    cv::morphologyEx(sheet.strength, sheet.strength, cv::MORPH_OPEN, along(sheet.steps + 1));
}

} // namespace

Sides sidesOf(const cv::Mat& page, const LineMaps& maps, const Lattice& lattice,
              const cv::Rect& area, const cv::Rect& seed) {
    constexpr int kSteps = 4;
    const int bins = std::clamp(static_cast<int>(std::lround(lattice.pitch / 1.5)), 12, 28);
    LineSheet x = lineSheetOf(maps.x, true, lattice, area, kSteps, bins);
    LineSheet y = lineSheetOf(maps.y, false, lattice, area, kSteps, bins);
    keepLong(x);
    keepLong(y);
    const int near = std::max(2, bins / 6);
    const auto lookAt = [&](const LineSheet& sheet, const cv::Size& size, const cv::Rect& inside,
                            cv::Mat& lines, cv::Mat& between) {
        const cv::Mat all = sides(sheet, size.width, size.height, near);
        const cv::Mat others = sides(sheet, size.width, size.height, near, bins / 2);
        const double least = leastOfLine(all, others, inside);
        lines = (all > least) / 255;
        between = (others > least) / 255;
    };
    Sides result;
    lookAt(x, area.size(), seed, result.above, result.betweenRows);
    cv::Mat ofColumns;
    cv::Mat betweenColumns;
    lookAt(y, turned(area).size(), turned(seed), ofColumns, betweenColumns);
    cv::transpose(ofColumns, result.before);
    cv::transpose(betweenColumns, result.betweenColumns);
    result.solid = solidCells(page, lattice, area);
    const cv::Mat& solid = result.solid;
    for (int r = 0; r < area.height; ++r) {
        for (int c = 0; c < area.width; ++c) {
            if (solid.at<uchar>(r, c) == 0) {
                continue;
            }
            uchar& above = result.above.at<uchar>(r, c);
            uchar& before = result.before.at<uchar>(r, c);
            if (r > 0 && solid.at<uchar>(r - 1, c) != 0 && above == kNone) {
                above = kHidden;
            }
            if (c > 0 && solid.at<uchar>(r, c - 1) != 0 && before == kNone) {
                before = kHidden;
            }
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
