#pragma once

#include "app/charts/chart_desk.h"
#include "drawing/symbols.h"

#include <QAbstractTableModel>
#include <QImage>

#include <functional>

namespace otherskein::app {

enum class KeyColumn { Symbol, Colour, Thread, Strands, Stitches };
inline constexpr int kKeyColumns = 5;

/// The key of the chart on the desk, a row a row.
class KeyModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    explicit KeyModel(const ChartDesk& desk, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

    [[nodiscard]] const chart::KeyRow& row(int row) const;
    [[nodiscard]] const drawing::Mark& mark(int row) const {
        return m_marks[static_cast<std::size_t>(row)];
    }
    /// How rows are printed on the page that the chart was traced from, in pictures of so many
    /// pixels; null where a row is not.
    using Prints = std::function<QImage(chart::KeyIndex, int)>;
    void setPrints(Prints prints) { m_prints = std::move(prints); }
    [[nodiscard]] QImage print(int row, int pixels) const;
    /// How much is worked in the row, in two short lines: "1,240" and "12 %", or how many lines of
    /// backstitch.
    [[nodiscard]] QString amount(int row) const;
    [[nodiscard]] QString amountMore(int row) const;
    /// What each row takes of thread, for its tool tip; one a row, or none at all.
    void setThreadNotes(const QStringList& notes) { m_notes = notes; }
    [[nodiscard]] int totalStitches() const { return m_total; }

  private:
    const ChartDesk& m_desk;
    std::vector<drawing::Mark> m_marks; ///< its size is the model's row count
    std::vector<int> m_lines;
    int m_total = 0;
    QStringList m_notes;
    Prints m_prints;

    void load();
};

} // namespace otherskein::app
