#pragma once

#include <QPainterPath>

#include <initializer_list>

namespace otherskein::drawing::detail {

// Plain geometry that the symbols are put together from. Arguments are in units of half the
// symbol's box, which reaches from -1 to 1 both ways, y down; paths come out `kUnit` times as
// large.

/// Qt joins and cuts paths on a fine grid of its own: unit-sized curves would become polygons.
inline constexpr double kUnit = 100;

/// Wide enough to stay dark at 12 px a cell, where it comes to about 1.5 px.
inline constexpr double kStroke = 0.32;

[[nodiscard]] QPainterPath disc(double x, double y, double radius);
[[nodiscard]] QPainterPath box(double left, double top, double right, double bottom);
[[nodiscard]] QPainterPath polygon(std::initializer_list<QPointF> corners);
/// An open path of straight pieces, as a band `width` wide with square ends and sharp corners.
[[nodiscard]] QPainterPath band(std::initializer_list<QPointF> points, double width = kStroke);
/// A path drawn in unit coordinates.
[[nodiscard]] QPainterPath enlarged(const QPainterPath& path);
/// A path drawn in unit coordinates as a band with round ends.
[[nodiscard]] QPainterPath stroked(const QPainterPath& path, double width = kStroke);
/// A regular star; `inner` is the radius of the notches.
[[nodiscard]] QPainterPath star(int points, double outer, double inner);

/// Turned about the middle, in quarters, clockwise.
[[nodiscard]] QPainterPath turned(const QPainterPath& path, int quarters);
[[nodiscard]] QPainterPath mirrored(const QPainterPath& path); ///< left and right exchanged
[[nodiscard]] QPainterPath moved(const QPainterPath& path, double dx, double dy);

} // namespace otherskein::drawing::detail
