#pragma once

#include "trace/detail/backstitch.h"
#include "trace/tracing.h"

#include <optional>
#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// Pages as if nobody had drawn backstitch on them, and the lines that are gone.
struct LiftedLines {
    std::vector<Page> pages;
    /// Of each piece, in half cells from its corner; their key is the index of their colour.
    std::vector<std::vector<chart::Line>> lines;
    std::vector<std::vector<colour::Srgb8>> colours;
};

/// Takes the lines off pages whose PDFs draw them as paths, so that what they hide is seen exactly.
/// None where no page has any.
[[nodiscard]] std::optional<LiftedLines> liftedLines(std::span<const Page> pages,
                                                     std::span<const Piece> pieces);

} // namespace otherskein::trace::detail
