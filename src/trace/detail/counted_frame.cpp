#include "trace/detail/counted_frame.h"

#include "trace/detail/number_series.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kFewest = 8; // cells each way

cv::Rect2d scaled(const cv::Rect2d& box, const cv::Point2d& scale) {
    return {box.x * scale.x, box.y * scale.y, box.width * scale.x, box.height * scale.y};
}

cv::Rect2d boxOf(const PaintedPath& path, const cv::Point2d& scale) {
    std::vector<cv::Point2d> ends;
    for (const PathLine& line : path.lines) {
        ends.push_back(line.from);
        ends.push_back(line.to);
    }
    const auto [left, right] = std::ranges::minmax(ends, {}, [](const auto& one) { return one.x; });
    const auto [top, bottom] = std::ranges::minmax(ends, {}, [](const auto& one) { return one.y; });
    return scaled({left.x, top.y, right.x - left.x, bottom.y - top.y}, scale);
}

/// Rectangles of upright and level lines.
std::vector<cv::Rect2d> framesOf(const PagePaths& page, const cv::Point2d& scale) {
    constexpr double kLevel = 0.05; // points
    std::vector<cv::Rect2d> frames;
    for (const PaintedPath& path : page.paths) {
        const bool isStraight = std::ranges::all_of(path.lines, [](const PathLine& line) {
            const cv::Point2d step = line.to - line.from;
            return std::min(std::abs(step.x), std::abs(step.y)) < kLevel;
        });
        if (path.isClosed && path.lines.size() == 4 && isStraight) {
            frames.push_back(boxOf(path, scale));
        }
    }
    return frames;
}

/// Boxes of what may be symbols.
std::vector<cv::Rect2d> marksOf(const PagePaths& page, const cv::Point2d& scale) {
    std::vector<cv::Rect2d> marks;
    for (const FilledArea& area : page.areas) {
        marks.push_back(scaled(area.box, scale));
    }
    for (const PaintedPath& path : page.paths) {
        if (!path.lines.empty()) {
            marks.push_back(boxOf(path, scale));
        }
    }
    return marks;
}

/// Whether many marks lie in the grid, and nearly all of them in one cell each.
bool standInCells(const std::vector<cv::Rect2d>& marks, const Lattice& grid) {
    constexpr double kBeyond = 0.08; // cells
    constexpr double kLargest = 1.5; // cells: more is a frame, a line, a ground
    constexpr int kEnough = 40;
    constexpr double kNearlyAll = 0.95;
    const cv::Point2d corner = grid.corner(0, 0);
    int all = 0;
    int within = 0;
    for (const cv::Rect2d& mark : marks) {
        const cv::Rect2d cells((mark.x - corner.x) / grid.pitch, (mark.y - corner.y) / grid.pitch,
                               mark.width / grid.pitch, mark.height / grid.pitch);
        const cv::Point2d middle = (cells.tl() + cells.br()) / 2;
        const bool isHere = middle.x > 0 && middle.y > 0 && middle.x < grid.columns &&
                            middle.y < grid.rows && cells.width < kLargest &&
                            cells.height < kLargest;
        if (isHere) {
            const cv::Rect2d cell(std::floor(middle.x) - kBeyond, std::floor(middle.y) - kBeyond,
                                  1 + 2 * kBeyond, 1 + 2 * kBeyond);
            ++all;
            within += cell.contains(cells.tl()) && cell.contains(cells.br()) ? 1 : 0;
        }
    }
    return all >= kEnough && within >= kNearlyAll * all;
}

/// Whether much text begins in the grid, and nearly all of it as high in its row: on rows at the
/// grid's step.
bool beginsInRows(const PagePaths& page, const cv::Point2d& scale, const Lattice& grid) {
    constexpr int kParts = 20; // of a cell's height
    constexpr int kEnough = 100;
    constexpr double kNearlyAll = 0.9;
    const cv::Point2d corner = grid.corner(0, 0);
    std::array<int, kParts> counts{};
    int all = 0;
    for (const ShownText& text : page.texts) {
        const double x = (text.origin.x * scale.x - corner.x) / grid.pitch;
        const double y = (text.origin.y * scale.y - corner.y) / grid.pitch;
        if (x > 0 && y > 0 && x < grid.columns && y < grid.rows) {
            ++all;
            ++counts[static_cast<std::size_t>((y - std::floor(y)) * kParts)];
        }
    }
    int most = 0;
    for (std::size_t i = 0; i < kParts; ++i) {
        most = std::max(most, counts[i] + counts[(i + 1) % kParts] + counts[(i + 2) % kParts]);
    }
    return all >= kEnough && most >= kNearlyAll * all;
}

/// A frame as a grid of square cells, where it is as long and as high as whole cells of a series'
/// pitch and begins where the series counts from a cell's side or middle.
std::optional<Lattice> gridIn(const cv::Rect2d& frame, const NumberSeries& series, bool alongX) {
    constexpr double kWhole = 0.1; // cells
    const double from = alongX ? frame.x : frame.y;
    const double length = alongX ? frame.width : frame.height;
    const double other = alongX ? frame.height : frame.width;
    const double begin = 2 * (from - series.at(0)) / series.pitch; // at lines, or at cells' middles
    const double count = std::round(length / series.pitch);
    if (count < kFewest || std::abs(begin - std::round(begin)) > 2 * kWhole ||
        std::abs(length / series.pitch - count) > 3 * kWhole) {
        return std::nullopt; // numbers stand less exactly than lines
    }
    const double pitch = length / count;
    const double across = std::round(other / pitch);
    if (across < kFewest || std::abs(other / pitch - across) > kWhole) {
        return std::nullopt;
    }
    Lattice grid;
    grid.columns = static_cast<int>(alongX ? count : across);
    grid.rows = static_cast<int>(alongX ? across : count);
    grid.pitch = pitch;
    // Pixels' centres are whole numbers.
    grid.toPage = cv::Matx33d(frame.width / grid.columns, 0, frame.x - 0.5, 0,
                              frame.height / grid.rows, frame.y - 0.5, 0, 0, 1);
    return grid;
}

} // namespace

std::optional<Lattice> countedFrame(const PagePaths& page, const cv::Point2d& scale,
                                    const std::vector<Word>& words) {
    constexpr std::size_t kEnough = 3; // numbers
    const std::vector<cv::Rect2d> marks = marksOf(page, scale);
    std::optional<Lattice> best;
    for (const cv::Rect2d& frame : framesOf(page, scale)) {
        for (const bool alongX : {true, false}) {
            for (const NumberSeries& series : numberSeriesOf(words, alongX, kEnough)) {
                const auto grid = gridIn(frame, series, alongX);
                const bool isLarger =
                    grid && (!best || grid->columns * grid->rows > best->columns * best->rows);
                if (isLarger && (standInCells(marks, *grid) || beginsInRows(page, scale, *grid))) {
                    best = grid;
                }
            }
        }
    }
    return best;
}

std::optional<Lattice> countedFrameOn(const Page& page) {
    const auto paths = page.pdf.isEmpty() ? std::nullopt : pathsOf(page.pdf, page.number);
    return paths ? countedFrame(*paths,
                                {page.picture.width() / paths->size.width,
                                 page.picture.height() / paths->size.height},
                                page.words)
                 : std::nullopt;
}

} // namespace otherskein::trace::detail
