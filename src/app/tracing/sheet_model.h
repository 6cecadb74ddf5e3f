#pragma once

#include "app/tracing/traced_desk.h"

#include <QAbstractListModel>
#include <QStyledItemDelegate>

namespace otherskein::app {

/// The cells that are worked in the chosen row of the key, or bare, least sure first.
class SheetModel : public QAbstractListModel {
    Q_OBJECT

  public:
    explicit SheetModel(TracedDesk& traced, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

    [[nodiscard]] const chart::Cell& cell(int row) const {
        return m_cells[static_cast<std::size_t>(row)];
    }
    [[nodiscard]] const TracedDesk& traced() const { return m_traced; }

  private:
    TracedDesk& m_traced;
    std::vector<chart::Cell> m_cells;

    void load();
};

/// Draws a cell as it is printed, cut out of the page when it comes into sight; what was not sure
/// and not seen has a frame, what is selected a stronger one.
class SheetDelegate : public QStyledItemDelegate {
  public:
    static constexpr int kLeastSide = 48; ///< of a place in the sheet
    static constexpr int kMostSide = 96;
    static constexpr int kAround = 6; ///< between a place's edge and the print in it

    SheetDelegate(const SheetModel& model, QObject* parent)
        : QStyledItemDelegate(parent), m_model(model) {}

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    /// The cell as it is printed, in a place of the sheet.
    static void paintPrint(QPainter& painter, const QRect& place, const TracedDesk& traced,
                           const chart::Cell& cell);
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;
    /// As large as all `count` places, and `moreRows` rows of another sheet, may be in that room;
    /// false when that is as it was.
    bool fitInto(const QSize& room, int count, int moreRows);
    [[nodiscard]] int side() const { return m_side; }

  private:
    const SheetModel& m_model;
    int m_side = kLeastSide;
};

} // namespace otherskein::app
