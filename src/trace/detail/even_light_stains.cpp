#include "trace/detail/even_light_stains.h"

#include "trace/detail/cell_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace otherskein::trace::detail {

namespace {

constexpr float kDarkest = 110; // grey levels; darker cells are print, not stained
constexpr float kLeastStep = 5; // grey levels that a stain's edge changes by
constexpr std::size_t kLeastCells = 6;
constexpr int kLeastSides = 8;
constexpr double kMostSides = 0.75; // of a stain, each of its cells
constexpr double kCrossed = 0.3;    // share of sides near which a stain's edge lies elsewhere
constexpr float kMoved = 0.35F;     // share of the step that is seen away from the grid line
constexpr double kStripNear = 0.18; // of a cell: where to look, beyond blurred lines and fills
constexpr double kStripFar = 0.36;
constexpr float kMostly = 0.8F; // of the way from ink to its ground, that half of a cell has
constexpr double kInk = 0.04;   // of a sheet's pixels, that are no lighter than ink
constexpr float kStroke = 0.3F; // of a cell: what is narrower is print, not paper
constexpr float kRoom = 0.88F;  // share of its darkest cells' light that a stain has between them

const std::array<cv::Point, 4> kWays{cv::Point(1, 0), {-1, 0}, {0, 1}, {0, -1}};

/// The light that so much of a part has no more than.
float lightOfShare(const cv::Mat& part, double share) {
    std::vector<float> lights;
    for (int y = 0; y < part.rows; ++y) {
        for (int x = 0; x < part.cols; ++x) {
            lights.push_back(lightOf(part.at<cv::Vec3b>(y, x)));
        }
    }
    const auto at =
        lights.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(lights.size()));
    std::ranges::nth_element(lights, at);
    return *at;
}

/// The light of what is printed on a sheet, lines and symbols: on a faint page far from black.
float inkOf(const Sheet& sheet) {
    cv::Mat small;
    cv::resize(sheet.straight, small, {}, 0.5, 0.5, cv::INTER_NEAREST);
    return lightOfShare(small, kInk);
}

/// Or is there a symbol that its ground cannot be told from, as a light one on a dark fill?
bool isMostlyGround(const Sheet& sheet, const cv::Mat& grounds, float ink, cv::Point cell) {
    const cv::Rect box = sheet.box(cell.x, cell.y);
    const auto inset = static_cast<int>(kStripNear * sheet.cell);
    const int side = sheet.cell - 2 * inset;
    const cv::Mat part = sheet.straight({box.x + inset, box.y + inset, side, side});
    const float ground = lightOf(grounds.at<cv::Vec3f>(cell));
    return lightOfShare(part, 0.5) >= ink + kMostly * (ground - ink);
}

/// The lighter part of the cell's strip along its side that `way` leads to.
float lightNear(const Sheet& sheet, cv::Point cell, cv::Point way) {
    const cv::Rect box = sheet.box(cell.x, cell.y);
    const auto near = static_cast<int>(kStripNear * sheet.cell);
    const int depth = std::max(2, static_cast<int>(kStripFar * sheet.cell) - near);
    const int length = sheet.cell - 2 * near;
    cv::Rect strip(box.x + near, box.y + near, length, length);
    if (way.x != 0) {
        strip.width = depth;
        strip.x = way.x < 0 ? strip.x : box.x + sheet.cell - near - depth;
    } else {
        strip.height = depth;
        strip.y = way.y < 0 ? strip.y : box.y + sheet.cell - near - depth;
    }
    return lightOfShare(sheet.straight(strip), 0.75);
}

/// Does the edge between those two cells lie at some other place than their border?
bool isCrossed(const Sheet& sheet, const cv::Mat& grounds, cv::Point paper, cv::Point way) {
    const cv::Point stain = paper + way;
    const float light = lightOf(grounds.at<cv::Vec3f>(paper));
    const float step = light - lightOf(grounds.at<cv::Vec3f>(stain));
    const float outer = (light - lightNear(sheet, paper, way)) / step;
    const float inner = (light - lightNear(sheet, stain, -way)) / step;
    // What is much darker is a symbol's part.
    return (outer > kMoved && outer < 3) || inner < 1 - kMoved;
}

