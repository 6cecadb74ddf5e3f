#pragma once

#include "chart/grid.h"

#include <optional>
#include <vector>

namespace otherskein::app {

enum class ChartLook { Stitches, Symbols };
/// What the left button does to a cell.
enum class MendMode { Look, Stitch, Unpick, Fill, Pick };
inline constexpr int kMendModes = 5;
enum class ChartsPage { Key, Motifs };
/// How a traced chart is compared with the page that it came from.
enum class PageView {
    Off,     ///< not at all: the chart alone
    Cells,   ///< page and cells side by side, cell by cell
    Symbols, ///< all that was taken for one row of the key, as small pictures
    All      ///< a picture of each row of the key
};

/// Everything that the place Charts shows follows from this, from the chart in use (Session) and
/// from the workbox.
struct ChartsState {
    ChartLook look = ChartLook::Stitches;
    bool grid = true;
    bool outlines = false; ///< of motifs, also while the key is shown
    MendMode mode = MendMode::Look;
    std::optional<chart::KeyIndex> row; ///< of the key: the one shown, and stitched with
    ChartsPage page = ChartsPage::Key;
    std::vector<chart::Cell> motifs; ///< the chosen ones, each by a cell of it
    bool cutting = false;            ///< the next line drawn cuts a motif

    PageView pageView = PageView::Off;    ///< Off where the chart was not traced
    std::optional<chart::Cell> current{}; ///< of a traced chart: the one looked at
    bool bare = false; ///< symbol by symbol, bare ground is shown; no row is chosen then

    bool operator==(const ChartsState&) const = default;
};

} // namespace otherskein::app
