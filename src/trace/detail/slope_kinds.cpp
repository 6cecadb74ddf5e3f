#include "trace/detail/slope_kinds.h"

#include "trace/detail/line_stroke.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace otherskein::trace::detail {

namespace {

constexpr double kOwn = 60;       // BGR that a line differs from the cells' grounds
constexpr double kOneColour = 40; // BGR along a line
constexpr double kClear = 0.6;    // share of a line that has another colour to both sides
constexpr double kStraight = 0.8; // px that its middle may lie off, and a tenth of its width

struct Found {
    LineSeed seed;
    cv::Point from; ///< corners of cells, in half cells
    cv::Point to;
};

/// Steps in cells: long enough that a symbol, which stays in its cell, is none.
std::vector<cv::Point> ways() {
    std::vector<cv::Point> result;
    for (const cv::Point& one : {cv::Point(2, 2), cv::Point(1, 2), cv::Point(2, 1), cv::Point(1, 3),
                                 cv::Point(3, 1), cv::Point(2, 3), cv::Point(3, 2)}) {
        result.push_back(one);
        result.emplace_back(one.x, -one.y);
    }
    return result;
}

class Search {
  public:
    Search(const Sheet& sheet, const std::vector<cv::Vec3f>& grounds, const cv::Vec3f& ink)
        : m_sheet(sheet), m_grounds(grounds), m_ink(ink) {}

    [[nodiscard]] std::optional<Found> lineAt(const cv::Point& corner, const cv::Point& way) const {
        const cv::Point end = corner + way;
        if (end.x > m_sheet.columns || end.y < 0 || end.y > m_sheet.rows) {
            return std::nullopt;
        }
        const std::optional<cv::Vec3f> colour = colourAlong(corner, way);
        if (!colour) {
            return std::nullopt;
        }
        const Stroke stroke(m_sheet, m_grounds, *colour, m_ink);
        const cv::Point from = corner * 2;
        const cv::Point to = end * 2;
        const double width = stroke.widthAlong(from, to);
        StrokeCover cover;
        if (width <= 0 || !stroke.runs(from, to, width, cover) ||
            cover.clear < kClear * cover.samples || cover.off > kStraight + width / 10) {
            return std::nullopt;
        }
        // Strokes of symbols stand beside each other, a cell apart.
        for (const cv::Point& beside :
             {cv::Point(2, 0), cv::Point(-2, 0), cv::Point(0, 2), cv::Point(0, -2)}) {
            if (StrokeCover other; stroke.runs(from + beside, to + beside, width, other)) {
                return std::nullopt;
            }
        }
        return Found{{*colour, static_cast<float>(width)}, from, to};
    }

  private:
    [[nodiscard]] std::optional<cv::Vec3f> colourAlong(const cv::Point& corner,
                                                       const cv::Point& way) const {
        cv::Vec3f sum;
        int count = 0;
        for (const double along : {0.3, 0.62, 0.43, 0.8, 0.2, 0.71}) {
            const double x = (corner.x + way.x * along) * m_sheet.cell;
            const double y = (corner.y + way.y * along) * m_sheet.cell;
            const int px = std::clamp(static_cast<int>(x), 0, m_sheet.straight.cols - 1);
            const int py = std::clamp(static_cast<int>(y), 0, m_sheet.straight.rows - 1);
            const cv::Vec3f own(m_sheet.straight.at<cv::Vec3b>(py, px));
            const cv::Vec3f& ground = m_grounds[static_cast<std::size_t>(
                py / m_sheet.cell * m_sheet.columns + px / m_sheet.cell)];
            if (cv::norm(own - ground) < kOwn ||
                (count > 0 && cv::norm(own - sum * (1 / static_cast<float>(count))) > kOneColour)) {
                return std::nullopt;
            }
            sum += own;
            ++count;
        }
        return sum * (1 / static_cast<float>(count));
    }

    const Sheet& m_sheet;
    const std::vector<cv::Vec3f>& m_grounds;
    cv::Vec3f m_ink;
};

} // namespace

std::vector<LineKind> slopeKinds(const Sheet& sheet, const std::vector<cv::Vec3f>& grounds,
                                 const cv::Vec3f& ink) {
    const Search search(sheet, grounds, ink);
    const std::vector<cv::Point> all = ways();
    std::vector<std::vector<LineSeed>> rows(static_cast<std::size_t>(sheet.rows + 1));
    cv::parallel_for_({0, sheet.rows + 1}, [&](const cv::Range& range) {
        for (int y = range.start; y < range.end; ++y) {
            for (int x = 0; x <= sheet.columns; ++x) {
                for (const cv::Point& way : all) {
                    if (const auto found = search.lineAt({x, y}, way)) {
                        rows[static_cast<std::size_t>(y)].push_back(found->seed);
                    }
                }
            }
        }
    });
    std::vector<LineSeed> seeds;
    for (const auto& row : rows) {
        seeds.insert(seeds.end(), row.begin(), row.end());
    }
    std::vector<LineKind> kinds = kindsOf(std::move(seeds), 2, ink, sheet.cell);
    for (LineKind& kind : kinds) {
        kind.isProven = true;
    }
    return kinds;
}

} // namespace otherskein::trace::detail
