#pragma once

#include <QStyledItemDelegate>

namespace otherskein::app {

/// Draws one card of the wall: the chart in these threads on its ground, the threads touching each
/// other, its name and figures.
class AlternativeDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    /// Around a card, half of the gap between two.
    static constexpr int kMargin = 5;
    /// Height of all that stands below the picture, and the card's own frame.
    [[nodiscard]] static int heightBelowPicture();

    void setGround(const QColor& ground) { m_ground = ground; }
    void setCardSize(const QSize& size) { m_size = size; }

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;

  private:
    QColor m_ground = Qt::white;
    QSize m_size{200, 160};
};

} // namespace otherskein::app
