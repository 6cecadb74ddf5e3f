#pragma once

#include "trace/detail/backstitch.h"
#include "trace/detail/drawn_groups.h"
#include "trace/detail/lifted_lines.h"
#include "trace/detail/views.h"

#include <optional>
#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// The pieces put straight at one size, and all their looks, one piece after the other.
struct Gathered {
    std::vector<Sheet> sheets;
    std::vector<Sheet> plain;                   ///< the same as if there were no backstitch
    std::vector<std::optional<cv::Vec3b>> pale; ///< colour of what was printed under a piece
    std::vector<Backstitch> lines;
    std::vector<int> first; ///< row of a piece's first look
    cv::Mat looks;
    cv::Mat visible;
    std::vector<char> masked;
    int cell = 0;
};

/// `noLines`: of each piece, whether no backstitch is on it.
[[nodiscard]] Gathered gathered(std::span<const Page> pages, std::span<const Piece> pieces,
                                std::span<const char> noLines);

/// The cells' groups: from exact drawings where the pages are such, else from what was read.
[[nodiscard]] DrawnGroups toldApart(std::span<const Page> pages, std::optional<DrawnSheets> drawn,
                                    const Gathered& all);

/// What is shown of the pieces, and their lines, as if no line had been lifted.
void putBack(const LiftedLines& lifted, std::span<const Page> pages, std::span<const Piece> pieces,
             Gathered& all);

} // namespace otherskein::trace::detail
