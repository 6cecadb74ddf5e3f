#pragma once

#include "app/recolour/colourway_rows.h"

#include <QAbstractListModel>

namespace otherskein::app {

/// The rows of the colourway, for the table and for screen readers.
class ColourwayModel : public QAbstractListModel {
    Q_OBJECT

  public:
    using QAbstractListModel::QAbstractListModel;

    void setRows(std::vector<ColourwayRow> rows);
    [[nodiscard]] const ColourwayRow& row(int index) const {
        return m_rows[static_cast<std::size_t>(index)];
    }
    /// The row that holds this part; -1 when none does.
    [[nodiscard]] int rowOfPart(std::size_t part) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

  private:
    std::vector<ColourwayRow> m_rows;
};

/// "ΔE 34.2", as the table shows it.
[[nodiscard]] QString changeText(const ColourwayRow& row);
/// "own", "buy", or "no card" for a colour that no shade card has.
[[nodiscard]] QString ownText(const colourway::Choice& choice);

} // namespace otherskein::app
