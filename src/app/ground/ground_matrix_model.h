#pragma once

#include "app/ground/ground_desk.h"

#include <QAbstractTableModel>

namespace otherskein::app {

/// Values of the desk as a table; painting asks `row` and `column`.
class GroundMatrixModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    using QAbstractTableModel::QAbstractTableModel;

    void take(const GroundDesk& desk);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

    [[nodiscard]] const GroundRow& row(int row) const {
        return m_rows[static_cast<std::size_t>(row)];
    }
    [[nodiscard]] const GroundColumn& column(int column) const {
        return m_columns[static_cast<std::size_t>(column)];
    }
    [[nodiscard]] const colourway::Contrast& at(const QModelIndex& index) const {
        return row(index.row()).on[static_cast<std::size_t>(index.column())];
    }
    [[nodiscard]] int chosen() const { return m_chosen; }

  private:
    std::vector<GroundRow> m_rows;
    std::vector<GroundColumn> m_columns;
    int m_chosen = -1;
};

} // namespace otherskein::app
