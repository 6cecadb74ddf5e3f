#include "trace/detail/drawn_marks.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kAskew = 0.2; // of a cell, by which a mark may shift while it crosses a line

const std::array<cv::Point, 4> kWays{cv::Point(-1, 0), {1, 0}, {0, -1}, {0, 1}};

/// Marks along the side of what is looked at of a cell that `way` leads to: a row, 255 there.
cv::Mat alongSide(const cv::Mat& marks, const cv::Rect& inner, const cv::Point& way) {
    const cv::Mat line = way.x < 0   ? marks.col(inner.x)
                         : way.x > 0 ? marks.col(inner.br().x - 1)
                         : way.y < 0 ? marks.row(inner.y)
                                     : marks.row(inner.br().y - 1);
    return line.clone().reshape(1, 1);
}

} // namespace

bool areMarksFromBeyond(const Sheet& sheet, int cell, const std::map<int, MarkedCell>& marked) {
    const MarkedCell& own = marked.at(cell);
    // A mark's soft rim may leave specks around it.
    cv::Mat grown;
    cv::dilate(own.marks, grown, cv::Mat::ones(3, 3, CV_8U));
    cv::Mat within = cv::Mat::zeros(grown.size(), CV_8U);
    grown(own.inner).copyTo(within(own.inner));
    cv::Mat labels;
    const int count = cv::connectedComponents(within, labels);
    const auto slack = static_cast<int>(std::lround(kAskew * sheet.cell));
    const cv::Point place(cell % sheet.columns, cell / sheet.columns);
    for (int label = 1; label < count; ++label) {
        const cv::Mat mark = (labels == label) & own.marks;
        int outside = 0;
        int inside = 0;
        for (const cv::Point& way : kWays) {
            cv::Mat along = alongSide(mark, own.inner, way);
            if (cv::countNonZero(along) == 0) {
                continue;
            }
            const cv::Point next = place + way;
            if (!cv::Rect(0, 0, sheet.columns, sheet.rows).contains(next)) {
                ++outside;
                continue;
            }
            ++inside;
            const auto other = marked.find(next.y * sheet.columns + next.x);
            if (other == marked.end()) {
                return false;
            }
            cv::dilate(along, along, cv::Mat::ones(1, 2 * slack + 1, CV_8U));
            const cv::Mat its = alongSide(other->second.marks, other->second.inner, -way);
            if (cv::countNonZero(along & its) == 0) {
                return false;
            }
        }
        // What comes in at one side and goes out at another may be a sign as wide as a cell.
        if ((outside > 0) == (inside > 0)) {
            return false;
        }
    }
    return count > 1;
}

} // namespace otherskein::trace::detail
