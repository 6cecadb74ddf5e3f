#pragma once

#include "app/tracing/page_picture.h"

namespace otherskein::app {

/// What a symbol's print is by its ink alone, whatever paper it stands on: highlighter, shade, a
/// stain or weak ink make several groups of one symbol, and its shape tells that they are one.
struct SymbolShape {
    static constexpr int kSide = PagePicture::kGlance;
    std::array<float, std::size_t{kSide} * kSide> ink{}; ///< 0 paper to 1 the darkest
    std::array<float, 3> paper{};                        ///< its colour, 0 to 1
    bool hasInk = false;                                 ///< false for one plain colour

    SymbolShape() = default;
    explicit SymbolShape(const PagePicture::Glance& glance);
};

/// How unlike two shapes are: 0 the same, about 1 nothing in common. A print may lie a little off
/// its place.
[[nodiscard]] double unlikeness(const SymbolShape& one, const SymbolShape& other);

} // namespace otherskein::app
