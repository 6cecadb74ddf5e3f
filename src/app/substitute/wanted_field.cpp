#include "app/substitute/wanted_field.h"

#include "app/frame/chip.h"
#include "colour/conversion.h"
#include "colourway/wanted_search.h"

#include <QAbstractItemView>
#include <QCompleter>
#include <QKeyEvent>
#include <QPainter>
#include <QStandardItemModel>

namespace otherskein::app {

namespace {

constexpr std::size_t kMostOffers = 12;
constexpr int kPopupWidth = 380; // a code, a name and a card

QString labelOf(const colourway::Wanted& wanted) {
    return wanted.code.isEmpty() ? wanted.name : wanted.code + QStringLiteral("  ") + wanted.name;
}

QIcon chipIcon(const colour::Lab& lab) {
    QPixmap pixmap(32, 20);
    pixmap.fill(toQColor(colour::srgbFromLab(lab)));
    return {pixmap};
}

} // namespace

WantedField::WantedField(Session& session, QWidget* parent)
    : QLineEdit(parent), m_session(session), m_completer(new QCompleter(this)),
      m_offers(new QStandardItemModel(this)) {
    setPlaceholderText(tr("Code, name or #hex"));
    setAccessibleName(tr("Wanted thread: code, name or #hex"));
    setClearButtonEnabled(false);
    m_completer->setModel(m_offers);
    m_completer->setCompletionMode(QCompleter::UnfilteredPopupCompletion);
    m_completer->setMaxVisibleItems(int(kMostOffers));
    m_completer->setWidget(this);
    m_completer->popup()->setMinimumWidth(kPopupWidth);
    connect(this, &QLineEdit::textEdited, this, &WantedField::look);
    connect(this, &QLineEdit::returnPressed, this, &WantedField::settle);
    connect(m_completer, qOverload<const QModelIndex&>(&QCompleter::activated), this,
            [this](const QModelIndex& index) {
                const auto row = static_cast<std::size_t>(index.row());
                if (row < m_offered.size()) {
                    Q_EMIT meant(m_offered[row]);
                    settle();
                }
            });
}

void WantedField::showWanted(const colourway::Wanted& wanted) {
    m_settled = labelOf(wanted);
    m_shown = wanted;
    if (!isModified() || !hasFocus()) {
        settle();
    }
}

void WantedField::look(const QString& text) {
    if (!m_before) {
        m_before = m_shown;
    }
    const auto& cards = *m_session.cards();
    m_offered = colourway::threadsMeant(cards, text, kMostOffers);
    m_offers->clear();
    for (const colourway::Wanted& one : m_offered) {
        m_offers->appendRow(new QStandardItem(chipIcon(one.lab),
                                              labelOf(one) + QStringLiteral("  ·  ") + one.card));
    }
    if (m_offered.size() > 1) {
        m_completer->complete();
    } else {
        m_completer->popup()->hide();
    }
    if (const auto wanted = colourway::wantedMeant(cards, text)) {
        Q_EMIT meant(*wanted);
    } else if (!text.trimmed().isEmpty()) {
        Q_EMIT nothingMeant(text.trimmed());
    }
}

void WantedField::settle() {
    m_completer->popup()->hide();
    setText(m_settled);
    setModified(false);
    m_before.reset();
    if (hasFocus()) {
        selectAll();
    }
}

void WantedField::giveUp() {
    const auto before = m_before;
    if (before) {
        Q_EMIT meant(*before);
    }
    settle();
}

void WantedField::focusInEvent(QFocusEvent* event) {
    QLineEdit::focusInEvent(event);
    if (event->reason() != Qt::PopupFocusReason) {
        selectAll();
    }
}

void WantedField::focusOutEvent(QFocusEvent* event) {
    QLineEdit::focusOutEvent(event);
    if (event->reason() != Qt::PopupFocusReason) {
        settle();
    }
}

void WantedField::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && isModified()) {
        giveUp();
        return;
    }
    QLineEdit::keyPressEvent(event);
}

} // namespace otherskein::app
