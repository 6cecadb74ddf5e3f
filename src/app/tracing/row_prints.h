#pragma once

#include "app/tracing/page_picture.h"
#include "app/tracing/symbol_shape.h"
#include "workbox/document.h"

#include <optional>

namespace otherskein::app {

/// How the rows of a traced chart's key are printed, and bare ground: learnt from their surest
/// cells, those that a hand has accepted first.
class RowPrints {
  public:
    RowPrints() = default;
    RowPrints(const chart::Chart& chart, const workbox::TracedPage& page,
              const PagePicture& picture);

    /// All rows but `without`, most like the glance first; rows that nothing is worked in come
    /// last.
    [[nodiscard]] std::vector<chart::KeyIndex> nearestTo(const PagePicture::Glance& glance,
                                                         chart::KeyIndex without) const;
    /// All other rows, most like this one first.
    [[nodiscard]] std::vector<chart::KeyIndex> nearestToRow(chart::KeyIndex row) const;

    struct Pair {
        chart::KeyIndex row;   ///< fewer cells than the other, or as many
        chart::KeyIndex other; ///< the most alike of all rows, or kBare where bare ground is
    };
    /// Each row that has cells with the row that is most like it, the most alike pair first; no
    /// pair twice.
    [[nodiscard]] std::vector<Pair> alikePairs() const;

    /// The rows that have cells in families whose ink has one shape, whatever paper it stands on:
    /// each begins with the row that has the most cells, and goes on with what is most like it.
    /// A row that is like no other is alone. Families in the order of the key's rows by their
    /// first, each followed by those that are a little like it.
    [[nodiscard]] std::vector<std::vector<chart::KeyIndex>> families() const;

    /// The cell that is printed most as the row is; none where nothing is worked in it. kBare too.
    [[nodiscard]] std::optional<chart::Cell> modelOf(chart::KeyIndex row) const;
    /// Whether it looks like the row: no more unlike it than the row's own sure cells are, and
    /// unlike all others. kBare too.
    [[nodiscard]] bool looksLike(const PagePicture::Glance& glance, chart::KeyIndex row) const;
    /// How unlike the row's mean it is; 0 where nothing is worked in the row. kBare too.
    [[nodiscard]] double unlikeness(const PagePicture::Glance& glance, chart::KeyIndex row) const;

  private:
    /// As it is, and as it would be were its paper white: light falls unevenly on a page, yet how
    /// light a cell is may be what tells it.
    struct Look {
        PagePicture::Glance seen{};
        PagePicture::Glance lit{};

        Look() = default;
        explicit Look(const PagePicture::Glance& glance);
        [[nodiscard]] double from(const Look& other) const {
            return difference(seen, other.seen) + difference(lit, other.lit);
        }
    };
    struct Print {
        std::size_t cells = 0; ///< worked in the row
        Look mean;
        double spread = 0; ///< of the sure cells about their mean: the largest difference
        chart::Cell model;
    };
    std::vector<std::optional<Print>> m_prints; ///< one a row, and one for bare ground

    [[nodiscard]] std::vector<chart::KeyIndex> nearestTo(const Look& look,
                                                         chart::KeyIndex without) const;
    [[nodiscard]] std::size_t placeOf(chart::KeyIndex row) const {
        return row == chart::kBare ? m_prints.size() - 1 : row;
    }
};

} // namespace otherskein::app
