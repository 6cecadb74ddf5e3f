#include "trace/detail/lattice_grounds.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace otherskein::trace::detail {

namespace {

constexpr int kSmallest = 12; // px of a cell put straight
constexpr int kLargest = 32;
constexpr double kNear = 0.12; // cells from a side: behind a line
constexpr double kFar = 0.24;
constexpr int kDiffers = 16; // grey levels of a channel

/// What most of a strip of one cell shows, the box given in px.
cv::Vec3b groundOf(const cv::Mat& straight, const cv::Rect& box) {
    cv::Vec3b ground;
    std::vector<uchar> values(static_cast<std::size_t>(box.area()));
    for (int channel = 0; channel < 3; ++channel) {
        std::size_t k = 0;
        for (int y = box.y; y < box.br().y; ++y) {
            const auto* row = straight.ptr<cv::Vec3b>(y);
            for (int x = box.x; x < box.br().x; ++x) {
                values[k++] = row[x][channel];
            }
        }
        const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
        std::ranges::nth_element(values, middle);
        ground[channel] = *middle;
    }
    return ground;
}

bool differ(const cv::Vec3b& one, const cv::Vec3b& other) {
    int most = 0;
    for (int channel = 0; channel < 3; ++channel) {
        most = std::max(most, std::abs(one[channel] - other[channel]));
    }
    return most > kDiffers;
}

/// Along one way: how often the ground changes at lines and within cells.
struct Changes {
    double atLines = 0; ///< of the sides between two cells
    double within = 0;  ///< of the cells
    double lines = 0;   ///< of the lines, that have a change somewhere
    int count = 0;      ///< at lines
};

Changes changesOf(const cv::Mat& straight, int cell, const cv::Size& cells, bool alongX) {
    const int count = alongX ? cells.width : cells.height;
    const int others = alongX ? cells.height : cells.width;
    const int near = std::max(1, static_cast<int>(std::lround(kNear * cell)));
    const int deep = std::max(2, static_cast<int>(std::lround((kFar - kNear) * cell)));
    const auto strip = [&](int i, int other, bool isLast) {
        const int from = i * cell + (isLast ? cell - near - deep : near);
        const int across = other * cell + near;
        return groundOf(straight, alongX ? cv::Rect(from, across, deep, cell - 2 * near)
                                         : cv::Rect(across, from, cell - 2 * near, deep));
    };
    cv::Mat atLine = cv::Mat::zeros(others, count, CV_8U);
    cv::Mat inCell = cv::Mat::zeros(others, count, CV_8U);
    cv::parallel_for_({0, others}, [&](const cv::Range& range) {
        for (int other = range.start; other < range.end; ++other) {
            cv::Vec3b before;
            for (int i = 0; i < count; ++i) {
                const cv::Vec3b first = strip(i, other, false);
                const cv::Vec3b last = strip(i, other, true);
                inCell.at<uchar>(other, i) = differ(first, last) ? 1 : 0;
                atLine.at<uchar>(other, i) = i > 0 && differ(before, first) ? 1 : 0;
                before = last;
            }
        }
    });
    const int within = cv::countNonZero(inCell);
    Changes changes;
    changes.count = cv::countNonZero(atLine);
    cv::Mat has;
    cv::reduce(atLine, has, 0, cv::REDUCE_MAX);
    changes.atLines = static_cast<double>(changes.count) / std::max(1, (count - 1) * others);
    changes.within = static_cast<double>(within) / std::max(1, count * others);
    changes.lines = static_cast<double>(cv::countNonZero(has)) / std::max(1, count - 1);
    return changes;
}

cv::Mat straightCells(const cv::Mat& bgr, const Lattice& lattice, const cv::Rect& cells,
                      int* cell) {
    *cell = std::clamp(static_cast<int>(std::lround(lattice.pitch)), kSmallest, kLargest);
    return straightened(bgr, lattice, *cell, cells);
}

/// Of the cells, how many have something printed in the strip that lies `shift` cells behind their
/// first side. The cells at the rim do not count: a frame may be as thick as half of them.
double printedAt(const cv::Mat& grey, int cell, const cv::Size& cells, bool alongX, double shift) {
    constexpr double kPrinted = 48; // grey levels
    constexpr double kThick = 0.1;  // cells
    const int thick = std::max(1, static_cast<int>(std::lround(kThick * cell)));
    const int start = static_cast<int>(std::lround(shift * cell - thick / 2.0));
    const int rim = std::max(1, cell / 8);
    int printed = 0;
    int all = 0;
    for (int row = 1; row + 1 < cells.height; ++row) {
        for (int column = 1; column + 1 < cells.width; ++column) {
            const cv::Rect strip =
                alongX ? cv::Rect(column * cell + start, row * cell + rim, thick, cell - 2 * rim)
                       : cv::Rect(column * cell + rim, row * cell + start, cell - 2 * rim, thick);
            double least = 0;
            double most = 0;
            cv::minMaxLoc(grey(strip), &least, &most);
            printed += most - least > kPrinted ? 1 : 0;
            ++all;
        }
    }
    return static_cast<double>(printed) / std::max(1, all);
}

} // namespace

std::optional<double> crossingAtLines(const cv::Mat& bgr, const Lattice& lattice,
                                      const cv::Rect& cells) {
    constexpr double kLeastPrinted = 0.15; // of the cells
    int cell = 0;
    cv::Mat grey;
    cv::cvtColor(straightCells(bgr, lattice, cells, &cell), grey, cv::COLOR_BGR2GRAY);
    double most = 0;
    for (const bool alongX : {true, false}) {
        const double inMiddle = printedAt(grey, cell, cells.size(), alongX, 0.5);
        if (inMiddle <= kLeastPrinted) {
            return std::nullopt;
        }
        most = std::max(most, printedAt(grey, cell, cells.size(), alongX, 0) / inMiddle);
    }
    return most;
}

bool symbolsEndAtLines(const cv::Mat& bgr, const Lattice& lattice, const cv::Rect& cells) {
    constexpr double kHardly = 0.3;
    const auto crossing = crossingAtLines(bgr, lattice, cells);
    return crossing && *crossing < kHardly;
}

bool groundsChangeAtLines(const cv::Mat& bgr, const Lattice& lattice, const cv::Rect& cells,
                          bool areForetold) {
    constexpr int kLeastCount = 30;
    constexpr double kOften = 0.01;
    constexpr double kMostLines = 0.6;
    const double hardlyEver = areForetold ? 0.1 : 0.4; // of as often
    int cell = 0;
    const cv::Mat straight = straightCells(bgr, lattice, cells, &cell);
    return std::ranges::all_of(std::array{true, false}, [&](bool alongX) {
        const Changes one = changesOf(straight, cell, cells.size(), alongX);
        return one.count >= kLeastCount && one.atLines > kOften &&
               (areForetold || one.lines > kMostLines) && one.within < hardlyEver * one.atLines;
    });
}

} // namespace otherskein::trace::detail
