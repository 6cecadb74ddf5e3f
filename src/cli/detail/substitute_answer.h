#pragma once

#include "colourway/substitute.h"

#include <QJsonObject>
#include <QString>

#include <vector>

namespace otherskein::cli {

/// `wanted` with its card's name, and what was found for it, as the contract's JSON.
[[nodiscard]] QJsonObject substituteJson(const colourway::Wanted& wanted,
                                         const std::vector<colourway::Candidate>& candidates);

/// The same as a table for a terminal.
[[nodiscard]] QString substituteText(const colourway::Wanted& wanted,
                                     const std::vector<colourway::Candidate>& candidates);

} // namespace otherskein::cli
