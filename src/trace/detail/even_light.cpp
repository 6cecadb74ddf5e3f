#include "trace/detail/even_light.h"

#include "trace/detail/cell_light.h"
#include "trace/detail/even_light_stains.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <queue>

namespace otherskein::trace::detail {

namespace {

constexpr float kWhitest = 247;    // paper is known to be paper from there
constexpr float kDarkest = 70;     // and followed into shadows down to there
constexpr float kLeastStep = 1.2F; // grey levels that even light changes by from cell to cell
constexpr float kMostStep = 6;     // and a shadow's edge, beyond its slope
constexpr float kSteepest = 14;    // slope of a shadow, grey levels a cell
constexpr float kTint = 0.03F;     // share of light that the tint of paper may change by
constexpr float kEven = 2.5F;      // grey levels; what varies less is let be

/// The colour of the lighter part of each cell: paper or fill beside the symbol.
cv::Mat groundsOf(const Sheet& sheet) {
    cv::Mat grounds(sheet.rows, sheet.columns, CV_32FC3);
    const auto inset = std::max(2, static_cast<int>(0.15 * sheet.cell));
    cv::parallel_for_({0, sheet.rows}, [&](const cv::Range& range) {
        std::vector<uchar> greens;
        for (int row = range.start; row < range.end; ++row) {
            for (int column = 0; column < sheet.columns; ++column) {
                const cv::Rect box = sheet.box(column, row);
                const cv::Mat part = sheet.straight(
                    {box.x + inset, box.y + inset, sheet.cell - 2 * inset, sheet.cell - 2 * inset});
                greens.clear();
                for (int y = 0; y < part.rows; ++y) {
                    for (int x = 0; x < part.cols; ++x) {
                        greens.push_back(part.at<cv::Vec3b>(y, x)[1]);
                    }
                }
                const auto high =
                    greens.begin() + static_cast<std::ptrdiff_t>(greens.size() * 3 / 4);
                std::ranges::nth_element(greens, high);
                const uchar limit = *high;
                cv::Vec3f sum;
                float count = 0;
                for (int y = 0; y < part.rows; ++y) {
                    for (int x = 0; x < part.cols; ++x) {
                        const cv::Vec3b& one = part.at<cv::Vec3b>(y, x);
                        if (one[1] >= limit) {
                            sum += cv::Vec3f(one[0], one[1], one[2]);
                            ++count;
                        }
                    }
                }
                grounds.at<cv::Vec3f>(row, column) = sum / count;
            }
        }
    });
    return grounds;
}

/// How much light changes its slope from cell to cell where nothing else happens.
float unsteadinessOf(const cv::Mat& grounds) {
    std::vector<float> bends;
    for (int y = 0; y < grounds.rows; ++y) {
        for (int x = 1; x + 1 < grounds.cols; ++x) {
            bends.push_back(std::abs(lightOf(grounds.at<cv::Vec3f>(y, x - 1)) +
                                     lightOf(grounds.at<cv::Vec3f>(y, x + 1)) -
                                     2 * lightOf(grounds.at<cv::Vec3f>(y, x))));
        }
    }
    if (bends.empty()) {
        return 0;
    }
    const auto middle = bends.begin() + static_cast<std::ptrdiff_t>(bends.size() / 2);
    std::ranges::nth_element(bends, middle);
    return *middle;
}

/// Cells that show paper: the whitest, and those that light leads to from them.
cv::Mat paperCells(const cv::Mat& grounds) {
    const float step = std::clamp(4 * unsteadinessOf(grounds), kLeastStep, kMostStep);
    cv::Mat isPaper(grounds.size(), CV_8U, cv::Scalar(0));
    std::queue<cv::Point> front;
    for (int y = 0; y < grounds.rows; ++y) {
        for (int x = 0; x < grounds.cols; ++x) {
            const cv::Vec3f& one = grounds.at<cv::Vec3f>(y, x);
            if (std::min({one[0], one[1], one[2]}) >= kWhitest) {
                isPaper.at<uchar>(y, x) = 1;
                front.emplace(x, y);
            }
        }
    }
    const cv::Rect all({}, grounds.size());
    while (!front.empty()) {
        const cv::Point at = front.front();
        front.pop();
        const cv::Vec3f& here = grounds.at<cv::Vec3f>(at);
        for (const cv::Point way : {cv::Point(1, 0), {-1, 0}, {0, 1}, {0, -1}}) {
            const cv::Point next = at + way;
            if (!all.contains(next) || isPaper.at<uchar>(next) != 0) {
                continue;
            }
            const cv::Vec3f& there = grounds.at<cv::Vec3f>(next);
            const cv::Point before = at - way;
            float slope = 0;
            if (all.contains(before) && isPaper.at<uchar>(before) != 0) {
                slope = std::clamp(lightOf(here) - lightOf(grounds.at<cv::Vec3f>(before)),
                                   -kSteepest, kSteepest);
            }
            const float change = lightOf(there) - lightOf(here);
            const bool isSmooth =
                std::abs(change - slope) <= step || std::abs(change) <= std::min(step, 3.0F);
            bool hasTint = lightOf(there) >= kDarkest;
            for (int c = 0; c < 3; ++c) {
                const float shift = there[c] / lightOf(there) - here[c] / lightOf(here);
                hasTint = hasTint && std::abs(shift) < kTint;
            }
            if (isSmooth && hasTint) {
                isPaper.at<uchar>(next) = 1;
                front.push(next);
            }
        }
    }
    return isPaper;
}

/// Paper's colour at every cell: its own where it shows, else as around it.
cv::Mat spreadOver(const cv::Mat& grounds, const cv::Mat& isPaper) {
    cv::Mat weight;
    isPaper.convertTo(weight, CV_32F);
    cv::Mat known = grounds.clone();
    known.setTo(cv::Scalar::all(0), isPaper == 0);
    cv::Mat result(grounds.size(), CV_32FC3, cv::Scalar::all(255));
    for (const double reach : {12.0, 4.0, 1.5, 0.6}) {
        cv::Mat sum;
        cv::Mat share;
        cv::GaussianBlur(known, sum, {}, reach, reach, cv::BORDER_CONSTANT);
        cv::GaussianBlur(weight, share, {}, reach, reach, cv::BORDER_CONSTANT);
        for (int y = 0; y < grounds.rows; ++y) {
            for (int x = 0; x < grounds.cols; ++x) {
                const float s = share.at<float>(y, x);
                if (s > 0.02F) {
                    const float trust = std::min(1.0F, 2.5F * s);
                    cv::Vec3f& out = result.at<cv::Vec3f>(y, x);
                    out = out * (1 - trust) + sum.at<cv::Vec3f>(y, x) / s * trust;
                }
            }
        }
    }
    return result;
}

/// Makes white what shows paper.
void whitenPaper(Sheet& sheet, const cv::Mat& grounds, const cv::Mat& isPaper) {
    int papers = 0;
    int uneven = 0;
    for (int y = 0; y < grounds.rows; ++y) {
        for (int x = 0; x < grounds.cols; ++x) {
            if (isPaper.at<uchar>(y, x) != 0) {
                ++papers;
                uneven += lightOf(grounds.at<cv::Vec3f>(y, x)) < 255 - kEven ? 1 : 0;
            }
        }
    }
    if (papers == 0 || uneven * 50 < papers) {
        return;
    }
    const cv::Mat field = spreadOver(grounds, isPaper);
    cv::parallel_for_({0, sheet.rows}, [&](const cv::Range& range) {
        for (int row = range.start; row < range.end; ++row) {
            for (int y = row * sheet.cell; y < (row + 1) * sheet.cell; ++y) {
                const auto place = [&](int px, int count) {
                    return std::clamp(
                        (static_cast<float>(px) + 0.5F) / static_cast<float>(sheet.cell) - 0.5F,
                        0.0F, static_cast<float>(count - 1));
                };
                const float fy = place(y, sheet.rows);
                const auto y0 = static_cast<int>(fy);
                const int y1 = std::min(y0 + 1, sheet.rows - 1);
                auto* pixels = sheet.straight.ptr<cv::Vec3b>(y);
                for (int x = 0; x < sheet.straight.cols; ++x) {
                    const float fx = place(x, sheet.columns);
                    const auto x0 = static_cast<int>(fx);
                    const int x1 = std::min(x0 + 1, sheet.columns - 1);
                    const float u = fx - static_cast<float>(x0);
                    const float v = fy - static_cast<float>(y0);
                    const cv::Vec3f local =
                        (field.at<cv::Vec3f>(y0, x0) * (1 - u) + field.at<cv::Vec3f>(y0, x1) * u) *
                            (1 - v) +
                        (field.at<cv::Vec3f>(y1, x0) * (1 - u) + field.at<cv::Vec3f>(y1, x1) * u) *
                            v;
                    for (int c = 0; c < 3; ++c) {
                        pixels[x][c] = cv::saturate_cast<uchar>(static_cast<float>(pixels[x][c]) *
                                                                255 / std::max(1.0F, local[c]));
                    }
                }
            }
        }
    });
}

} // namespace

void evenLight(Sheet& sheet) {
    const cv::Mat grounds = groundsOf(sheet);
    const cv::Mat isPaper = paperCells(grounds);
    whitenPaper(sheet, grounds, isPaper);
    const cv::Mat levels = groundsOf(sheet);
    const cv::Mat isStained = stainedCells(sheet, levels, isPaper);
    if (cv::countNonZero(isStained) > 0) {
        whitenStains(sheet, levels, isStained);
    }
}

} // namespace otherskein::trace::detail
