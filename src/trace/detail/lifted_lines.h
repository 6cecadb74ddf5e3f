#pragma once

#include "trace/detail/backstitch.h"
#include "trace/tracing.h"

#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// Pages as if nobody had drawn backstitch on them, and the lines that are gone. Their PDFs, to
/// draw cells again by, are without the grid's own lines too where those told where cells lie.
struct LiftedLines {
    std::vector<Page> pages;
    std::vector<Piece> pieces;
    std::vector<char> isExact; ///< of each piece: its outline is
    std::vector<char> areAll;  ///< of each piece: no lines are left to look for
    /// Of each piece, in half cells from its corner; their key is the index of their colour.
    std::vector<std::vector<chart::Line>> lines;
    std::vector<std::vector<colour::Srgb8>> colours;
};

/// Takes the lines off pages whose PDFs draw them as paths, so that what they hide is seen exactly.
[[nodiscard]] LiftedLines liftedLines(std::span<const Page> pages, std::span<const Piece> pieces);

} // namespace otherskein::trace::detail
