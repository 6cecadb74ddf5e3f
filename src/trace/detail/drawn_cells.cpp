#include "trace/detail/drawn_cells.h"

#include "trace/detail/colours_apart.h"
#include "trace/detail/median_colour.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kInset = 0.08;    // of a cell, which grid lines have to themselves at least
constexpr double kMostInset = 0.4; // and at most
constexpr double kFillInset = 0.3; // where a fill goes on from a line
constexpr double kEnds = 0.2;
constexpr int kLineColour = 30; // grey levels by which a line's colour varies
constexpr int kGap = 1;         // px between two lines that are one
constexpr double kOfRows = 0.8; // of the cells along a line, all of which it lies in

constexpr int kExact = 3;        // grey levels that rounding moves a colour by
constexpr double kSoft = 0.15;   // of the contrast beside a place: an edge moved by part of a pixel
constexpr double kMostMean = 20; // grey levels: means of one shape, moved, are nearer
constexpr int kMostStep = 100;   // grey levels beyond the rim: more is a stroke
constexpr int kMostShift = 2;    // px
constexpr double kBlur = 0.8;    // px; an edge moved by part of a pixel then changes smoothly

/// At each depth from a side, the colour of the cells along it, and how many of them have it from
/// end to end, as a line has.
struct Strip {
    std::vector<cv::Vec3b> colours;
    std::vector<double> shares;
};

/// The least and the most along each cell's side: a row for each row of cells.
struct Sides {
    cv::Mat low;
    cv::Mat high;
};

Sides sidesOf(const cv::Mat& straight, int cell) {
    // Other lines cross at both ends.
    const int end = static_cast<int>(std::ceil(kEnds * cell));
    Sides sides;
    for (int y = 0; y < straight.rows; y += cell) {
        const cv::Mat part = straight.rowRange(y + end, y + cell - end);
        cv::Mat low;
        cv::Mat high;
        cv::reduce(part, low, 0, cv::REDUCE_MIN);
        cv::reduce(part, high, 0, cv::REDUCE_MAX);
        sides.low.push_back(low);
        sides.high.push_back(high);
    }
    return sides;
}

Strip stripOf(const Sides& sides, int cell, int column, bool isAfter, int most) {
    Strip result;
    for (int depth = 0; depth < most; ++depth) {
        const int x = isAfter ? column * cell + depth : (column + 1) * cell - 1 - depth;
        std::vector<cv::Vec3b> along;
        along.reserve(static_cast<std::size_t>(sides.low.rows));
        for (int row = 0; row < sides.low.rows; ++row) {
            along.push_back(sides.low.at<cv::Vec3b>(row, x));
        }
        const cv::Vec3b colour = medianColourOf(along);
        int like = 0;
        for (int row = 0; row < sides.low.rows; ++row) {
            like += apart(sides.low.at<cv::Vec3b>(row, x), colour) <= kLineColour &&
                            apart(sides.high.at<cv::Vec3b>(row, x), colour) <= kLineColour
                        ? 1
                        : 0;
        }
        result.colours.push_back(colour);
        result.shares.push_back(static_cast<double>(like) / sides.low.rows);
    }
    return result;
}

bool isWhite(const cv::Vec3b& colour) {
    return std::min({colour[0], colour[1], colour[2]}) >= 255 - kExact;
}

/// How far from its side each line along y reaches into the cells after it (`isAfter`) or before.
/// A line has one colour in all the cells that it runs along; a bold one also where most lines
/// have another.
std::vector<int> reaches(const Sides& sides, int cell, bool isAfter) {
    const int columns = sides.low.cols / cell;
    const int least = static_cast<int>(std::ceil(kInset * cell));
    const int most = static_cast<int>(kMostInset * cell);
    std::vector<Strip> all;
    for (int column = 0; column < columns; ++column) {
        all.push_back(stripOf(sides, cell, column, isAfter, most));
    }
    std::vector<int> result;
    for (const Strip& one : all) {
        int reach = 0;
        for (int depth = 0; depth < std::min(most, reach + kGap + 1); ++depth) {
            const auto at = static_cast<std::size_t>(depth);
            if (one.shares[at] < kOfRows || isWhite(one.colours[at])) {
                break; // a pale line is near white, but paper is no part of it
            }
            const bool goesOn =
                reach == depth && apart(one.colours[at], one.colours[0]) <= kLineColour;
            std::vector<int> steps;
            steps.reserve(all.size());
            for (const Strip& other : all) {
                steps.push_back(apart(one.colours[at], other.colours[at]));
            }
            if (goesOn || medianOf(std::move(steps)) > kLineColour) {
                reach = depth + 1;
            }
        }
        // The last pixel may be half of a line's and half of a cell's. What does not end is a fill.
        result.push_back(reach < most ? std::clamp(reach + 1, least, most)
                                      : static_cast<int>(kFillInset * cell));
    }
    return result;
}

