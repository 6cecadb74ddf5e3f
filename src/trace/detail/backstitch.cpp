#include "trace/detail/backstitch.h"

#include "trace/detail/cell_grounds.h"
#include "trace/detail/edge_pieces.h"
#include "trace/detail/edge_rims.h"
#include "trace/detail/groups.h"
#include "trace/detail/line_slopes.h"
#include "trace/detail/median.h"
#include "trace/detail/slope_kinds.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace otherskein::trace::detail {

namespace {

constexpr double kRim = 1.5;     // px around a line that it discolours
constexpr double kHidden = 0.12; // share of a look's place under a line, from which it says nothing
constexpr double kTouched = 0.02; // share of a cell under lines, from which one lies over it
constexpr double kSameKind = 60;  // BGR
constexpr std::size_t kFewLike = 2;
constexpr std::size_t kManyLike = 12;
constexpr double kDiffers = 60;         // BGR
constexpr double kMostDiffering = 0.15; // share of a cell, beyond which it is like no other

/// Pieces that go on straight become one line.
void addRuns(std::set<EdgePiece> pieces, std::vector<chart::Line>& lines) {
    while (!pieces.empty()) {
        const EdgePiece first = *pieces.begin();
        EdgePiece next = first;
        int length = 0;
        while (pieces.erase(next) > 0) {
            ++length;
            ++next.place;
        }
        const int at = 2 * first.line;
        const int from = 2 * first.place;
        const int to = from + 2 * length;
        const auto key = static_cast<chart::KeyIndex>(first.kind);
        lines.push_back(first.isUpright ? chart::Line{at, from, at, to, key}
                                        : chart::Line{from, at, to, at, key});
    }
}

/// Those of the kinds that have pieces.
std::vector<LineKind> kindsFound(const std::vector<LineKind>& kinds,
                                 const std::set<EdgePiece>& pieces) {
    std::set<int> numbers;
    for (const EdgePiece& piece : pieces) {
        numbers.insert(piece.kind);
    }
    std::vector<LineKind> result;
    for (const int number : numbers) {
        result.push_back(kinds[static_cast<std::size_t>(number)]);
    }
    return result;
}

/// Kinds that have lines get the first numbers; the others go.
void keepUsed(std::vector<LineKind>& kinds, std::set<EdgePiece>& pieces) {
    std::vector<LineKind> used;
    std::vector<int> numberOf(kinds.size(), -1);
    for (std::size_t n = 0; n < kinds.size(); ++n) {
        if (kinds[n].isProven) {
            numberOf[n] = static_cast<int>(used.size());
            used.push_back(kinds[n]);
        }
    }
    std::set<EdgePiece> renumbered;
    for (EdgePiece piece : pieces) {
        int& number = numberOf[static_cast<std::size_t>(piece.kind)];
        if (number < 0) {
            number = static_cast<int>(used.size());
            used.push_back(kinds[static_cast<std::size_t>(piece.kind)]);
        }
        piece.kind = number;
        renumbered.insert(piece);
    }
    kinds.swap(used);
    pieces.swap(renumbered);
}

void drawMask(const Sheet& sheet, const std::vector<LineKind>& kinds, Backstitch& result) {
    result.mask = cv::Mat::zeros(sheet.straight.size(), CV_8U);
    constexpr int kShift = 4; // cv::line counts in sixteenths
    const double scale = (1 << kShift) * static_cast<double>(sheet.cell) / 2;
    for (const chart::Line& line : result.lines) {
        const auto width = static_cast<double>(kinds[line.key].width);
        const auto place = [&](int x, int y) {
            // Pixels' middles are whole numbers there.
            return cv::Point(static_cast<int>(std::lround(x * scale)) - (1 << (kShift - 1)),
                             static_cast<int>(std::lround(y * scale)) - (1 << (kShift - 1)));
        };
        cv::line(result.mask, place(line.x1, line.y1), place(line.x2, line.y2), cv::Scalar(255),
                 static_cast<int>(std::lround(width + 2 * kRim)), cv::LINE_8, kShift);
    }
    result.over.assign(static_cast<std::size_t>(sheet.columns * sheet.rows), 0);
    const double touched = kTouched * sheet.cell * sheet.cell;
    for (int i = 0; i < sheet.columns * sheet.rows && !result.lines.empty(); ++i) {
        const cv::Rect box = sheet.box(i % sheet.columns, i / sheet.columns);
        result.over[static_cast<std::size_t>(i)] =
            cv::countNonZero(result.mask(box)) > touched ? 1 : 0;
    }
}

/// The median of some of the cells, taken from all over the sheet: a few of them lie at its border
/// or at bold lines.
cv::Mat usualOf(const Sheet& sheet, const std::vector<int>& cells) {
    const std::size_t step = (cells.size() + kManyLike - 1) / kManyLike;
    std::vector<cv::Mat> some;
    for (std::size_t k = 0; k < cells.size(); k += step) {
        some.push_back(
            sheet.straight(sheet.box(cells[k] % sheet.columns, cells[k] / sheet.columns)));
    }
    cv::Mat result(sheet.cell, sheet.cell, CV_32FC3);
    std::vector<uchar> values(some.size());
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    for (int y = 0; y < sheet.cell; ++y) {
        for (int x = 0; x < sheet.cell; ++x) {
            for (int c = 0; c < 3; ++c) {
                std::ranges::transform(some, values.begin(), [&](const cv::Mat& one) {
                    return one.at<cv::Vec3b>(y, x)[c];
                });
                std::ranges::nth_element(values, middle);
                result.at<cv::Vec3f>(y, x)[c] = static_cast<float>(*middle);
            }
        }
    }
    return result;
}

/// Share of what is seen that has another colour.
double differingShare(const cv::Mat& one, const cv::Mat& other, const cv::Mat& seen) {
    int all = 0;
    int differing = 0;
    for (int y = 0; y < one.rows; ++y) {
        for (int x = 0; x < one.cols; ++x) {
            if (seen.at<uchar>(y, x) != 0) {
                ++all;
                differing +=
                    cv::norm(one.at<cv::Vec3f>(y, x) - other.at<cv::Vec3f>(y, x)) > kDiffers ? 1
                                                                                             : 0;
            }
        }
    }
    return all > 0 ? static_cast<double>(differing) / all : 0;
}

/// The median of what is seen, by channel: a cell's ground, where it is no symbol's own.
cv::Scalar usualColour(const cv::Mat& cell, const cv::Mat& seen) {
    cv::Scalar result;
    for (int c = 0; c < 3; ++c) {
        std::vector<float> values;
        for (int y = 0; y < cell.rows; ++y) {
            for (int x = 0; x < cell.cols; ++x) {
                if (seen.at<uchar>(y, x) != 0) {
                    values.push_back(cell.at<cv::Vec3f>(y, x)[c]);
                }
            }
        }
        result[c] = values.empty() ? 255.0 : static_cast<double>(medianOf(values));
    }
    return result;
}

} // namespace

