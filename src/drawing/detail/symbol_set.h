#pragma once

#include <QPainterPath>

#include <vector>

namespace otherskein::drawing::detail {

/// A symbol, `kUnit` of detail/shapes.h to each side of its middle; filled by the odd-even rule.
struct Symbol {
    const char* name;
    QPainterPath shape;
};

/// Geometry: discs, wedges, bars …
[[nodiscard]] std::vector<Symbol> plainSymbols();
/// Things: sail, pine, key-hole …
[[nodiscard]] std::vector<Symbol> thingSymbols();

} // namespace otherskein::drawing::detail
