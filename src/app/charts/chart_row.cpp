#include "app/charts/chart_row.h"

#include "app/charts/chart_list.h"
#include "app/frame/look.h"

#include <QPainter>

namespace otherskein::app {

namespace {

constexpr QSize kPicture{60, 46};
constexpr int kMargin = 16;
constexpr int kGap = 10;

/// Where picture and text lie, in reading direction.
struct Places {
    QRect picture;
    QRect text;

    Places(const QRect& row, Qt::LayoutDirection direction) {
        picture = QRect({row.left() + kMargin, row.top() + (row.height() - kPicture.height()) / 2},
                        kPicture);
        text = row.adjusted(kMargin + kPicture.width() + kGap, 11, -12, -12);
        if (direction == Qt::RightToLeft) {
            picture = QStyle::visualRect(direction, row, picture);
            text = QStyle::visualRect(direction, row, text);
        }
    }
};

} // namespace

void ChartRow::paint(QPainter* painter, const QStyleOptionViewItem& option,
                     const QModelIndex& index) const {
    const Greys& g = greys();
    const bool chosen = option.state.testFlag(QStyle::State_Selected);
    painter->save();
    if (chosen) {
        painter->fillRect(option.rect, g.chosen);
        const int x =
            option.direction == Qt::RightToLeft ? option.rect.right() - 2 : option.rect.left();
        painter->fillRect(QRect(x, option.rect.top(), 3, option.rect.height()), g.text);
    } else if (option.state.testFlag(QStyle::State_MouseOver)) {
        painter->fillRect(option.rect, g.line);
    }
    const Places places(option.rect, option.direction);
    const double ratio = painter->device()->devicePixelRatioF();
    QImage picture = m_pictures.picture(workbox::ChartId{index.data(kIdRole).toLongLong()},
                                        (QSizeF(kPicture) * ratio).toSize());
    if (picture.isNull()) {
        painter->fillRect(places.picture, g.surround);
    } else {
        painter->setRenderHint(QPainter::SmoothPixmapTransform);
        painter->drawImage(places.picture, picture);
    }
    const auto side =
        static_cast<int>(QStyle::visualAlignment(option.direction, Qt::AlignLeading)) |
        Qt::TextSingleLine;
    const auto draw = [&](const QString& text, const QFont& font, const QColor& ink,
                          Qt::AlignmentFlag vertical) {
        painter->setFont(font);
        painter->setPen(ink);
        painter->drawText(
            places.text, side | vertical,
            painter->fontMetrics().elidedText(text, Qt::ElideRight, places.text.width()));
    };
    draw(index.data().toString(), scaledFont(1, chosen ? 600 : 400), g.text, Qt::AlignTop);
    draw(index.data(kSizeRole).toString(), scaledFont(0.88), g.quiet, Qt::AlignBottom);
    if (option.state.testFlag(QStyle::State_HasFocus)) {
        painter->setPen(QPen(g.text, 2));
        painter->drawRect(option.rect.adjusted(1, 1, -1, -1));
    }
    painter->restore();
}

QSize ChartRow::sizeHint(const QStyleOptionViewItem& /*option*/,
                         const QModelIndex& /*index*/) const {
    return {160, kHeight};
}

QWidget* ChartRow::createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                                const QModelIndex& index) const {
    QWidget* editor = QStyledItemDelegate::createEditor(parent, option, index);
    editor->setAccessibleName(ChartList::tr("Name of the chart"));
    return editor;
}

void ChartRow::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                    const QModelIndex& /*index*/) const {
    editor->setStyleSheet(QStringLiteral("QLineEdit { border-radius: 0; padding: 0 4px; "
                                         "min-height: 0; } QLineEdit:focus { padding: 0 3px; }"));
    const QRect text = Places(option.rect, option.direction).text;
    editor->setGeometry(text.left() - 6, text.top() - 4, text.width() + 10, 28);
}

} // namespace otherskein::app
