#include "trace/detail/key_lines.h"
#include "trace/detail/median.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

QRectF mirrored(const QRectF& box, double width) {
    return {width - box.right(), box.top(), box.width(), box.height()};
}

/// How far values lie from their middle one, on the whole.
double spreadOf(std::vector<double> values) {
    const double middle = medianOf(values);
    for (double& one : values) {
        one = std::abs(one - middle);
    }
    return medianOf(std::move(values));
}

/// Texts of a table end wherever their words do: where their left ends stand in line with the
/// pictures and their right ends do not, the left ones tell where a picture is.
void alignAnchors(std::vector<KeyLine>& lines) {
    std::vector<double> toRight;
    std::vector<double> toLeft;
    for (const KeyLine& line : lines) {
        toRight.push_back(line.marks.front().x - line.anchor.x);
        toLeft.push_back(line.marks.front().x - line.words.front().box.left());
    }
    if (spreadOf(std::move(toLeft)) < spreadOf(std::move(toRight))) {
        for (KeyLine& line : lines) {
            line.anchor.x = line.words.front().box.left();
        }
    }
}

} // namespace

std::vector<KeyLine> keyLinesAfter(std::vector<Word> words, const cv::Mat& bgr,
                                   const cv::Mat& paper) {
    constexpr double kNear = 18; // texts end in line with nothing: some far from their picture
    const double width = bgr.cols;
    cv::Mat turned;
    cv::Mat turnedPaper;
    cv::flip(bgr, turned, 1);
    cv::flip(paper, turnedPaper, 1);
    for (Word& word : words) {
        word.box = mirrored(word.box, width);
    }
    std::vector<KeyLine> lines = keyLines(std::move(words), turned, turnedPaper, kNear);
    for (KeyLine& line : lines) {
        line.anchor.x = width - line.anchor.x;
        for (cv::Rect& mark : line.marks) {
            mark.x = bgr.cols - mark.br().x;
        }
        for (Word& word : line.words) {
            word.box = mirrored(word.box, width);
        }
        std::ranges::reverse(line.words);
    }
    std::erase_if(lines, [](const KeyLine& line) { return line.words.empty(); });
    if (!lines.empty()) {
        alignAnchors(lines);
    }
    return lines;
}

} // namespace otherskein::trace::detail
