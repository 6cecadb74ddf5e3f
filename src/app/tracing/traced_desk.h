#pragma once

#include "app/charts/chart_desk.h"
#include "app/tracing/row_prints.h"

#include <span>

namespace otherskein::app {

/// The page of the chart on the desk, and what is asked and done cell by cell.
class TracedDesk : public QObject {
    Q_OBJECT

  public:
    explicit TracedDesk(ChartDesk& desk, QObject* parent = nullptr);

    [[nodiscard]] ChartDesk& desk() const { return m_desk; }
    /// Null where there is no page, and before someone looks.
    [[nodiscard]] const PagePicture& picture() const;

    /// Cells that are not sure and were not looked at.
    [[nodiscard]] bool isDoubtful(const chart::Cell& cell) const;
    [[nodiscard]] int doubtfulLeft() const { return m_left; }
    enum class Way { On, Back };
    /// The next one, least sure first; begins again at the end. None when none but `from` is left.
    [[nodiscard]] std::optional<chart::Cell> doubtfulFrom(const std::optional<chart::Cell>& from,
                                                          Way way) const;
    /// Percent, as tracing left it.
    [[nodiscard]] int surenessOf(const chart::Cell& cell) const;
    [[nodiscard]] bool isSeen(const chart::Cell& cell) const;
    /// Rows of the key that print most like the cell, without the one that it has; at most `most`.
    [[nodiscard]] std::vector<chart::KeyIndex> nearestTo(const chart::Cell& cell,
                                                         std::size_t most) const;
    /// Rows of the key that print most like a row.
    [[nodiscard]] std::vector<chart::KeyIndex> nearestToRow(chart::KeyIndex row,
                                                            std::size_t most) const;
    /// Rows that may be one symbol, the most alike first.
    [[nodiscard]] std::vector<RowPrints::Pair> alikePairs() const;
    /// All rows that have cells, those side by side whose ink has one shape (RowPrints::families).
    [[nodiscard]] std::vector<std::vector<chart::KeyIndex>> families() const;
    /// How many rows there would be less, were each such family one symbol.
    [[nodiscard]] int alikeCount() const;
    /// How a row is printed, as large as that: a cell of it, or a piece of its longest line; null
    /// where nothing is worked in it. kBare too.
    [[nodiscard]] QImage printOf(chart::KeyIndex row, int pixels) const;
    /// The cells of a row, or bare ones: first those that were not sure, least sure first, then
    /// those that look least like the others.
    [[nodiscard]] std::vector<chart::Cell> cellsOf(chart::KeyIndex row) const;
    [[nodiscard]] int doubtfulOf(chart::KeyIndex row) const;
    /// The doubtful cells of a row, least sure first.
    [[nodiscard]] std::vector<chart::Cell> doubtfulCellsOf(chart::KeyIndex row) const;
    /// This cell and the doubtful ones that were taken for the same and look the same.
    [[nodiscard]] std::vector<chart::Cell> doubtfulLike(const chart::Cell& cell) const;
    /// The colour that most of the cells are printed in.
    [[nodiscard]] colour::Srgb8 printedColour(std::span<const chart::Cell> cells) const;

    // Each is one step, told or refused as all changes of the desk.
    /// The cells are right as they are.
    void accept(std::span<const chart::Cell> cells);
    void change(std::span<const chart::Cell> cells, chart::KeyIndex row);
    void splitOff(std::span<const chart::Cell> cells);
    /// All of `from` is worked in `to`, or bare; `from` is gone from the key.
    void join(chart::KeyIndex from, chart::KeyIndex to);
    /// The rows (two or more, ascending) are one symbol: that with the most cells stays and is the
    /// chosen one. False when it was refused.
    bool joinAll(std::span<const chart::KeyIndex> rows);
    /// All of these rows (ascending) is bare ground; they are gone from the key.
    void makeBare(std::span<const chart::KeyIndex> rows);

    void goTo(const std::optional<chart::Cell>& cell);

  Q_SIGNALS:
    void pictureReplaced();
    /// Cells were accepted, or are doubtful again.
    void doubtChanged();
    /// What a change came to, in a sentence; after the change.
    void did(const QString& text);

  private:
    /// Found when someone asks, and again when the chart has changed.
    struct Known {
        std::shared_ptr<const chart::Chart> chart; ///< that the prints are of
        RowPrints prints;
    };

    ChartDesk& m_desk;
    mutable std::optional<PagePicture> m_picture; ///< decoded when someone looks
    std::vector<std::uint32_t> m_order;           ///< cells that were not sure, least sure first
    int m_left = 0;
    mutable Known m_known;

    void takePage();
    void count();
    [[nodiscard]] const RowPrints& prints() const;
    [[nodiscard]] std::size_t indexOf(const chart::Cell& cell) const {
        return m_desk.chart()->grid.indexOf(cell);
    }
};

/// What a row is called where its symbol matters: "A, 310 Rust".
[[nodiscard]] QString signOf(const chart::KeyRow& row);

} // namespace otherskein::app
