#include "app/threads/card_list.h"

#include "app/frame/look.h"
#include "app/threads/thread_columns.h"
#include "base/input_error.h"

#include <QKeyEvent>
#include <QLocale>
#include <QPainter>
#include <QStyledItemDelegate>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kRowHeight = 30;
constexpr int kMostRowsWanted = 10;
constexpr int kCardRole = Qt::UserRole;
constexpr int kCountRole = Qt::UserRole + 1;

class CardRow : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const Greys& g = greys();
        const bool chosen = option.state.testFlag(QStyle::State_Selected);
        const bool mirrored = option.direction == Qt::RightToLeft;
        painter->save();
        if (chosen) {
            painter->fillRect(option.rect, g.chosen);
            const int x = mirrored ? option.rect.right() - 2 : option.rect.left();
            painter->fillRect(QRect(x, option.rect.top(), 3, option.rect.height()), g.text);
        } else if (option.state.testFlag(QStyle::State_MouseOver)) {
            painter->fillRect(option.rect, g.line);
        }
        const QRect inner = option.rect.adjusted(16, 0, -16, 0);
        const auto side = [&](Qt::Alignment alignment) {
            return static_cast<int>(QStyle::visualAlignment(option.direction, alignment) |
                                    Qt::AlignVCenter) |
                   Qt::TextSingleLine;
        };
        const QString count = QLocale().toString(index.data(kCountRole).toInt());
        painter->setFont(scaledFont(1));
        painter->setPen(g.quiet);
        painter->drawText(inner, side(Qt::AlignTrailing), count);
        const int countWidth = painter->fontMetrics().horizontalAdvance(count) + 10;
        painter->setFont(scaledFont(1, chosen ? 600 : 400));
        painter->setPen(g.text);
        const QRect name =
            inner.adjusted(mirrored ? countWidth : 0, 0, mirrored ? 0 : -countWidth, 0);
        painter->drawText(name, side(Qt::AlignLeading),
                          painter->fontMetrics().elidedText(index.data().toString(), Qt::ElideRight,
                                                            name.width()));
        if (option.state.testFlag(QStyle::State_HasFocus)) {
            painter->setPen(QPen(g.text, 2));
            painter->drawRect(option.rect.adjusted(1, 1, -1, -1));
        }
        painter->restore();
    }

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& /*option*/,
                                 const QModelIndex& /*index*/) const override {
        return {120, kRowHeight};
    }

    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override {
        QWidget* editor = QStyledItemDelegate::createEditor(parent, option, index);
        editor->setAccessibleName(CardList::tr("Name of the card"));
        return editor;
    }

    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& /*index*/) const override {
        editor->setStyleSheet(
            QStringLiteral("QLineEdit { border-radius: 0; padding: 0 8px; "
                           "min-height: 0; } QLineEdit:focus { padding: 0 7px; }"));
        editor->setGeometry(option.rect.adjusted(6, 0, -6, 0));
    }
};

} // namespace

CardList::CardList(workbox::Document& document, QWidget* parent)
    : QListWidget(parent), m_document(document) {
    setAccessibleName(tr("Shade cards"));
    setItemDelegate(new CardRow(this));
    setMouseTracking(true);
    setUniformItemSizes(true);
    setFrameShape(NoFrame);
    setAutoFillBackground(false);
    viewport()->setAutoFillBackground(false);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Maximum);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(ScrollPerPixel);
    setEditTriggers(EditKeyPressed | DoubleClicked);
    setContextMenuPolicy(Qt::CustomContextMenu);
    fill();
    connect(&document, &workbox::Document::cardsChanged, this, &CardList::fill);
    connect(&document, &workbox::Document::threadsChanged, this, &CardList::takeCounts);
    connect(this, &QListWidget::currentRowChanged, this, [this] { Q_EMIT chosen(current()); });
    connect(this, &QListWidget::itemChanged, this, &CardList::rename);
}

void CardList::fill() {
    const QSignalBlocker quiet(this);
    const auto before = current();
    clear();
    auto* all = new QListWidgetItem(tr("All cards"), this);
    all->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    for (const workbox::StoredCard& card : m_document.cards()) {
        auto* item = new QListWidgetItem(card.name, this);
        item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable);
        item->setData(kCardRole, static_cast<qint64>(card.id));
    }
    takeCounts();
    setCurrent(before && m_document.card(*before) != nullptr ? before : std::nullopt);
    updateGeometry();
}

void CardList::takeCounts() {
    const QSignalBlocker quiet(this);
    int sum = 0;
    for (std::size_t i = 0; i < m_document.cards().size(); ++i) {
        const workbox::StoredCard& card = m_document.cards()[i];
        const int count = static_cast<int>(card.threads.size());
        sum += count;
        QListWidgetItem* row = item(static_cast<int>(i) + 1);
        row->setData(kCountRole, count);
        row->setToolTip(card.name);
        row->setData(Qt::AccessibleTextRole, tr("%1, %2").arg(card.name, shownCount(count)));
    }
    item(0)->setData(kCountRole, sum);
    item(0)->setData(Qt::AccessibleTextRole, tr("All cards, %1").arg(shownCount(sum)));
    viewport()->update();
}

std::optional<workbox::CardId> CardList::current() const {
    const QListWidgetItem* item = currentItem();
    if (item == nullptr || !item->data(kCardRole).isValid()) {
        return std::nullopt;
    }
    return workbox::CardId{item->data(kCardRole).toLongLong()};
}

void CardList::setCurrent(std::optional<workbox::CardId> card) {
    const QSignalBlocker quiet(this);
    int row = 0;
    for (int i = 1; card && i < count(); ++i) {
        if (item(i)->data(kCardRole).toLongLong() == static_cast<qint64>(*card)) {
            row = i;
        }
    }
    setCurrentRow(row);
}

void CardList::renameCurrent() {
    if (current()) {
        setFocus();
        editItem(currentItem());
    }
}

void CardList::rename(QListWidgetItem* item) {
    const workbox::CardId id{item->data(kCardRole).toLongLong()};
    const workbox::StoredCard* card = m_document.card(id);
    if (card == nullptr || card->name == item->text()) {
        return;
    }
    // The document fills this list anew, so it must wait until the list's own editor has closed.
    QMetaObject::invokeMethod(
        this,
        [this, id, after = item->text()] {
            try {
                m_document.renameCard(id, after);
            } catch (const base::InputError& error) {
                Q_EMIT refused(error.line());
            }
            fill();
        },
        Qt::QueuedConnection);
}

void CardList::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Delete && state() != EditingState) {
        Q_EMIT deleteAsked();
        return;
    }
    if ((event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) &&
        state() != EditingState) {
        event->accept(); // the card is shown already
        return;
    }
    QListWidget::keyPressEvent(event);
}

QSize CardList::sizeHint() const {
    return {200, kRowHeight * std::clamp(count(), 2, kMostRowsWanted)};
}

QSize CardList::minimumSizeHint() const {
    return {120, kRowHeight * std::clamp(count(), 1, 4)};
}

} // namespace otherskein::app
