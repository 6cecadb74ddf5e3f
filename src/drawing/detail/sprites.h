#pragma once

#include "drawing/detail/relief_cache.h"
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
    double coverage = 1; ///< of stitches whose row has none of its own
    Cloth cloth = {};    ///< under stitches
    float relief = 1;    ///< from the apparent colour (0) to full stitches (1)

    bool operator==(const CellLook&) const = default;
};

/// Lines darken what is light and lighten what is dark.
[[nodiscard]] bool wantsLightLine(QRgb under);
[[nodiscard]] QRgb lined(QRgb under, bool light, float strength);

/// One opaque picture a key row, a few variants of it, and each on all the places of a cloth that
/// differ; made when first asked for.
class Sprites {
  public:
    static constexpr int kVariants = 4;

    /// Forgets what the new look changes. `plain` are the colours of threads, `apparent` those of
    /// stitched areas seen from afar.
    void setLook(const CellLook& look);
    void setColours(const Paint& plain, const Paint& apparent);
    void setMarks(const std::vector<Mark>& marks);

    /// Cells each way after which the cloth begins anew; `place` below is one of placeOf.
    [[nodiscard]] int repeat() const;
    /// Row by row, `size` pixels each way, or one more where `wide` or `tall`. Valid until the next
    /// set….
    [[nodiscard]] const QRgb* picture(chart::KeyIndex row, int variant, int place, bool wide,
                                      bool tall);
    /// Ground beyond the chart's edge: without hairlines.
    [[nodiscard]] const QRgb* margin(int place, bool wide, bool tall);
    /// Whether lines on cells of this row are light.
    [[nodiscard]] bool hasLightLines(chart::KeyIndex row) const;

  private:
    using Picture = std::unique_ptr<QRgb[]>;
    /// Crosses of one coverage.
    struct Crosses {
        float coverage = 0;
        std::array<std::shared_ptr<const CrossRelief>, kVariants> variants;
    };
    /// Cells of one size: snapping makes four of them.
    struct SizeClass {
        int width = 0;
        int height = 0;
        std::vector<std::shared_ptr<const ClothRelief>> cloths; ///< one a place
        std::vector<Crosses> crosses;               ///< few: as many as there are thicknesses
        std::vector<std::vector<Picture>> pictures; ///< of the ground, then of a row each
    };
    void forgetPictures();
    void forgetReliefs();
    [[nodiscard]] SizeClass& sizeClass(bool wide, bool tall);
    /// The one of `variants` pictures of a row (0: ground) at a place; null until it is made.
    [[nodiscard]] Picture& slot(SizeClass& size, std::size_t row, int variants, int variant,
                                int place);
    [[nodiscard]] Picture blank(const SizeClass& size);
    void make(SizeClass& size, chart::KeyIndex row, int variant, int place, QRgb* out) const;
    void rule(const SizeClass& size, chart::KeyIndex row, QRgb* out) const;
    void paintMarked(const SizeClass& size, chart::KeyIndex row, QRgb* out) const;
    void paintStitched(const CrossRelief& cross, const ClothRelief& cloth, chart::KeyIndex row,
                       QRgb* out) const;
    void paintCloth(const ClothRelief& cloth, QRgb* out) const;
    [[nodiscard]] const ClothRelief& clothAt(SizeClass& size, int place) const;
    [[nodiscard]] const CrossRelief& crossOf(SizeClass& size, chart::KeyIndex row,
                                             int variant) const;
    [[nodiscard]] QRgb plainOf(chart::KeyIndex row) const;

    CellLook m_look;
    Paint m_plain;
    Paint m_apparent;
    std::vector<bool> m_lightLines; ///< the ground first, then a row each
    std::vector<Mark> m_marks;
    std::array<SizeClass, 4> m_sizes; ///< wide + 2 · tall
    std::size_t m_bytes = 0;          ///< of all pictures
};

} // namespace otherskein::drawing::detail
