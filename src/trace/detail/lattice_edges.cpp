#include "trace/detail/lattice_edges.h"

#include "trace/detail/lattice_extent.h"
#include "trace/detail/lattice_fit.h"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace otherskein::trace::detail {

namespace {

constexpr int kDeep = 10;         // cells from an end that are settled anew
constexpr int kMostSteps = 6;     // each of a few cells more
constexpr int kMostAside = 2;     // cells that the other ends may differ by
constexpr int kLeastCells = 4;    // of a strip
constexpr double kMostMore = 0.3; // of the cells that are known

enum class End { Left, Top, Right, Bottom };

cv::Rect stripAt(const cv::Rect& cells, End end) {
    cv::Rect strip = cells;
    if (end == End::Left || end == End::Right) {
        strip.width = std::min(kDeep, cells.width);
        strip.x = end == End::Left ? cells.x : cells.br().x - strip.width;
    } else {
        strip.height = std::min(kDeep, cells.height);
        strip.y = end == End::Top ? cells.y : cells.br().y - strip.height;
    }
    return strip;
}

/// How many cells further out `found` reaches than `cells` at that end.
int moreAt(const cv::Rect& cells, const cv::Rect& found, End end) {
    switch (end) {
    case End::Left:
        return cells.x - found.x;
    case End::Top:
        return cells.y - found.y;
    case End::Right:
        return found.br().x - cells.br().x;
    case End::Bottom:
        return found.br().y - cells.br().y;
    }
    return 0;
}

/// Whether both are as long along that end.
bool isAsLong(const cv::Rect& cells, const cv::Rect& found, End end) {
    const bool isLevel = end == End::Top || end == End::Bottom;
    const int before = isLevel ? found.x - cells.x : found.y - cells.y;
    const int after = isLevel ? found.br().x - cells.br().x : found.br().y - cells.br().y;
    return std::max(std::abs(before), std::abs(after)) <= kMostAside;
}

cv::Rect withMore(cv::Rect cells, int more, End end) {
    cells.x -= end == End::Left ? more : 0;
    cells.y -= end == End::Top ? more : 0;
    cells.width += end == End::Left || end == End::Right ? more : 0;
    cells.height += end == End::Top || end == End::Bottom ? more : 0;
    return cells;
}

} // namespace

cv::Rect followedOutward(const cv::Mat& bgr, const LineMaps& maps, const Lattice& lattice,
                         const cv::Rect& cells) {
    cv::Rect all = cells;
    for (const End end : {End::Left, End::Top, End::Right, End::Bottom}) {
        const bool isLevel = end == End::Top || end == End::Bottom;
        const int most = static_cast<int>(kMostMore * (isLevel ? cells.height : cells.width));
        Lattice near = lattice;
        int followed = 0;
        for (int step = 0; step < kMostSteps; ++step) {
            const cv::Rect strip = stripAt(all, end);
            if (std::min(strip.width, strip.height) < kLeastCells) {
                break;
            }
            near = settled(maps, near, strip);
            const auto found = extentOf(bgr, maps, near, strip);
            const int more = found ? moreAt(all, found->cells, end) : 0;
            if (more <= 0 || followed + more > most || !isAsLong(all, found->cells, end)) {
                break;
            }
            followed += more;
            all = withMore(all, more, end);
        }
    }
    return all;
}

} // namespace otherskein::trace::detail
