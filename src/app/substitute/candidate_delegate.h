#pragma once

#include <QStyledItemDelegate>

namespace otherskein::app {

/// Draws one candidate: the wide chip that abuts the wanted colour on the ground, its name, its
/// figures, its warnings.
class CandidateDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void setGround(const QColor& ground) { m_ground = ground; }

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;

  private:
    QColor m_ground = Qt::white;
};

} // namespace otherskein::app