/// Of `inner`, what is inside another cell's that lies `shift` further.
cv::Rect common(const cv::Rect& inner, const cv::Rect& other, const cv::Point& shift) {
    return inner & (other - shift);
}

cv::Vec3d sumIn(const cv::Mat& sums, const cv::Rect& box) {
    const auto at = [&](int x, int y) { return cv::Vec3d(sums.at<cv::Vec3i>(y, x)); };
    return at(box.br().x, box.br().y) - at(box.x, box.br().y) - at(box.br().x, box.y) +
           at(box.x, box.y);
}

/// No shift first, then the nearest ones.
const std::vector<cv::Point>& shifts() {
    static const std::vector<cv::Point> all = [] {
        std::vector<cv::Point> result;
        for (int y = -kMostShift; y <= kMostShift; ++y) {
            for (int x = -kMostShift; x <= kMostShift; ++x) {
                result.emplace_back(x, y);
            }
        }
        std::ranges::stable_sort(result, {}, [](const cv::Point& one) { return one.dot(one); });
        return result;
    }();
    return all;
}

/// Whether what of a cell is left out of `box` looks as at the box's rim: a move must not push a
/// stroke out of sight.
bool goesOnBeyond(const DrawnCell& cell, const cv::Rect& box) {
    for (int y = cell.inner.y; y < cell.inner.br().y; ++y) {
        for (int x = cell.inner.x; x < cell.inner.br().x; ++x) {
            if (box.contains({x, y})) {
                continue;
            }
            const int rimX = std::clamp(x, box.x, box.br().x - 1);
            const int rimY = std::clamp(y, box.y, box.br().y - 1);
            if (apart(cell.picture.at<cv::Vec3b>(y, x), cell.picture.at<cv::Vec3b>(rimY, rimX)) >
                kMostStep) {
                return false;
            }
        }
    }
    return true;
}

} // namespace

cv::Mat sumsOf(const DrawnCell& cell) {
    cv::Mat sums;
    cv::integral(cell.picture, sums, CV_32S);
    return sums;
}

std::vector<DrawnCell> drawnCells(std::span<const Sheet> sheets) {
    std::vector<DrawnCell> cells;
    for (const Sheet& sheet : sheets) {
        std::array<std::vector<int>, 4> reach;
        cv::parallel_for_({0, 2}, [&](const cv::Range& range) {
            for (int way = range.start; way < range.end; ++way) {
                cv::Mat turned; // a square picture that were given to be written to would be turned
                if (way != 0) {
                    cv::transpose(sheet.straight, turned);
                }
                const Sides sides = sidesOf(way == 0 ? sheet.straight : turned, sheet.cell);
                const auto at = static_cast<std::size_t>(2 * way);
                reach[at] = reaches(sides, sheet.cell, true);
                reach[at + 1] = reaches(sides, sheet.cell, false);
            }
        });
        const auto& [left, right, top, bottom] = reach;
        for (int row = 0; row < sheet.rows; ++row) {
            for (int column = 0; column < sheet.columns; ++column) {
                const auto c = static_cast<std::size_t>(column);
                const auto r = static_cast<std::size_t>(row);
                cells.push_back({sheet.straight(sheet.box(column, row)),
                                 {left[c], top[r], sheet.cell - left[c] - right[c],
                                  sheet.cell - top[r] - bottom[r]}});
            }
        }
    }
    return cells;
}

