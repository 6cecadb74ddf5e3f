#pragma once

#include "app/charts/chart_desk.h"

#include <QAbstractTableModel>

namespace otherskein::app {

enum class MotifColumn { Number, Name, Stitches };
inline constexpr int kMotifColumns = 3;

/// The motifs of the chart on the desk. A name that is set becomes an edit of the motif plan.
class MotifModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    explicit MotifModel(ChartDesk& desk, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;

    [[nodiscard]] const chart::Motif& motif(int row) const {
        return m_motifs->motifs[static_cast<std::size_t>(row)];
    }

  private:
    ChartDesk& m_desk;
    MotifFinder::Answer m_motifs; ///< those shown; the desk's, as soon as it says so
};

} // namespace otherskein::app
