#include "app/charts/plain_header.h"

#include "app/frame/look.h"

#include <QPainter>

namespace otherskein::app {

namespace {

constexpr int kHeight = 26;

} // namespace

PlainHeader::PlainHeader(const QString& accessibleName, QWidget* parent)
    : QHeaderView(Qt::Horizontal, parent) {
    setAccessibleName(accessibleName);
    setSectionsClickable(false);
    setHighlightSections(false);
    setMinimumSectionSize(20);
    setSectionResizeMode(Fixed);
    setStyleSheet(QStringLiteral("QHeaderView { background: transparent; }"));
}

void PlainHeader::paintSection(QPainter* painter, const QRect& rect, int column) const {
    const auto found = m_insets.find(column);
    const auto [leading, trailing] = found == m_insets.end() ? std::pair(0, 0) : found->second;
    const bool mirrored = isRightToLeft();
    const QVariant side = model()->headerData(column, orientation(), Qt::TextAlignmentRole);
    const auto alignment = side.isValid() ? side.value<Qt::Alignment>() : Qt::AlignLeading;
    painter->save();
    painter->setPen(greys().line);
    painter->drawLine(rect.bottomLeft(), rect.bottomRight());
    painter->setFont(scaledFont(0.86));
    painter->setPen(greys().quiet);
    painter->drawText(
        rect.adjusted(mirrored ? trailing : leading, 0, mirrored ? -leading : -trailing, 0),
        static_cast<int>(QStyle::visualAlignment(layoutDirection(), alignment) | Qt::AlignVCenter) |
            Qt::TextSingleLine,
        model()->headerData(column, orientation(), Qt::DisplayRole).toString());
    painter->restore();
}

QSize PlainHeader::sizeHint() const {
    return {QHeaderView::sizeHint().width(), kHeight};
}

} // namespace otherskein::app