DrawnShape::DrawnShape(const DrawnCell& cell) : m_cell(cell) {
    const cv::Mat beside = cv::Mat::ones(3, 3, CV_8U);
    // Of a copy: what lies beyond the cell in the sheet is another cell's.
    const cv::Mat own = cell.picture.clone();
    cv::erode(own, m_low, beside, {-1, -1}, 1, cv::BORDER_REPLICATE);
    cv::dilate(own, m_high, beside, {-1, -1}, 1, cv::BORDER_REPLICATE);
    cv::Mat contrast;
    cv::subtract(m_high, m_low, contrast);
    contrast.convertTo(m_room, CV_8U, kSoft, kExact);
    m_sums = sumsOf(cell);
    own.convertTo(m_soft, CV_32FC3);
    cv::GaussianBlur(m_soft, m_soft, {}, kBlur, 0, cv::BORDER_REPLICATE);
    cv::Mat low;
    cv::Mat high;
    cv::erode(m_soft, low, beside, {-1, -1}, 1, cv::BORDER_REPLICATE);
    cv::dilate(m_soft, high, beside, {-1, -1}, 1, cv::BORDER_REPLICATE);
    m_contrast = high - low;
}

bool DrawnShape::mayBe(const DrawnCell& cell, const cv::Mat& sums) const {
    const cv::Rect box = m_cell.inner & cell.inner;
    const cv::Vec3d step = sumIn(m_sums, box) - sumIn(sums, box);
    return cv::norm(step, cv::NORM_INF) < kMostMean * box.area();
}

bool DrawnShape::isSame(const DrawnCell& cell) const {
    for (const cv::Point& shift : shifts()) {
        const cv::Rect box = common(m_cell.inner, cell.inner, shift);
        bool isLike = true;
        for (int y = box.y; y < box.br().y && isLike; ++y) {
            const uchar* own = m_cell.picture.ptr(y) + 3 * box.x;
            const uchar* room = m_room.ptr(y) + 3 * box.x;
            const uchar* other = cell.picture.ptr(y + shift.y) + 3 * (box.x + shift.x);
            int beyond = 0;
            for (int i = 0; i < 3 * box.width; ++i) {
                beyond |= room[i] - std::abs(own[i] - other[i]); // negative if one is
            }
            isLike = beyond >= 0;
        }
        if (isLike && goesOnBeyond(m_cell, box) && goesOnBeyond(cell, box + shift)) {
            return true;
        }
    }
    return false;
}

