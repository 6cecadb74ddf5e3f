#pragma once

#include "colourway/substitute.h"

namespace otherskein::colourway {

/// The rows of the key that the wanted thread stitches.
[[nodiscard]] std::vector<std::size_t> wantedRows(const SubstituteQuestion& question);

/// Sides of cells along which each row of the key touches the wanted thread's rows; all zero where
/// only the key is known.
[[nodiscard]] std::vector<double> bordersOfWanted(const SubstituteQuestion& question);

/// Sets `costInChart`: the colourway problem with one free row, all else as charted. Nothing where
/// the question has no chart, or the chart does not call for the wanted thread.
void weighInChart(std::vector<Candidate>& candidates, const SubstituteQuestion& question);

} // namespace otherskein::colourway
