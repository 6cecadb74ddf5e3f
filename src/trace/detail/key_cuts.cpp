#include "trace/detail/key_cuts.h"

#include "trace/detail/median.h"

#include "trace/detail/sheet.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kInk = 24; // grey levels, from which something is ink and not ground

/// Whether a mark is a box: ink all along its four sides.
bool isBox(const cv::Mat& bgr, const cv::Mat& paper, const cv::Rect& mark) {
    const cv::Vec3f white =
        paper.at<cv::Vec3f>(std::clamp(mark.y / kPaperBlock, 0, paper.rows - 1),
                            std::clamp(mark.x / kPaperBlock, 0, paper.cols - 1));
    const auto covered = [&](const cv::Rect& side) {
        const bool across = side.width > side.height;
        const int length = across ? side.width : side.height;
        int hits = 0;
        for (int i = 0; i < length; ++i) {
            const cv::Rect slice = across ? cv::Rect(side.x + i, side.y, 1, side.height)
                                          : cv::Rect(side.x, side.y + i, side.width, 1);
            double most = 0;
            for (int y = slice.y; y < slice.br().y; ++y) {
                for (int x = slice.x; x < slice.br().x; ++x) {
                    for (int c = 0; c < 3; ++c) {
                        most = std::max(most,
                                        static_cast<double>(white[c]) - bgr.at<cv::Vec3b>(y, x)[c]);
                    }
                }
            }
            hits += most > 4 ? 1 : 0;
        }
        return hits >= 0.95 * length;
    };
    const int deep = std::max(1, std::min(mark.width, mark.height) / 12);
    return mark.width >= 8 && mark.height >= 8 && covered({mark.x, mark.y, mark.width, deep}) &&
           covered({mark.x, mark.br().y - deep, mark.width, deep}) &&
           covered({mark.x, mark.y, deep, mark.height}) &&
           covered({mark.br().x - deep, mark.y, deep, mark.height});
}

bool isAbout(double one, double other) {
    return std::abs(one - other) < 3 + 0.06 * other;
}

} // namespace

std::optional<Spread> spreadOf(const cv::Mat& weights) {
    const cv::Moments all = cv::moments(weights);
    if (all.m00 < kInk * 4) {
        return std::nullopt;
    }
    Spread spread{{all.m10 / all.m00, all.m01 / all.m00},
                  std::sqrt(all.mu20 / all.m00 + 1.0 / 12),
                  std::sqrt(all.mu02 / all.m00 + 1.0 / 12)};
    return spread;
}

cv::Mat inkOf(const cv::Mat& light, double ground) {
    cv::Mat ink = cv::abs(light - ground);
    ink.setTo(0, ink < kInk);
    return ink;
}

std::optional<cv::Rect2d> commonBox(const std::vector<KeyLine>& lines,
                                    const std::vector<cv::Rect>& marks, const cv::Mat& bgr,
                                    const cv::Mat& paper) {
    std::vector<double> xs;
    std::vector<double> ys;
    std::vector<double> widths;
    std::vector<double> heights;
    for (std::size_t l = 0; l < lines.size(); ++l) {
        if (isBox(bgr, paper, marks[l])) {
            xs.push_back(marks[l].x - lines[l].anchor.x);
            ys.push_back(marks[l].y - lines[l].anchor.y);
            widths.push_back(marks[l].width);
            heights.push_back(marks[l].height);
        }
    }
    if (xs.empty()) {
        return std::nullopt;
    }
    const cv::Rect2d box(medianOf(xs), medianOf(ys), medianOf(widths), medianOf(heights));
    std::size_t alike = 0;
    for (std::size_t i = 0; i < xs.size(); ++i) {
        alike += isAbout(widths[i], box.width) && isAbout(heights[i], box.height) ? 1 : 0;
    }
    std::size_t there = 0;
    for (std::size_t l = 0; l < lines.size(); ++l) {
        const cv::Point2d middle(marks[l].x + marks[l].width / 2.0,
                                 marks[l].y + marks[l].height / 2.0);
        there += box.contains(middle - lines[l].anchor) ? 1 : 0;
    }
    if (alike * 2 < there) {
        return std::nullopt;
    }
    return box;
}

Cut cutOf(const KeyLine& line, const cv::Rect& mark, const std::optional<cv::Rect2d>& common,
          const cv::Mat& bgr, const cv::Mat& paper) {
    cv::Rect shown = mark;
    bool isFramed = false;
    if (common) {
        // Of the line's own box, if it has one like the others', since text may stand a bit off.
        isFramed = isAbout(mark.width, common->width) && isAbout(mark.height, common->height);
        if (!isFramed) {
            shown = cv::Rect(static_cast<int>(std::lround(line.anchor.x + common->x)),
                             static_cast<int>(std::lround(line.anchor.y + common->y)),
                             static_cast<int>(common->width), static_cast<int>(common->height));
            isFramed = true;
        }
    }
    const int around = std::max(shown.width, shown.height);
    const cv::Rect area(shown.x - around, shown.y - around, shown.width + 2 * around,
                        shown.height + 2 * around);
    const cv::Rect page({}, bgr.size());
    Cut cut;
    const int deep = isFramed ? std::max(2, std::min(shown.width, shown.height) / 12) : 0;
    const cv::Rect inner =
        cv::Rect(shown.x + deep, shown.y + deep, shown.width - 2 * deep, shown.height - 2 * deep) &
        page;
    if (inner.width < 4 || inner.height < 4) {
        return cut;
    }
    cv::Mat part;
    bgr(inner).convertTo(part, CV_32FC3);
    const cv::Vec3f white =
        paper.at<cv::Vec3f>(std::clamp(inner.y / kPaperBlock, 0, paper.rows - 1),
                            std::clamp(inner.x / kPaperBlock, 0, paper.cols - 1));
    cv::multiply(part, cv::Scalar(255 / white[0], 255 / white[1], 255 / white[2]), part);
    cv::Vec3f ground(255, 255, 255);
    if (isFramed) { // the colour just inside the frame
        for (int c = 0; c < 3; ++c) {
            std::vector<double> ring;
            for (int x = 0; x < part.cols; ++x) {
                ring.push_back(part.at<cv::Vec3f>(0, x)[c]);
                ring.push_back(part.at<cv::Vec3f>(part.rows - 1, x)[c]);
            }
            for (int y = 0; y < part.rows; ++y) {
                ring.push_back(part.at<cv::Vec3f>(y, 0)[c]);
                ring.push_back(part.at<cv::Vec3f>(y, part.cols - 1)[c]);
            }
            ground[c] = static_cast<float>(medianOf(ring));
        }
    }
    cut.bgr = cv::Mat(area.size(), CV_32FC3, cv::Scalar(ground[0], ground[1], ground[2]));
    part.copyTo(cut.bgr(inner - area.tl()));
    cut.toLocal = cv::Point2d(area.tl()) - line.anchor;
    cv::Mat grey;
    cv::cvtColor(cut.bgr, grey, cv::COLOR_BGR2GRAY);
    const cv::Vec3d even(ground);
    cut.ink = spreadOf(inkOf(grey, 0.114 * even[0] + 0.587 * even[1] + 0.299 * even[2]));
    if (cut.ink) {
        cut.ink->centre += cut.toLocal + cv::Point2d(0.5, 0.5);
    }
    return cut;
}

} // namespace otherskein::trace::detail
