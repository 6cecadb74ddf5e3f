#include "trace/detail/gathered.h"

#include "trace/detail/drawn_hidden.h"
#include "trace/detail/edge_shade.h"
#include "trace/detail/groups.h"
#include "trace/detail/number_cover.h"
#include "trace/detail/pale_print.h"

#include <algorithm>

namespace otherskein::trace::detail {

Gathered gathered(std::span<const Page> pages, std::span<const Piece> pieces,
                  std::span<const char> noLines) {
    Gathered all;
    all.sheets = sheetsOf(pages, pieces);
    all.cell = all.sheets.front().cell;
    for (Sheet& sheet : all.sheets) {
        liftEdgeShade(sheet);
        all.pale.push_back(liftPalePrint(sheet));
        all.first.push_back(all.looks.rows);
        all.lines.push_back(noLines[all.lines.size()] != 0 ? noBackstitch(sheet)
                                                           : backstitchOf(sheet));
        all.plain.push_back(sheet);
        all.plain.back().straight = withoutLines(sheet, all.lines.back());
        all.looks.push_back(looksOf(all.plain.back()));
        all.visible.push_back(visibleOf(sheet, all.lines.back()));
        all.masked.insert(all.masked.end(), all.lines.back().over.begin(),
                          all.lines.back().over.end());
    }
    return all;
}

DrawnGroups toldApart(std::span<const Page> pages, std::optional<DrawnSheets> drawn,
                      const Gathered& all) {
    if (drawn) {
        std::ranges::for_each(drawn->sheets, liftEdgeShade);
        std::vector<cv::Mat> masks;
        std::vector<char> masked = all.masked;
        for (std::size_t p = 0; p < drawn->sheets.size(); ++p) {
            Sheet& sheet = drawn->sheets[p];
            if (hasFlatPale(sheet)) {
                liftPalePrint(sheet, all.pale[p]);
            }
            masks.push_back(drawnMaskOf(sheet, all.lines[p]));
            const auto ofSheet =
                std::span(masked).subspan(static_cast<std::size_t>(all.first[p]),
                                          static_cast<std::size_t>(sheet.columns * sheet.rows));
            coverStrays(sheet, all.lines[p], masks.back(), ofSheet);
            const Piece& piece = drawn->pieces[p];
            coverEdgeNumbers(pages[piece.page].words, piece.grid, sheet.cell, masks.back(),
                             ofSheet);
        }
        if (auto groups = drawnGroupsOf(drawn->sheets, masked, masks)) {
            return std::move(*groups);
        }
    }
    return {
        groupsOf(all.looks, picturesOf(all.plain), all.cell, all.masked, all.visible), {}, {}, {}};
}

void putBack(const LiftedLines& lifted, std::span<const Page> pages, std::span<const Piece> pieces,
             Gathered& all) {
    const std::vector<Sheet> shown = sheetsOf(pages, pieces);
    for (std::size_t p = 0; p < pieces.size(); ++p) {
        all.sheets[p].straight = shown[p].straight;
        Backstitch& lines = all.lines[p];
        for (chart::Line line : lifted.lines[p]) {
            line.key = static_cast<chart::KeyIndex>(lines.colours.size() + line.key);
            lines.lines.push_back(line);
        }
        lines.colours.insert(lines.colours.end(), lifted.colours[p].begin(),
                             lifted.colours[p].end());
    }
}

} // namespace otherskein::trace::detail
