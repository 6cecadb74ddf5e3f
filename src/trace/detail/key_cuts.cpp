#include "trace/detail/key_cuts.h"

#include "trace/detail/median_colour.h"

#include "trace/detail/sheet.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kInk = 24; // grey levels, from which something is ink and not ground

/// What of a mark is darker than its paper: CV_8U, 255 there.
cv::Mat darkOf(const cv::Mat& bgr, const cv::Mat& paper, const cv::Rect& mark) {
    constexpr double kDarker = 4;
    const cv::Vec3f white =
        paper.at<cv::Vec3f>(std::clamp(mark.y / kPaperBlock, 0, paper.rows - 1),
                            std::clamp(mark.x / kPaperBlock, 0, paper.cols - 1));
    cv::Mat dark(mark.size(), CV_8U, cv::Scalar(0));
    for (int y = 0; y < mark.height; ++y) {
        for (int x = 0; x < mark.width; ++x) {
            const auto& one = bgr.at<cv::Vec3b>(mark.y + y, mark.x + x);
            for (int c = 0; c < 3; ++c) {
                if (static_cast<double>(white[c]) - one[c] > kDarker) {
                    dark.at<uchar>(y, x) = 255;
                }
            }
        }
    }
    return dark;
}

constexpr double kRuled = 0.95; // of a side's length, that ink covers

/// Whether a mark is a box: ink all along its four sides.
bool isBox(const cv::Mat& bgr, const cv::Mat& paper, const cv::Rect& mark) {
    if (mark.width < 8 || mark.height < 8) {
        return false;
    }
    const cv::Mat dark = darkOf(bgr, paper, mark);
    const int deep = std::max(1, std::min(mark.width, mark.height) / 12);
    const auto covered = [&](const cv::Rect& side) {
        cv::Mat hits;
        cv::reduce(dark(side), hits, side.width > side.height ? 0 : 1, cv::REDUCE_MAX);
        return cv::countNonZero(hits) >= kRuled * static_cast<double>(hits.total());
    };
    return covered({0, 0, mark.width, deep}) &&
           covered({0, mark.height - deep, mark.width, deep}) &&
           covered({0, 0, deep, mark.height}) && covered({mark.width - deep, 0, deep, mark.height});
}

/// How far the rules of a table that surround it reach into a mark from both its sides.
struct Rules {
    int before = 0;
    int behind = 0;
};

Rules rulesOf(const cv::Mat& dark, bool isAcross) {
    constexpr int kOfSize = 6; // a rule lies within a sixth
    cv::Mat shares;
    cv::reduce(dark, shares, isAcross ? 0 : 1, cv::REDUCE_AVG, CV_64F);
    const std::vector<double> along(shares.begin<double>(), shares.end<double>());
    const auto size = static_cast<int>(along.size());
    Rules rules;
    for (int i = 0; i < size / kOfSize; ++i) {
        if (along[static_cast<std::size_t>(i)] > kRuled * 255) {
            rules.before = i + 1;
        }
        if (along[static_cast<std::size_t>(size - 1 - i)] > kRuled * 255) {
            rules.behind = i + 1;
        }
    }
    return rules;
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

std::vector<cv::Rect> withinRules(const std::vector<cv::Rect>& marks, const cv::Mat& bgr,
                                  const cv::Mat& paper) {
    constexpr int kLeastSide = 12; // px
    std::vector<cv::Rect> within;
    std::size_t ruled = 0;
    for (const cv::Rect& mark : marks) {
        within.push_back(mark);
        if (std::min(mark.width, mark.height) < kLeastSide) {
            continue;
        }
        const cv::Mat dark = darkOf(bgr, paper, mark);
        const Rules sides = rulesOf(dark, true);
        const int inner = mark.width - sides.before - sides.behind;
        const Rules ends = rulesOf(dark.colRange(sides.before, sides.before + inner), false);
        ruled += sides.before > 0 && sides.behind > 0 && ends.before + ends.behind > 0 ? 1 : 0;
        within.back() = {mark.x + sides.before, mark.y + ends.before, inner,
                         mark.height - ends.before - ends.behind};
    }
    return ruled * 3 > marks.size() * 2 ? within : marks;
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

namespace {

/// The colour just inside a frame. A frame's rims may reach further in on one side than another:
/// `part`, CV_32FC3, and `place`, its box on the page, shrink until most of what is around has one
/// colour.
cv::Vec3f withinFrame(cv::Mat& part, cv::Rect& place) {
    constexpr int kMostRims = 3;       // px
    constexpr double kOneColour = 0.6; // of the ring
    constexpr int kLeastSide = 8;
    cv::Vec3f first;
    for (int rim = 0; rim < kMostRims && std::min(part.cols, part.rows) >= kLeastSide; ++rim) {
        std::vector<cv::Vec3f> ring;
        for (int x = 0; x < part.cols; ++x) {
            ring.push_back(part.at<cv::Vec3f>(0, x));
            ring.push_back(part.at<cv::Vec3f>(part.rows - 1, x));
        }
        for (int y = 0; y < part.rows; ++y) {
            ring.push_back(part.at<cv::Vec3f>(y, 0));
            ring.push_back(part.at<cv::Vec3f>(y, part.cols - 1));
        }
        const cv::Vec3f middle = medianColourOf(ring);
        first = rim == 0 ? middle : first;
        const auto like = std::ranges::count_if(
            ring, [&](const cv::Vec3f& one) { return cv::norm(one, middle, cv::NORM_INF) < kInk; });
        if (static_cast<double>(like) > kOneColour * static_cast<double>(ring.size())) {
            return middle;
        }
        const cv::Rect within(1, 1, part.cols - 2, part.rows - 2);
        part = part(within);
        place = within + place.tl();
    }
    return first;
}

} // namespace

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
    cv::Rect inner =
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
    if (isFramed) {
        ground = withinFrame(part, inner);
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
