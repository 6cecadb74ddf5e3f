#include "trace/detail/sheet.h"

#include "trace/detail/bend.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kShrink = 4;          // blocks are looked at on a smaller page
constexpr float kUniform = 0.012F;  // share by which paper of a clean page varies
constexpr float kSameTint = 0.045F; // ratio of channels, against the page's paper
constexpr float kDarkest = 0.45F;   // of the page's paper, in a shadow

float lightOf(const cv::Vec3f& colour) {
    return (colour[0] + colour[1] + colour[2]) / 3;
}

/// The upper end of a block's colours, by channel: paper, if there is any in it.
cv::Mat brightest(const cv::Mat& small) {
    constexpr int kSide = kPaperBlock / kShrink;
    const cv::Size blocks((small.cols + kSide - 1) / kSide, (small.rows + kSide - 1) / kSide);
    cv::Mat result(blocks, CV_32FC3);
    std::array<std::vector<uchar>, 3> values;
    for (int by = 0; by < blocks.height; ++by) {
        for (int bx = 0; bx < blocks.width; ++bx) {
            const cv::Rect box =
                cv::Rect(bx * kSide, by * kSide, kSide, kSide) & cv::Rect({}, small.size());
            for (auto& channel : values) {
                channel.clear();
            }
            for (int y = box.y; y < box.br().y; ++y) {
                for (int x = box.x; x < box.br().x; ++x) {
                    for (std::size_t c = 0; c < 3; ++c) {
                        values[c].push_back(small.at<cv::Vec3b>(y, x)[static_cast<int>(c)]);
                    }
                }
            }
            for (std::size_t c = 0; c < 3; ++c) {
                const auto high =
                    values[c].begin() + static_cast<std::ptrdiff_t>(values[c].size() * 85 / 100);
                std::ranges::nth_element(values[c], high);
                result.at<cv::Vec3f>(by, bx)[static_cast<int>(c)] = *high;
            }
        }
    }
    return result;
}

/// What most of the bright blocks look like.
cv::Vec3f usualPaper(const cv::Mat& blocks) {
    std::vector<cv::Vec3f> all(blocks.begin<cv::Vec3f>(), blocks.end<cv::Vec3f>());
    std::ranges::sort(all, {}, lightOf);
    std::vector<cv::Vec3f> bright(all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2),
                                  all.end());
    cv::Vec3f result;
    for (int c = 0; c < 3; ++c) {
        const auto middle = bright.begin() + static_cast<std::ptrdiff_t>(bright.size() / 2);
        std::ranges::nth_element(bright, middle, {}, [c](const cv::Vec3f& one) { return one[c]; });
        result[c] = std::max(30.0F, (*middle)[c]);
    }
    return result;
}

bool hasTintOf(const cv::Vec3f& colour, const cv::Vec3f& paper) {
    const float scale = lightOf(colour) / lightOf(paper);
    for (int c = 0; c < 3; ++c) {
        if (std::abs(colour[c] - scale * paper[c]) > kSameTint * scale * paper[c]) {
            return false;
        }
    }
    return true;
}

} // namespace

cv::Mat paperOf(const cv::Mat& bgr) {
    cv::Mat small;
    cv::resize(bgr, small, {std::max(1, bgr.cols / kShrink), std::max(1, bgr.rows / kShrink)}, 0, 0,
               cv::INTER_AREA);
    const cv::Mat blocks = brightest(small);
    const cv::Vec3f paper = usualPaper(blocks);
    cv::Mat weight(blocks.size(), CV_32F, cv::Scalar(0));
    cv::Mat light(blocks.size(), CV_32FC3, cv::Scalar::all(0));
    int near = 0;
    int exact = 0;
    for (int y = 0; y < blocks.rows; ++y) {
        for (int x = 0; x < blocks.cols; ++x) {
            const cv::Vec3f& one = blocks.at<cv::Vec3f>(y, x);
            const float relative = lightOf(one) / lightOf(paper);
            if (relative < kDarkest || !hasTintOf(one, paper)) {
                continue;
            }
            weight.at<float>(y, x) = 1;
            light.at<cv::Vec3f>(y, x) = one;
            near += relative > 0.8F ? 1 : 0;
            exact += std::abs(relative - 1) < kUniform ? 1 : 0;
        }
    }
    if (exact * 100 > near * 35 || near == 0) {
        return cv::Mat(blocks.size(), CV_32FC3, cv::Scalar(paper[0], paper[1], paper[2]));
    }
    // Means of paper around, near and, where there is none near, far.
    cv::Mat result(blocks.size(), CV_32FC3, cv::Scalar(paper[0], paper[1], paper[2]));
    for (const double reach : {8.0, 3.0, 1.2}) {
        cv::Mat sum;
        cv::Mat share;
        cv::GaussianBlur(light, sum, {}, reach);
        cv::GaussianBlur(weight, share, {}, reach);
        for (int y = 0; y < blocks.rows; ++y) {
            for (int x = 0; x < blocks.cols; ++x) {
                const float s = share.at<float>(y, x);
                const float trust = std::min(1.0F, s * 3);
                if (s > 0.02F) {
                    const cv::Vec3f mean = sum.at<cv::Vec3f>(y, x) / s;
                    cv::Vec3f& out = result.at<cv::Vec3f>(y, x);
                    out = out * (1 - trust) + mean * trust;
                }
            }
        }
    }
    return result;
}

