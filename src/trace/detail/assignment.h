#pragma once

#include <optional>
#include <vector>

namespace otherskein::trace::detail {

/// Which column each row takes, so that the sum of costs is least. A column goes to one row at
/// most; a row goes without where that is cheaper than `without`.
///
/// Shapes: `costs` has rows of one length; the answer is as long as `costs`.
/// Source: the Hungarian method with potentials (Kuhn 1955; Jonker & Volgenant 1987).
[[nodiscard]] std::vector<std::optional<std::size_t>>
assigned(const std::vector<std::vector<double>>& costs, double without);

} // namespace otherskein::trace::detail
