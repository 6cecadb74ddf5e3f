#pragma once

#include <QStyledItemDelegate>

namespace otherskein::app {

/// Draws one row of the colourway: was and now touching on the ground, code and name, how large the
/// change is, whether it is owned, its lock.
class ColourwayDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    /// Where the lock of a row is drawn and pressed.
    [[nodiscard]] static QRect lockArea(const QRect& row, Qt::LayoutDirection direction);

    void setGround(const QColor& ground) { m_ground = ground; }

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;

  private:
    QColor m_ground = Qt::white;
};

} // namespace otherskein::app
