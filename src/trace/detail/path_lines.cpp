#include "trace/detail/path_lines.h"

#include "trace/detail/look_lines.h"

#include <algorithm>
#include <map>

namespace otherskein::trace::detail {

namespace {

constexpr double kStroke = 0.95; // cells: a symbol's are shorter

bool isWhite(const std::optional<cv::Vec3b>& colour) {
    constexpr uchar kWhite = 250;
    return colour && std::min({(*colour)[0], (*colour)[1], (*colour)[2]}) >= kWhite;
}

} // namespace

PathLines backstitchAmong(const PagePaths& page, const cv::Matx33d& toCells, int columns,
                          int rows) {
    PathLines result;
    result.lattice = latticeAmong(page, toCells, columns, rows);
    const OnCells onCells(result.lattice.toCells, columns, rows);
    std::vector<std::string> order; // looks as they come first
    std::map<std::string, LinesOfLook> looks;
    for (const PaintedPath& path : page.paths) {
        const auto cells = onCells.of(path);
        const double odd = cells ? 0 : onCells.longLength(path);
        if (cells || odd > 0) {
            const std::string name = path.look + (path.isFilled ? "/area" : "");
            const auto [found, isNew] =
                looks.try_emplace(name, LinesOfLook(columns, rows, path.isFilled));
            if (isNew) {
                order.push_back(name);
            }
            if (cells) {
                found->second.add(*cells);
            }
            found->second.addOdd(odd);
        }
    }
    result.isAll = onCells.cells(page.longestCurve) < kStroke;
    std::vector<std::set<HalfLine>> linesOf;
    std::vector<PathLines::Look> found;
    for (const std::string& name : order) {
        const LinesOfLook& look = looks.at(name);
        if (look.isOfGrid()) {
            for (const CellPath& path : look.paths()) {
                GonePaths& gone = onCells.isFrame(path) ? result.ofFrame : result.ofGrid;
                if (!isWhite(path.path->colour)) {
                    (path.path->isFilled ? gone.strokes : gone.paths).insert(path.path->place);
                }
            }
        }
        if (!look.isBackstitch()) {
            result.isAll = result.isAll && (look.isOfGrid() || !look.hasLong());
            continue;
        }
        for (const CellPath& path : look.paths()) {
            result.places.insert(path.path->place);
        }
        linesOf.push_back(look.allLines());
        found.push_back({look.paths()[0].path->colour, look.paths()[0].width});
    }
    for (std::size_t i = 0; i < linesOf.size(); ++i) {
        bool isRim = false;
        for (std::size_t k = i + 1; k < linesOf.size(); ++k) {
            isRim |= liesUnder(linesOf[i], linesOf[k]);
        }
        if (isRim) {
            continue;
        }
        for (const HalfLine& line : linesOf[i]) {
            result.lines.push_back({line[0], line[1], line[2], line[3],
                                    static_cast<chart::KeyIndex>(result.looks.size())});
        }
        result.looks.push_back(found[i]);
    }
    GonePaths all = result.ofGrid;
    all.add(result.ofFrame);
    std::set<PathPlace> told = result.places;
    told.insert(all.paths.begin(), all.paths.end());
    told.insert(all.strokes.begin(), all.strokes.end());
    if (!onCells.areAllTold(page, told)) {
        result.ofGrid = {};
        result.ofFrame = {};
    }
    for (const FilledArea& area : page.areas) {
        if (onCells.isOverEdge(area.box)) {
            result.ofEdge.paths.insert(area.place);
        }
    }
    if (!result.lines.empty()) {
        for (const PaintedPath& path : page.paths) {
            if (path.lines.empty() && onCells.knotAt(path)) {
                result.places.insert(path.place);
            }
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
