#include "app/charts/thread_field.h"

#include "app/frame/chip.h"
#include "colour/conversion.h"
#include "colourway/wanted_search.h"

#include <QAbstractItemView>
#include <QCompleter>
#include <QKeyEvent>
#include <QPixmap>
#include <QStandardItemModel>

namespace otherskein::app {

namespace {

constexpr std::size_t kMostOffers = 10;
constexpr int kPopupWidth = 340; // a code, a name and a card

QIcon chipIcon(const colour::Lab& lab) {
    QPixmap pixmap(32, 20);
    pixmap.fill(toQColor(colour::srgbFromLab(lab)));
    return {pixmap};
}

} // namespace

ThreadField::ThreadField(Session& session, QWidget* parent)
    : QLineEdit(parent), m_session(session), m_completer(new QCompleter(this)),
      m_offers(new QStandardItemModel(this)) {
    setPlaceholderText(tr("Code, name or #hex"));
    setAccessibleName(tr("Thread of this row: code, name or #hex"));
    m_completer->setModel(m_offers);
    m_completer->setCompletionMode(QCompleter::UnfilteredPopupCompletion);
    m_completer->setMaxVisibleItems(static_cast<int>(kMostOffers));
    m_completer->setWidget(this);
    m_completer->popup()->setMinimumWidth(kPopupWidth);
    m_completer->popup()->setAccessibleName(tr("Threads that fit"));
    connect(this, &QLineEdit::textEdited, this, &ThreadField::look);
    connect(this, &QLineEdit::returnPressed, this, &ThreadField::take);
    connect(m_completer, qOverload<const QModelIndex&>(&QCompleter::activated), this,
            [this](const QModelIndex& index) {
                const auto row = static_cast<std::size_t>(index.row());
                if (row < m_offered.size()) {
                    const colourway::Wanted thread = m_offered[row];
                    settle();
                    Q_EMIT meant(thread);
                }
            });
}

void ThreadField::showText(const QString& text) {
    m_settled = text;
    settle();
}

void ThreadField::look(const QString& text) {
    m_offered = colourway::threadsMeant(*m_session.cards(), text, kMostOffers);
    m_offers->clear();
    for (const colourway::Wanted& one : m_offered) {
        m_offers->appendRow(new QStandardItem(
            chipIcon(one.lab), QStringLiteral("%1  %2  ·  %3").arg(one.code, one.name, one.card)));
    }
    if (m_offered.empty()) {
        m_completer->popup()->hide();
    } else {
        // Ends where the field ends: that is beside the window's edge.
        const int from = isRightToLeft() ? 0 : width() - kPopupWidth;
        m_completer->complete(QRect(from, 0, kPopupWidth, height()));
    }
}

void ThreadField::take() {
    if (!isModified()) {
        return;
    }
    const QString typed = text().trimmed();
    const auto thread = colourway::wantedMeant(*m_session.cards(), typed);
    settle();
    if (thread) {
        Q_EMIT meant(*thread);
    } else if (!typed.isEmpty()) {
        Q_EMIT nothingMeant(typed);
    }
}

void ThreadField::settle() {
    m_completer->popup()->hide();
    setText(m_settled);
    setModified(false);
    setCursorPosition(0);
    if (hasFocus()) {
        selectAll();
    }
}

bool ThreadField::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride && isModified() &&
        static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        event->accept();
        return true;
    }
    return QLineEdit::event(event);
}

void ThreadField::focusInEvent(QFocusEvent* event) {
    QLineEdit::focusInEvent(event);
    if (event->reason() != Qt::PopupFocusReason) {
        selectAll();
    }
}

void ThreadField::focusOutEvent(QFocusEvent* event) {
    QLineEdit::focusOutEvent(event);
    if (event->reason() != Qt::PopupFocusReason) {
        settle();
    }
}

void ThreadField::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && isModified()) {
        settle();
        return;
    }
    if (!isModified() && (event->key() == Qt::Key_Up || event->key() == Qt::Key_Down)) {
        Q_EMIT rowAsked(event->key() == Qt::Key_Down ? 1 : -1);
        return;
    }
    QLineEdit::keyPressEvent(event);
}

} // namespace otherskein::app