double DrawnShape::unlikeness(const DrawnShape& other) const {
    const auto grown = [](const cv::Rect& box) {
        return cv::Rect(box.x + 1, box.y + 1, box.width - 2, box.height - 2);
    };
    double least = 1e30;
    cv::Point nearest;
    for (const cv::Point& shift : shifts()) {
        const cv::Rect box = grown(common(m_cell.inner, other.m_cell.inner, shift));
        const double off =
            cv::norm(m_soft(box), other.m_soft(box + shift), cv::NORM_L2SQR) / box.area();
        if (off < least) {
            least = off;
            nearest = shift;
        }
    }
    const cv::Rect box = grown(common(m_cell.inner, other.m_cell.inner, nearest));
    const auto dot = [](const cv::Vec3f& one, const cv::Vec3f& two) {
        return static_cast<double>(one.dot(two));
    };
    // The part of a pixel that is left, to first order.
    cv::Matx22d products = cv::Matx22d::eye() * 1e-3;
    cv::Vec2d sides(0, 0);
    for (int y = box.y; y < box.br().y; ++y) {
        for (int x = box.x; x < box.br().x; ++x) {
            const auto at = [&](int dx, int dy) {
                return other.m_soft.at<cv::Vec3f>(y + nearest.y + dy, x + nearest.x + dx);
            };
            const cv::Vec3f alongX = (at(1, 0) - at(-1, 0)) * 0.5F;
            const cv::Vec3f alongY = (at(0, 1) - at(0, -1)) * 0.5F;
            const cv::Vec3f off = m_soft.at<cv::Vec3f>(y, x) - at(0, 0);
            products(0, 0) += dot(alongX, alongX);
            products(0, 1) += dot(alongX, alongY);
            products(1, 1) += dot(alongY, alongY);
            sides[0] += dot(alongX, off);
            sides[1] += dot(alongY, off);
        }
    }
    products(1, 0) = products(0, 1);
    cv::Vec2d step = products.solve(sides, cv::DECOMP_CHOLESKY);
    step[0] = std::clamp(step[0], -0.75, 0.75);
    step[1] = std::clamp(step[1], -0.75, 0.75);
    cv::Mat moved;
    const cv::Matx23d map(1, 0, nearest.x + step[0], 0, 1, nearest.y + step[1]);
    cv::warpAffine(other.m_soft, moved, map, m_soft.size(), cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                   cv::BORDER_REPLICATE);
    double most = 0;
    for (int y = box.y; y < box.br().y; ++y) {
        for (int x = box.x; x < box.br().x; ++x) {
            const cv::Vec3f& own = m_soft.at<cv::Vec3f>(y, x);
            const cv::Vec3f& its = moved.at<cv::Vec3f>(y, x);
            const cv::Vec3f& contrast = m_contrast.at<cv::Vec3f>(y, x);
            const cv::Vec3f& itsContrast =
                other.m_contrast.at<cv::Vec3f>(y + nearest.y, x + nearest.x);
            for (int c = 0; c < 3; ++c) {
                const float beyond = std::abs(own[c] - its[c]) - static_cast<float>(kExact);
                if (beyond > 0) {
                    const float room = std::max({contrast[c], itsContrast[c], 1.0F});
                    most = std::max(most, static_cast<double>(beyond / room));
                }
            }
        }
    }
    return std::min(1.0, most);
}

bool DrawnShape::isPaper() const {
    cv::Mat off;
    cv::absdiff(m_cell.picture(m_cell.inner), cv::Scalar::all(255), off);
    return cv::norm(off, cv::NORM_INF) <= kExact;
}

bool DrawnShape::isPlain() const {
    constexpr double kMost = 4 * kExact; // a cloth's tint may shade a little
    const cv::Mat inner = m_cell.picture(m_cell.inner);
    cv::Mat off;
    cv::absdiff(inner, cv::mean(inner), off);
    return cv::norm(off, cv::NORM_INF) <= kMost;
}

bool DrawnShape::isSquare() const {
    constexpr int kReach = 4; // px from a side
    constexpr int kSides = 3;
    constexpr double kWhite = 250;
    if (!isPlain() || isPaper()) {
        return false;
    }
    const cv::Mat& whole = m_cell.picture;
    const int corner = whole.cols / 4;
    const int length = whole.cols - 2 * corner;
    const auto isWhite = [&](const cv::Rect& strip) {
        double least = 0;
        cv::minMaxLoc(whole(strip).clone().reshape(1), &least);
        return least >= kWhite;
    };
    int sides = 0;
    for (int side = 0; side < 4; ++side) {
        bool isFound = false;
        for (int k = 0; k < kReach; ++k) {
            const int at = side % 2 == 0 ? k : whole.cols - 1 - k;
            isFound |= isWhite(side < 2 ? cv::Rect(corner, at, length, 1)
                                        : cv::Rect(at, corner, 1, length));
        }
        sides += isFound ? 1 : 0;
    }
    return sides >= kSides;
}

cv::Mat DrawnShape::differences(const DrawnCell& cell) const {
    cv::Mat result = cv::Mat::zeros(cell.picture.size(), CV_8U);
    const cv::Rect box = m_cell.inner & cell.inner;
    for (int y = box.y; y < box.br().y; ++y) {
        for (int x = box.x; x < box.br().x; ++x) {
            for (int c = 0; c < 3; ++c) {
                const int its = cell.picture.at<cv::Vec3b>(y, x)[c];
                const int off = std::max(m_low.at<cv::Vec3b>(y, x)[c] - its,
                                         its - m_high.at<cv::Vec3b>(y, x)[c]);
                if (off > m_room.at<cv::Vec3b>(y, x)[c]) {
                    result.at<uchar>(y, x) = 255;
                }
            }
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
