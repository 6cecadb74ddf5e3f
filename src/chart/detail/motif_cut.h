#pragma once

#include "chart/motifs.h"

#include <vector>

namespace otherskein::chart {

/// Carries out one cut on labels (one a cell). New parts take labels from `next` on, which is moved
/// along. `reach`: stitches this far apart, as a king walks, hang together.
void cutMotif(const Grid& grid, const CutMotif& cut, int reach, std::vector<MotifIndex>& of,
              MotifIndex& next);

} // namespace otherskein::chart
