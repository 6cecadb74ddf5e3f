#pragma once

#include "chart/detail/necks.h"

#include <map>

namespace otherskein::chart {

/// Facts and order of the motifs that `labels` holds, with the names of labels that have one.
/// Linear in cells and labels.
[[nodiscard]] Motifs motifsOf(const Grid& grid, Labels labels,
                              const std::map<MotifIndex, QString>& names = {});

} // namespace otherskein::chart
