#pragma once

#include "trace/detail/sheet.h"

#include <vector>

namespace otherskein::trace::detail {

/// What a straight stroke between two points of a sheet would cover.
struct StrokeCover {
    int all = 0;     ///< px of its length
    int samples = 0; ///< of them, where it can be told from the cells below
    int clear = 0;   ///< of them, where another colour lies to both sides
    double off = 0;  ///< px that its middle lies beside the line, root mean square
};

/// Ink of one colour over the cells of a sheet. A pixel has it where it is nearer to the colour
/// than to its own cell's ground, and not surely of the page's darkest ink; on a ground of about
/// the same colour that cannot be told.
class Stroke {
  public:
    Stroke(const Sheet& sheet, const std::vector<cv::Vec3f>& grounds, const cv::Vec3f& colour,
           const cv::Vec3f& ink);

    enum class Ink { Off, On, Unknown };
    [[nodiscard]] Ink at(const cv::Point2d& place) const;

    /// Whether a stroke of `width` px runs from one point to another, in half cells, without gaps.
    [[nodiscard]] bool runs(const cv::Point& from, const cv::Point& to, double width,
                            StrokeCover& cover) const;

    /// Width of the ink across the way from one point to another, px: that of most of it, or 0
    /// where there is no such width.
    [[nodiscard]] double widthAlong(const cv::Point& from, const cv::Point& to) const;

  private:
    const Sheet& m_sheet;
    const std::vector<cv::Vec3f>& m_grounds;
    cv::Vec3f m_colour;
    cv::Vec3f m_ink;
    bool m_isInk; ///< the colour is the darkest ink
};

} // namespace otherskein::trace::detail
