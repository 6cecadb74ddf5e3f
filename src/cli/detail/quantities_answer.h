#pragma once

#include "colourway/fabric_fit.h"
#include "colourway/quantities.h"

#include <QJsonObject>

#include <optional>
#include <vector>

namespace otherskein::cli {

/// All that `quantities` found.
struct QuantitiesAnswer {
    int columns = 0;
    int rows = 0;
    int stitches = 0; ///< of the chart; threads of a blend both count theirs
    colourway::Stitched stitched;
    colourway::Usage usage;
    double marginMm = colourway::kUsualMarginMm;
    std::vector<colourway::Extent> pieces;
    colourway::Quantities quantities;

    [[nodiscard]] colourway::Extent extent() const {
        return colourway::stitchedExtent(columns, rows, stitched.ground);
    }
    [[nodiscard]] colourway::Extent needed() const {
        return colourway::withMargin(extent(), marginMm);
    }
    /// The coarsest count on which the chart fits `piece`, worked over as many threads.
    [[nodiscard]] std::optional<int> fitsFrom(const colourway::Extent& piece) const {
        return colourway::coarsestThatFits(columns, rows, stitched.ground.over, marginMm, piece);
    }
};

[[nodiscard]] QJsonObject quantitiesJson(const QuantitiesAnswer& answer);
[[nodiscard]] QString quantitiesText(const QuantitiesAnswer& answer);

} // namespace otherskein::cli
