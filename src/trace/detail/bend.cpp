#include "trace/detail/bend.h"

#include "trace/detail/lattice_samples.h"
#include "trace/detail/median.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kNode = 4;             // cells from node to node
constexpr int kReach = 5;            // cells around a node that it looks at
constexpr float kMostOffset = 0.35F; // cells; more would be the next line
constexpr double kLeastOffset = 0.05;
constexpr double kMiddle = 0.8;
constexpr double kLeastPixels =
    1.2;                          // a renderer that draws lines at whole pixels moves them by less
constexpr double kExplains = 0.5; // of the lines' square distances: else they are chance
constexpr std::size_t kFew = 4;

/// The median of what the samples around each node are off; weight 0 where there are too few.
void fillNodes(const std::vector<LatticeSample>& samples, double cell, bool isRow, cv::Mat& value,
               cv::Mat& weight) {
    for (int y = 0; y < value.rows; ++y) {
        for (int x = 0; x < value.cols; ++x) {
            std::vector<float> near;
            for (const LatticeSample& one : samples) {
                const cv::Point2d at = (one.place + cv::Point2d(0.5, 0.5)) / cell;
                if (one.isRow == isRow && std::abs(at.x - x * kNode) <= kReach &&
                    std::abs(at.y - y * kNode) <= kReach) {
                    near.push_back(static_cast<float>((isRow ? at.y : at.x) - one.coordinate));
                }
            }
            if (near.size() < kFew) {
                continue;
            }
            const auto middle = near.begin() + static_cast<std::ptrdiff_t>(near.size() / 2);
            std::ranges::nth_element(near, middle);
            value.at<float>(y, x) = std::clamp(*middle, -kMostOffset, kMostOffset);
            weight.at<float>(y, x) = 1;
        }
    }
}

/// Smooth, and fading to nothing where no node is known.
cv::Mat smoothed(const cv::Mat& value, const cv::Mat& weight) {
    constexpr double kBlur = 0.8; // nodes
    constexpr double kNothing = 0.05;
    cv::Mat sum;
    cv::Mat share;
    cv::GaussianBlur(value, sum, {}, kBlur);
    cv::GaussianBlur(weight, share, {}, kBlur);
    return sum / (share + kNothing);
}

float between(const cv::Mat& nodes, double x, double y) {
    const double px = std::clamp(x / kNode, 0.0, nodes.cols - 1.001);
    const double py = std::clamp(y / kNode, 0.0, nodes.rows - 1.001);
    const int x0 = static_cast<int>(px);
    const int y0 = static_cast<int>(py);
    const auto fx = static_cast<float>(px - x0);
    const auto fy = static_cast<float>(py - y0);
    return (nodes.at<float>(y0, x0) * (1 - fx) + nodes.at<float>(y0, x0 + 1) * fx) * (1 - fy) +
           (nodes.at<float>(y0 + 1, x0) * (1 - fx) + nodes.at<float>(y0 + 1, x0 + 1) * fx) * fy;
}

} // namespace

Bend bendOf(const cv::Mat& straight, int cell) {
    const int columns = straight.cols / cell;
    const int rows = straight.rows / cell;
    Lattice lattice;
    lattice.toPage = cv::Matx33d(cell, 0, -0.5, 0, cell, -0.5, 0, 0, 1);
    lattice.pitch = cell;
    const std::vector<LatticeSample> samples =
        lineSamples(lineMapsOf(straight, std::max(4, cell / 4)), lattice, {0, 0, columns, rows});
    const cv::Size size(columns / kNode + 2, rows / kNode + 2);
    cv::Mat nodes[2];
    for (const bool isRow : {false, true}) {
        cv::Mat value(size, CV_32F, cv::Scalar(0));
        cv::Mat weight(size, CV_32F, cv::Scalar(0));
        fillNodes(samples, cell, isRow, value, weight);
        nodes[isRow ? 1 : 0] = smoothed(value, weight);
    }
    std::vector<double> sizes;
    std::vector<double> leftSizes;
    double before = 0;
    double after = 0;
    for (const LatticeSample& one : samples) {
        const cv::Point2d at = (one.place + cv::Point2d(0.5, 0.5)) / static_cast<double>(cell);
        const double off = (one.isRow ? at.y : at.x) - one.coordinate;
        const double left =
            off - static_cast<double>(between(nodes[one.isRow ? 1 : 0], at.x, at.y));
        before += off * off;
        sizes.push_back(std::abs(off));
        leftSizes.push_back(std::abs(left));
        after += left * left;
    }
    double most = 0;
    for (const cv::Mat& one : nodes) {
        most = std::max(most, cv::norm(one, cv::NORM_INF));
    }
    // The middle ones too: symbols beside a few lines move those far, a bend moves most a little.
    if (medianOf(std::move(leftSizes)) > kMiddle * medianOf(std::move(sizes)) ||
        most < std::max(kLeastOffset, kLeastPixels / cell) || after > kExplains * before) {
        return {};
    }
    Bend bend{cv::Mat(rows + 1, columns + 1, CV_32FC2)};
    for (int y = 0; y <= rows; ++y) {
        for (int x = 0; x <= columns; ++x) {
            bend.offsets.at<cv::Vec2f>(y, x) = {between(nodes[0], x, y), between(nodes[1], x, y)};
        }
    }
    return bend;
}

cv::Mat unbent(const cv::Mat& page, const Lattice& lattice, int cell, const Bend& bend) {
    if (bend.offsets.empty()) {
        return straightened(page, lattice, cell, {0, 0, lattice.columns, lattice.rows});
    }
    cv::Mat places(lattice.rows * cell, lattice.columns * cell, CV_32FC2);
    cv::parallel_for_({0, lattice.rows}, [&](const cv::Range& range) {
        const auto corner = [&](int column, int row) {
            const cv::Vec2f& off = bend.offsets.at<cv::Vec2f>(row, column);
            const cv::Point2d at = lattice.corner(column + static_cast<double>(off[0]),
                                                  row + static_cast<double>(off[1]));
            return cv::Vec2f(static_cast<float>(at.x), static_cast<float>(at.y));
        };
        for (int row = range.start; row < range.end; ++row) {
            for (int column = 0; column < lattice.columns; ++column) {
                const cv::Vec2f a = corner(column, row);
                const cv::Vec2f b = corner(column + 1, row);
                const cv::Vec2f c = corner(column, row + 1);
                const cv::Vec2f d = corner(column + 1, row + 1);
                for (int y = 0; y < cell; ++y) {
                    const float down = (static_cast<float>(y) + 0.5F) / static_cast<float>(cell);
                    const cv::Vec2f left = a + (c - a) * down;
                    const cv::Vec2f step = (b + (d - b) * down - left) / static_cast<float>(cell);
                    auto* out = places.ptr<cv::Vec2f>(row * cell + y) + column * cell;
                    for (int x = 0; x < cell; ++x) {
                        out[x] = left + step * (static_cast<float>(x) + 0.5F);
                    }
                }
            }
        }
    });
    cv::Mat result;
    cv::remap(page, result, places, {}, cv::INTER_LINEAR, cv::BORDER_CONSTANT,
              cv::Scalar::all(255));
    return result;
}

} // namespace otherskein::trace::detail
