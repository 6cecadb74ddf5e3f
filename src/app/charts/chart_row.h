#pragma once

#include "app/charts/chart_pictures.h"

#include <QStyledItemDelegate>

namespace otherskein::app {

/// Draws a chart in the list: picture, name, size. Reads the item's text and these roles.
class ChartRow : public QStyledItemDelegate {
  public:
    static constexpr int kHeight = 60;
    static constexpr int kIdRole = Qt::UserRole;
    static constexpr int kSizeRole = Qt::UserRole + 1; ///< the second line

    ChartRow(ChartPictures& pictures, QObject* parent)
        : QStyledItemDelegate(parent), m_pictures(pictures) {}

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const override;

  private:
    ChartPictures& m_pictures;
};

} // namespace otherskein::app
