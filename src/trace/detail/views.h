#pragma once

#include "trace/detail/sheet.h"
#include "trace/tracing.h"

#include <optional>

namespace otherskein::trace::detail {

/// The page's pixels, not copied: the page outlives the view.
[[nodiscard]] cv::Mat viewOf(const QImage& bgr);
/// The lattice whose corners are the outline's.
[[nodiscard]] Lattice latticeOf(const FoundGrid& grid);
[[nodiscard]] FoundGrid foundGrid(const Lattice& lattice);

/// The pieces put straight, all at one size that suits the coarsest.
[[nodiscard]] std::vector<Sheet> sheetsOf(std::span<const Page> pages,
                                          std::span<const Piece> pieces);
struct DrawnSheets {
    std::vector<Sheet> sheets;
    std::vector<Piece> pieces;    ///< whose outlines are exact
    std::vector<QImage> pictures; ///< that the sheets may be parts of
};

/// The same drawn again from their PDFs, larger; none where one cannot be, or is no drawing.
/// `areExact`: of each piece, whether its outline is already.
[[nodiscard]] std::optional<DrawnSheets> drawnSheetsOf(std::span<const Page> pages,
                                                       std::span<const Piece> pieces,
                                                       std::span<const char> areExact = {});

} // namespace otherskein::trace::detail
