#pragma once

#include "colourway/recolour.h"

#include <QJsonObject>
#include <QString>

namespace otherskein::cli {

/// The contract's JSON. `lost` is what converting could not keep.
[[nodiscard]] QJsonObject recolourJson(const colourway::Subject& subject,
                                       const colourway::Colourway& colourway,
                                       const std::vector<colourway::LostSeparation>& lost);

/// The same as a table for a terminal. Motifs that take one thread stand in one row.
[[nodiscard]] QString recolourText(const colourway::Subject& subject,
                                   const colourway::Colourway& colourway,
                                   const std::vector<colourway::LostSeparation>& lost);

/// What a part is called: a key row by symbol and code, a motif by name or number.
[[nodiscard]] QString partName(const colourway::Subject& subject, std::size_t part);

} // namespace otherskein::cli
