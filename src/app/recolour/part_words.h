#pragma once

#include "colourway/recolour.h"

#include <QString>

namespace otherskein::app {

/// "Bell tower", else "Motif 3"; of a key row, its symbol and its charted thread.
[[nodiscard]] QString partName(const colourway::Subject& subject, std::size_t part);

/// "LF-431 Brick"; with both threads of a blend and their strands.
[[nodiscard]] QString threadText(const colourway::Choice& choice);
/// "LF-431", "1 × LF-431 + 1 × LF-440", or the colour as #rrggbb where there is no thread.
[[nodiscard]] QString codeText(const colourway::Choice& choice);

/// Every part in the same threads, which look the same.
[[nodiscard]] bool isSameWork(const colourway::Colourway& one, const colourway::Colourway& other);

} // namespace otherskein::app
