#pragma once

#include "app/charts/chart_desk.h"
#include "app/tracing/page_picture.h"

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
    /// The cells of a row, least sure first.
    [[nodiscard]] std::vector<chart::Cell> cellsOf(chart::KeyIndex row) const;
    /// The colour that most of the cells are printed in.
    [[nodiscard]] colour::Srgb8 printedColour(std::span<const chart::Cell> cells) const;

    // Each is one step, told or refused as all changes of the desk.
    /// The cells are right as they are.
    void accept(std::span<const chart::Cell> cells);
    void change(std::span<const chart::Cell> cells, chart::KeyIndex row);
    void splitOff(std::span<const chart::Cell> cells);
    void join(chart::KeyIndex from, chart::KeyIndex to);

    void goTo(const std::optional<chart::Cell>& cell);

  Q_SIGNALS:
    void pictureReplaced();
    /// Cells were accepted, or are doubtful again.
    void doubtChanged();

  private:
    /// How the rows of the key print, from their surest cells.
    struct Prints {
        std::shared_ptr<const chart::Chart> chart; ///< that they are of
        std::vector<std::optional<PagePicture::Glance>> rows;
    };

    ChartDesk& m_desk;
    mutable std::optional<PagePicture> m_picture; ///< decoded when someone looks
    std::vector<std::uint32_t> m_order;           ///< cells that were not sure, least sure first
    int m_left = 0;
    mutable Prints m_prints;

    void takePage();
    void count();
    [[nodiscard]] const Prints& prints() const;
    [[nodiscard]] std::size_t indexOf(const chart::Cell& cell) const {
        return m_desk.chart()->grid.indexOf(cell);
    }
};

/// What a row is called where its symbol matters: "A, 310 Rust".
[[nodiscard]] QString signOf(const chart::KeyRow& row);

} // namespace otherskein::app
