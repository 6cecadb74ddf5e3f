#include "app/threads/thread_cell.h"

#include "app/frame/look.h"
#include "app/threads/thread_model.h"

#include <QComboBox>
#include <QLineEdit>
#include <QPainter>

namespace otherskein::app {

namespace {

constexpr int kChipWidth = 44;
constexpr int kPadding = 8;

bool isChoice(int column) {
    return columnIs(column, Column::Finish) || columnIs(column, Column::Stock);
}

template <typename Word>
void addWords(QComboBox& box, Word last) {
    for (int i = 0; i <= static_cast<int>(last); ++i) {
        box.addItem(shownWord(static_cast<Word>(i)));
    }
}

/// In a cell there is no room for the margins of a field in a panel.
const QString kInCell =
    QStringLiteral("QLineEdit, QComboBox { border-radius: 0; padding: 0 6px; min-height: 0; }"
                   "QLineEdit:focus, QComboBox:focus { padding: 0 5px; }");

} // namespace

ThreadCell::ThreadCell(ThreadModel& model, QObject* parent)
    : QStyledItemDelegate(parent), m_model(model) {}

void ThreadCell::paint(QPainter* painter, const QStyleOptionViewItem& option,
                       const QModelIndex& index) const {
    const Greys& g = greys();
    const bool chosen = option.state.testFlag(QStyle::State_Selected);
    painter->save();
    painter->fillRect(option.rect, chosen ? g.chosen : g.surround);
    painter->setPen(g.line);
    painter->drawLine(option.rect.bottomLeft(), option.rect.bottomRight());
    QRect place = option.rect;
    const bool mirrored = option.direction == Qt::RightToLeft;
    if (columnIs(index.column(), Column::Colour)) {
        // Chips of neighbouring rows touch.
        const QRect chip = QStyle::alignedRect(option.direction, Qt::AlignLeading | Qt::AlignTop,
                                               QSize(kChipWidth, place.height()), place);
        painter->fillRect(chip, QColor(m_model.item(index.row()).shown));
        if (chosen) {
            // Black and white, so that it shows on any colour.
            const QRect bar(mirrored ? chip.right() - 4 : chip.left(), chip.top(), 5,
                            chip.height());
            painter->fillRect(bar, Qt::white);
            painter->fillRect(bar.adjusted(mirrored ? 2 : 0, 0, mirrored ? 0 : -2, 0), Qt::black);
        }
        place.adjust(mirrored ? 0 : kChipWidth, 0, mirrored ? -kChipWidth : 0, 0);
    }
    place.adjust(kPadding, 0, -kPadding, 0);
    const bool number = isNumberColumn(index.column());
    const Qt::Alignment side = number ? Qt::AlignTrailing : Qt::AlignLeading;
    painter->setFont(option.font);
    painter->setPen(columnIs(index.column(), Column::Card) ? g.quiet : g.text);
    const QString text = cellText(m_model.item(index.row()), index.column());
    painter->drawText(
        place,
        static_cast<int>(QStyle::visualAlignment(option.direction, side) | Qt::AlignVCenter) |
            Qt::TextSingleLine,
        option.fontMetrics.elidedText(text, Qt::ElideRight, place.width()));
    if (option.state.testFlag(QStyle::State_HasFocus)) {
        painter->setPen(QPen(g.text, 2));
        painter->drawRect(option.rect.adjusted(1, 1, -1, -1));
    }
    painter->restore();
}

QWidget* ThreadCell::createEditor(QWidget* parent, const QStyleOptionViewItem& /*option*/,
                                  const QModelIndex& index) const {
    QWidget* editor = nullptr;
    if (isChoice(index.column())) {
        auto* box = new QComboBox(parent);
        if (columnIs(index.column(), Column::Finish)) {
            addWords(*box, thread::Finish::Variegated);
        } else {
            addWords(*box, thread::Stock::Discontinued);
        }
        auto* self = const_cast<ThreadCell*>(this); // the signals of a delegate are not const
        connect(box, &QComboBox::activated, this, [self, box] {
            Q_EMIT self->commitData(box);
            Q_EMIT self->closeEditor(box);
        });
        editor = box;
    } else {
        editor = new QLineEdit(parent);
    }
    editor->setStyleSheet(kInCell);
    editor->setAccessibleName(
        m_model.headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString());
    return editor;
}

void ThreadCell::setEditorData(QWidget* editor, const QModelIndex& index) const {
    const QString text = index.data(Qt::EditRole).toString();
    if (auto* box = qobject_cast<QComboBox*>(editor)) {
        box->setCurrentText(text);
    } else if (auto* line = qobject_cast<QLineEdit*>(editor)) {
        // Said again whenever the cell changes; what is being typed must not be lost then.
        if (!line->isModified()) {
            line->setText(text);
        }
    }
}

void ThreadCell::setModelData(QWidget* editor, QAbstractItemModel* model,
                              const QModelIndex& index) const {
    if (const auto* box = qobject_cast<QComboBox*>(editor)) {
        model->setData(index, box->currentText());
    } else if (const auto* line = qobject_cast<QLineEdit*>(editor)) {
        model->setData(index, line->text());
    }
}

} // namespace otherskein::app
