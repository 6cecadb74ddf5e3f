#pragma once

#include "chart/chart.h"
#include "trace/page.h"

#include <optional>

namespace otherskein::trace {

/// A grid that was found on a page.
struct FoundGrid {
    int columns = 0;
    int rows = 0;
    QPolygonF outline; ///< its four corners on the page, px: top left, top right, bottom right …
    /// Of its top left cell in the whole chart, from 1, where numbers along its edges tell it.
    std::optional<int> firstColumn;
    std::optional<int> firstRow;
};

/// The grids on a page, the largest first; none where the page has no chart.
[[nodiscard]] std::vector<FoundGrid> gridsOn(const Page& page);

/// A grid of a page and where its top left cell goes in the whole chart, from 0.
struct Piece {
    std::size_t page = 0; ///< index in the pages
    FoundGrid grid;
    chart::Cell place;
};

/// Where the pieces lie to each other: by the numbers along their edges where they have them, else
/// by matching cells where they overlap, else side by side in the order of pages.
[[nodiscard]] std::vector<Piece> joined(std::span<const Page> pages,
                                        std::span<const std::vector<FoundGrid>> chosen);

/// How sure a cell is: 1 is sure; below kDoubtful it should be looked at.
inline constexpr float kDoubtful = 0.5F;

/// A key's row that a table on the page proposes for a found symbol.
struct KeyProposal {
    QString code;
    QString name;

    bool operator==(const KeyProposal&) const = default;
};

/// What comes of tracing.
struct Tracing {
    /// A row of the key is a found symbol; its `symbol` is our own (A, B, C …), its pixel the
    /// cells' colour or a colour of our choice, `code` and `name` as the page's table proposes.
    /// Backstitch where it is clear. Consistent.
    chart::Chart chart;
    std::vector<float> confidence; ///< of each cell of the grid, row by row, 0 to 1
    /// The grid as printed, put straight: each cell is a square of `cell` px. All pieces in one.
    QImage straight;
    int cell = 0;

    /// Cells below kDoubtful, least sure first.
    [[nodiscard]] std::vector<chart::Cell> doubtful() const;
};

/// Is asked now and then with how much is done (0 to 1); false stops the work.
using Progress = std::function<bool(double)>;

/// Tells the cells of the pieces apart, all together, so that a symbol is one row of the key
/// wherever it stands. None when `progress` stopped it.
/// Errors: InputError when the grid has nothing on it, is larger than a chart may be, or has more
/// symbols than a key may have rows.
[[nodiscard]] std::optional<Tracing>
traced(std::span<const Page> pages, std::span<const Piece> pieces, const Progress& progress = {});

/// All in one: the largest grid of one page. Errors: as readPage and traced; a page without a
/// chart.
[[nodiscard]] Tracing tracedPage(const QString& path, int number);

} // namespace otherskein::trace