Backstitch backstitchOf(const Sheet& sheet) {
    const std::vector<cv::Vec3f> grounds = groundsOf(sheet);
    EdgeLines upright = uprightEdges(sheet, grounds);
    EdgeLines level = levelEdges(sheet, grounds);
    const LikeCells like = likeCellsOf(sheet);
    takeRims(like, sheet.columns, upright, level);
    const cv::Vec3f ink = inkOf(sheet);
    std::vector<LineKind> kinds = lineKinds(sheet, upright, level, grounds, ink);
    const std::vector<LineKind> found = kindsFound(kinds, edgePieces(sheet, upright, level, kinds));
    const std::vector<int> overUpright = linesOfKinds(upright, level, found);
    const std::vector<int> overLevel = linesOfKinds(level, upright, found);
    if (!overUpright.empty() || !overLevel.empty()) {
        upright = uprightEdges(sheet, grounds, overUpright);
        level = levelEdges(sheet, grounds, overLevel);
        takeRims(like, sheet.columns, upright, level);
        kinds = lineKinds(sheet, upright, level, grounds, ink);
    }
    for (const LineKind& sloped : slopeKinds(sheet, grounds, ink)) {
        const auto same = std::ranges::find_if(kinds, [&](const LineKind& one) {
            return cv::norm(one.colour - sloped.colour) < kSameKind;
        });
        if (same == kinds.end()) {
            kinds.push_back(sloped);
        } else {
            same->isProven = true;
        }
    }
    std::set<EdgePiece> pieces = edgePieces(sheet, upright, level, kinds);
    keepUsed(kinds, pieces);
    Backstitch result;
    for (const LineKind& kind : kinds) {
        const auto byte = [](float value) {
            return static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L));
        };
        result.colours.push_back(
            {byte(kind.colour[2]), byte(kind.colour[1]), byte(kind.colour[0])});
    }
    addRuns(pieces, result.lines);
    for (const SlopedLine& one : slopedLines(sheet, kinds, grounds, like, ink)) {
        result.lines.push_back(
            {one.x1, one.y1, one.x2, one.y2, static_cast<chart::KeyIndex>(one.kind)});
    }
    drawMask(sheet, kinds, result);
    return result;
}

