#pragma once

#include "trace/detail/sheet.h"

#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// A cell of a sheet that was drawn, not scanned, and what of it no grid line reaches.
struct DrawnCell {
    cv::Mat picture; ///< 8-bit BGR, a view
    cv::Rect inner;
};

/// The cells of sheets, row by row, one sheet after the other; the sheets outlive them.
[[nodiscard]] std::vector<DrawnCell> drawnCells(std::span<const Sheet> sheets);

/// Sums of its pixels up to each place: cv::integral.
[[nodiscard]] cv::Mat sumsOf(const DrawnCell& cell);

/// A cell to compare others with. Where a shape's edge lies may differ by what rounding to whole
/// pixels does to it, and colours by what rounding does to them; no more.
class DrawnShape {
  public:
    explicit DrawnShape(const DrawnCell& cell);

    /// Whether its colours are near enough, all in all, to look closer. `sums` is of `cell`.
    [[nodiscard]] bool mayBe(const DrawnCell& cell, const cv::Mat& sums) const;
    /// Whether `cell` is this, moved by a whole pixel or two.
    [[nodiscard]] bool isSame(const DrawnCell& cell) const;
    /// How unlike the other is, moved by the part of a pixel that suits it best: the most that a
    /// place differs, as a share of the contrast around it. 1 where colours differ.
    [[nodiscard]] double unlikeness(const DrawnShape& other) const;
    /// Which pixels of `cell` are nothing of this: CV_8U, 255 there, as large as a cell; 0 around
    /// what of both no line reaches.
    [[nodiscard]] cv::Mat differences(const DrawnCell& cell) const;

    /// Whether nothing is in it but white.
    [[nodiscard]] bool isPaper() const;
    /// Whether it is of one colour.
    [[nodiscard]] bool isPlain() const;
    /// Whether it is of one colour, not white, and white along at least three of its sides.
    [[nodiscard]] bool isSquare() const;
    [[nodiscard]] const cv::Mat& sums() const { return m_sums; }
    [[nodiscard]] const DrawnCell& cell() const { return m_cell; }

  private:
    DrawnCell m_cell;
    cv::Mat m_low; ///< of each place and those beside it
    cv::Mat m_high;
    cv::Mat m_room;     ///< by which a place may differ
    cv::Mat m_sums;     ///< as sumsOf
    cv::Mat m_soft;     ///< blurred, CV_32FC3
    cv::Mat m_contrast; ///< of that, around each place, CV_32FC3
};

} // namespace otherskein::trace::detail
