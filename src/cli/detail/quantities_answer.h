#pragma once

#include "colourway/fabric_fit.h"
#include "colourway/quantities.h"

#include <QJsonObject>

namespace otherskein::cli {

/// All that `quantities` found.
struct QuantitiesAnswer {
    int columns = 0;
    int rows = 0;
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
};

[[nodiscard]] QJsonObject quantitiesJson(const QuantitiesAnswer& answer);
[[nodiscard]] QString quantitiesText(const QuantitiesAnswer& answer);

} // namespace otherskein::cli