/// Cells that are connected and no paper, each lot of them.
std::vector<std::vector<cv::Point>> lotsOf(const cv::Mat& grounds, const cv::Mat& isPaper) {
    cv::Mat isDone = isPaper.clone();
    const cv::Rect all({}, grounds.size());
    std::vector<std::vector<cv::Point>> lots;
    for (int y = 0; y < grounds.rows; ++y) {
        for (int x = 0; x < grounds.cols; ++x) {
            std::vector<cv::Point> lot;
            const auto take = [&](cv::Point at) {
                if (all.contains(at) && isDone.at<uchar>(at) == 0 &&
                    lightOf(grounds.at<cv::Vec3f>(at)) >= kDarkest) {
                    isDone.at<uchar>(at) = 1;
                    lot.push_back(at);
                }
            };
            take({x, y});
            for (std::size_t i = 0; i < lot.size(); ++i) {
                const cv::Point at = lot[i];
                for (const cv::Point way : kWays) {
                    take(at + way);
                }
            }
            if (lot.size() >= kLeastCells) {
                lots.push_back(std::move(lot));
            }
        }
    }
    return lots;
}

bool isStain(const Sheet& sheet, const cv::Mat& grounds, const cv::Mat& isPaper, float ink,
             const std::vector<cv::Point>& lot) {
    const cv::Rect all({}, grounds.size());
    int sides = 0;
    int crossed = 0;
    for (const cv::Point at : lot) {
        if (!isMostlyGround(sheet, grounds, ink, at)) {
            continue;
        }
        for (const cv::Point way : kWays) {
            const cv::Point next = at + way;
            if (all.contains(next) && isPaper.at<uchar>(next) != 0 &&
                lightOf(grounds.at<cv::Vec3f>(next)) - lightOf(grounds.at<cv::Vec3f>(at)) >
                    kLeastStep &&
                isMostlyGround(sheet, grounds, ink, next)) {
                ++sides;
                crossed += isCrossed(sheet, grounds, next, -way) ? 1 : 0;
            }
        }
    }
    // Cells of one symbol have many sides for their number, a stain has few.
    return sides >= kLeastSides && sides < kMostSides * static_cast<double>(lot.size()) &&
           crossed > kCrossed * sides;
}

} // namespace

cv::Mat stainedCells(const Sheet& sheet, const cv::Mat& grounds, const cv::Mat& isPaper) {
    cv::Mat isStained(grounds.size(), CV_8U, cv::Scalar(0));
    const float ink = inkOf(sheet);
    const auto papers = static_cast<std::size_t>(cv::countNonZero(isPaper));
    for (const std::vector<cv::Point>& lot : lotsOf(grounds, isPaper)) {
        // Beside more stain than paper it is not known which is which.
        if (lot.size() < papers && isStain(sheet, grounds, isPaper, ink, lot)) {
            for (const cv::Point at : lot) {
                isStained.at<uchar>(at) = 1;
            }
        }
    }
    return isStained;
}

void whitenStains(Sheet& sheet, const cv::Mat& grounds, const cv::Mat& isStained) {
    const auto whole = 2 * static_cast<int>(kStroke * static_cast<float>(sheet.cell) / 2) + 1;
    cv::Mat field;
    cv::medianBlur(sheet.straight, field, 3);
    cv::morphologyEx(field, field, cv::MORPH_CLOSE,
                     cv::getStructuringElement(cv::MORPH_ELLIPSE, {whole, whole}));
    cv::GaussianBlur(field, field, {}, 0.06 * sheet.cell);
    cv::Mat isNear;
    cv::dilate(isStained, isNear, cv::Mat::ones(3, 3, CV_8U));
    const cv::Rect all({}, grounds.size());
    for (int row = 0; row < grounds.rows; ++row) {
        for (int column = 0; column < grounds.cols; ++column) {
            if (isNear.at<uchar>(row, column) == 0) {
                continue;
            }
            cv::Vec3f least = cv::Vec3f::all(255);
            for (int dy = -1; dy <= 1; ++dy) {
                for (int dx = -1; dx <= 1; ++dx) {
                    const cv::Point at(column + dx, row + dy);
                    if (!all.contains(at) || isStained.at<uchar>(at) == 0) {
                        continue;
                    }
                    for (int c = 0; c < 3; ++c) {
                        least[c] = std::min(least[c], kRoom * grounds.at<cv::Vec3f>(at)[c]);
                    }
                }
            }
            const cv::Rect box = sheet.box(column, row);
            for (int y = box.y; y < box.y + box.height; ++y) {
                for (int x = box.x; x < box.x + box.width; ++x) {
                    cv::Vec3b& pixel = sheet.straight.at<cv::Vec3b>(y, x);
                    const cv::Vec3b& paper = field.at<cv::Vec3b>(y, x);
                    for (int c = 0; c < 3; ++c) {
                        pixel[c] = cv::saturate_cast<uchar>(
                            static_cast<float>(pixel[c]) * 255 /
                            std::max(1.0F, std::max(least[c], static_cast<float>(paper[c]))));
                    }
                }
            }
        }
    }
}

} // namespace otherskein::trace::detail
