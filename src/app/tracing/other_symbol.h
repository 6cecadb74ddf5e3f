#pragma once

#include "app/tracing/traced_desk.h"

#include <QWidget>

#include <memory>
#include <optional>

namespace otherskein::app {

/// The other one of two symbols that may be one, or bare ground: its name, and as many of its cells
/// as there is room for, the surest first, as large as those of the sheet above.
class OtherSymbol : public QWidget {
    Q_OBJECT

  public:
    explicit OtherSymbol(const TracedDesk& traced, QWidget* parent = nullptr);

    /// Hidden while there is none.
    void setRow(std::optional<chart::KeyIndex> row);
    void setSide(int pixels); ///< of a cell's place
    static constexpr int kRowsOfCells = 2;
    static constexpr int kTitle = 34; ///< px above the cells
    static constexpr int kBelow = 8;
    [[nodiscard]] std::optional<chart::KeyIndex> row() const { return m_row; }
    [[nodiscard]] const QString& title() const { return m_title; }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    const TracedDesk& m_traced;
    std::optional<chart::KeyIndex> m_row;
    std::shared_ptr<const chart::Chart> m_chart; ///< that the cells are of
    std::vector<chart::Cell> m_cells;
    QString m_title;
    int m_side = 0;
};

} // namespace otherskein::app
