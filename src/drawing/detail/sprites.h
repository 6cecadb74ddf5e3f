#pragma once

#include "drawing/detail/relief.h"
#include "drawing/flat.h"
#include "drawing/symbols.h"

#include <array>
#include <memory>

namespace otherskein::drawing::detail {

/// All that the picture of a cell depends on, besides its row of the key.
struct CellLook {
    enum class Kind { Plain, Marked, Stitched };
    Kind kind = Kind::Plain;
    int size = 8;        ///< device pixels; where cells are snapped some are one wider or taller
    float hairline = 0;  ///< strength of the line along its left and top, 0..1
    double coverage = 1; ///< of stitches
    float relief = 1;    ///< from the apparent colour (0) to full stitches (1)

    bool operator==(const CellLook&) const = default;
};

/// Lines darken what is light and lighten what is dark.
[[nodiscard]] bool wantsLightLine(QRgb under);
[[nodiscard]] QRgb lined(QRgb under, bool light, float strength);

/// One opaque picture a key row, and a few variants of it; each is made when first asked for.
class Sprites {
  public:
    static constexpr int kVariants = 4;

    /// Forgets what the new look changes. `plain` are the colours of threads, `apparent` those of
    /// stitched areas seen from afar.
    void setLook(const CellLook& look);
    void setColours(const Paint& plain, const Paint& apparent);
    void setMarks(const std::vector<Mark>& marks);

    /// Row by row, `size` pixels each way, or one more where `wide` or `tall`.
    [[nodiscard]] const QRgb* picture(chart::KeyIndex row, int variant, bool wide, bool tall);
    /// Ground beyond the chart's edge: without hairlines.
    [[nodiscard]] const QRgb* margin(bool wide, bool tall);
    /// Whether lines on cells of this row are light.
    [[nodiscard]] bool hasLightLines(chart::KeyIndex row) const;

  private:
    /// Cells of one size: snapping makes four of them.
    struct SizeClass {
        int width = 0;
        int height = 0;
        ClothRelief cloth;
        std::array<std::unique_ptr<CrossRelief>, kVariants> crosses;
        std::array<std::vector<Light>, kVariants> under; ///< cloth seen beside the thread
        std::vector<std::unique_ptr<QRgb[]>> pictures; ///< kVariants of the ground, then a row each
    };
    void forgetPictures();
    void forgetReliefs();
    [[nodiscard]] SizeClass& sizeClass(bool wide, bool tall);
    void make(SizeClass& size, chart::KeyIndex row, int variant, QRgb* out);
    void rule(const SizeClass& size, chart::KeyIndex row, QRgb* out) const;
    void paintMarked(const SizeClass& size, chart::KeyIndex row, QRgb* out) const;
    void paintStitched(SizeClass& size, chart::KeyIndex row, int variant, QRgb* out) const;
    void paintCloth(const SizeClass& size, QRgb* out) const;
    [[nodiscard]] const std::vector<Light>& under(SizeClass& size, int variant) const;
    [[nodiscard]] QRgb plainOf(chart::KeyIndex row) const;

    CellLook m_look;
    Paint m_plain;
    Paint m_apparent;
    std::vector<bool> m_lightLines; ///< the ground first, then a row each
    std::vector<Mark> m_marks;
    std::array<SizeClass, 4> m_sizes; ///< wide + 2 · tall
};

} // namespace otherskein::drawing::detail