int cellSizeFor(double pitch) {
    return std::clamp(static_cast<int>(std::lround(pitch)), 16, 36);
}

Sheet sheetOf(const cv::Mat& bgr, const cv::Mat& paper, const Lattice& lattice, int cell) {
    Sheet sheet{{}, cell, lattice.columns, lattice.rows, lattice};
    // A page much finer than the cells is blurred to their size first, or thin strokes would come
    // and go.
    cv::Mat source = bgr;
    const double shrink = lattice.pitch / cell;
    if (shrink > 1.3) {
        cv::GaussianBlur(bgr, source, {}, 0.4 * shrink);
    }
    sheet.straight = straightened(source, lattice, cell, {0, 0, lattice.columns, lattice.rows});
    // What one projective map cannot follow: a curled page, a lens.
    if (const Bend bend = bendOf(sheet.straight, cell); !bend.offsets.empty()) {
        sheet.straight = unbent(source, lattice, cell, bend);
    }
    cv::parallel_for_({0, sheet.rows}, [&](const cv::Range& range) {
        for (int row = range.start; row < range.end; ++row) {
            for (int column = 0; column < sheet.columns; ++column) {
                const cv::Point2d at = lattice.corner(column + 0.5, row + 0.5);
                const auto place = [](double px, int count) {
                    return std::clamp(px / kPaperBlock - 0.5, 0.0, count - 1.001);
                };
                const double px = place(at.x, std::max(2, paper.cols));
                const double py = place(at.y, std::max(2, paper.rows));
                const int x0 = std::min(static_cast<int>(px), paper.cols - 1);
                const int y0 = std::min(static_cast<int>(py), paper.rows - 1);
                const int x1 = std::min(x0 + 1, paper.cols - 1);
                const int y1 = std::min(y0 + 1, paper.rows - 1);
                const auto fx = static_cast<float>(px - x0);
                const auto fy = static_cast<float>(py - y0);
                const cv::Vec3f local =
                    (paper.at<cv::Vec3f>(y0, x0) * (1 - fx) + paper.at<cv::Vec3f>(y0, x1) * fx) *
                        (1 - fy) +
                    (paper.at<cv::Vec3f>(y1, x0) * (1 - fx) + paper.at<cv::Vec3f>(y1, x1) * fx) *
                        fy;
                cv::Mat part = sheet.straight(sheet.box(column, row));
                cv::multiply(part, cv::Scalar(255 / local[0], 255 / local[1], 255 / local[2]),
                             part);
            }
        }
    });
    return sheet;
}

Sheet drawnSheet(const cv::Mat& bgr, const cv::Mat& paper, const Lattice& lattice, int cell) {
    Sheet sheet{{}, cell, lattice.columns, lattice.rows, lattice};
    const cv::Point2d corner = lattice.corner(0, 0);
    const cv::Rect box(static_cast<int>(std::lround(corner.x + 0.5)),
                       static_cast<int>(std::lround(corner.y + 0.5)), lattice.columns * cell,
                       lattice.rows * cell);
    assert((box & cv::Rect({}, bgr.size())) == box);
    // No light falls on a drawing: its paper has one colour.
    const cv::Scalar one = cv::mean(paper);
    if (std::min({one[0], one[1], one[2]}) > 254.9) {
        sheet.straight = bgr(box);
    } else {
        cv::multiply(bgr(box), cv::Scalar(255 / one[0], 255 / one[1], 255 / one[2]),
                     sheet.straight);
    }
    return sheet;
}

} // namespace otherskein::trace::detail