Backstitch noBackstitch(const Sheet& sheet) {
    Backstitch result;
    drawMask(sheet, {}, result);
    return result;
}

cv::Mat visibleOf(const Sheet& sheet, const Backstitch& backstitch) {
    cv::Mat visible(sheet.columns * sheet.rows, kLookSize, CV_32F, cv::Scalar(1));
    const auto inset = static_cast<int>(std::ceil(kLookInset * sheet.cell));
    cv::Mat share;
    for (int i = 0; i < visible.rows; ++i) {
        if (backstitch.over[static_cast<std::size_t>(i)] == 0) {
            continue;
        }
        const cv::Rect box = sheet.box(i % sheet.columns, i / sheet.columns);
        const cv::Mat inner = backstitch.mask(
            {box.x + inset, box.y + inset, box.width - 2 * inset, box.height - 2 * inset});
        float* out = visible.ptr<float>(i);
        const auto fill = [&](int side, int values) {
            cv::resize(inner, share, {side, side}, 0, 0, cv::INTER_AREA);
            for (int y = 0; y < side; ++y) {
                for (int x = 0; x < side; ++x) {
                    for (int v = 0; v < values; ++v) {
                        *out++ = share.at<uchar>(y, x) > 255 * kHidden ? 0.0F : 1.0F;
                    }
                }
            }
        };
        fill(kLookSide, 1);
        fill(kLookTints, 2);
    }
    return visible;
}

cv::Mat withoutLines(const Sheet& sheet, const Backstitch& backstitch) {
    cv::Mat result = sheet.straight.clone();
    if (backstitch.lines.empty()) {
        return result;
    }
    const LikeCells like = likeCellsOf(sheet);
    std::vector<cv::Mat> usual; // of each kind of cells, CV_32FC3
    for (const std::vector<int>& cells : like.members) {
        std::vector<int> bared;
        std::ranges::copy_if(cells, std::back_inserter(bared), [&](int i) {
            return backstitch.over[static_cast<std::size_t>(i)] == 0;
        });
        if (bared.size() >= kFewLike) {
            usual.push_back(usualOf(sheet, bared));
        }
    }
    if (usual.empty()) {
        return result;
    }
    // Grid lines lie at a cell's rim, where they are bold or not whatever the cell is.
    const int rim = std::max(1, sheet.cell / 12);
    const cv::Rect inside(rim, rim, sheet.cell - 2 * rim, sheet.cell - 2 * rim);
    cv::parallel_for_({0, sheet.columns * sheet.rows}, [&](const cv::Range& range) {
        cv::Mat own;
        cv::Mat seen;
        for (int i = range.start; i < range.end; ++i) {
            if (backstitch.over[static_cast<std::size_t>(i)] == 0) {
                continue;
            }
            const cv::Rect box = sheet.box(i % sheet.columns, i / sheet.columns);
            sheet.straight(box).convertTo(own, CV_32FC3);
            cv::bitwise_not(backstitch.mask(box), seen);
            const cv::Mat* best = nullptr;
            double least = 0;
            for (const cv::Mat& one : usual) {
                const double off = cv::norm(own(inside), one(inside), cv::NORM_L2SQR, seen(inside));
                if (best == nullptr || off < least) {
                    least = off;
                    best = &one;
                }
            }
            if (differingShare(own(inside), (*best)(inside), seen(inside)) < kMostDiffering) {
                best->copyTo(own, backstitch.mask(box));
            } else {
                own.setTo(usualColour(own(inside), seen(inside)), backstitch.mask(box));
            }
            cv::Mat out = result(box);
            own.convertTo(out, CV_8UC3);
        }
    });
    return result;
}

} // namespace otherskein::trace::detail
