#include "app/recolour/thread_change.h"

#include "app/frame/panel.h"
#include "app/recolour/part_words.h"
#include "app/substitute/wanted_field.h"

#include <QCompleter>
#include <QHBoxLayout>
#include <QLabel>

namespace otherskein::app {

ThreadChange::ThreadChange(Session& session, QWidget* parent)
    : QWidget(parent), m_text(new QLabel(tr("Change to"), this)),
      m_field(new WantedField(session, this)) {
    m_field->setAccessibleName(tr("Thread of the chosen row: code or name"));
    m_field->setPlaceholderText(tr("Code or name"));
    m_field->setToolTip(tr("Type a code or a name and press Enter; the row is then locked."));
    m_text->setBuddy(m_field);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(8);
    row->addWidget(m_text);
    row->addWidget(m_field, 1);

    connect(m_field, &WantedField::meant, this, [this](const colourway::Wanted& wanted) {
        m_meant = wanted;
        m_field->showWanted(wanted); // what Enter will settle on
    });
    connect(m_field, &WantedField::nothingMeant, this, [this](const QString& text) {
        m_meant.reset();
        Q_EMIT told(tr("No thread is called \"%1\".").arg(text));
    });
    connect(m_field, &QLineEdit::returnPressed, this, &ThreadChange::take);
    // After the field's own connection, which says what was picked from its list.
    if (auto* completer = m_field->findChild<QCompleter*>()) {
        connect(completer, qOverload<const QModelIndex&>(&QCompleter::activated), this,
                &ThreadChange::take);
    }
    connect(m_field, &QLineEdit::editingFinished, this, [this] {
        // Typing that was left without Enter changes nothing.
        m_meant.reset();
        m_field->showWanted(m_shown);
    });
}

void ThreadChange::show(const ColourwayRow* row) {
    setEnabled(row != nullptr);
    if (row == nullptr || row->parts != m_parts) {
        m_meant.reset();
    }
    m_parts = row != nullptr ? row->parts : std::vector<std::size_t>();
    m_shown = {};
    if (row != nullptr && !row->now.portions.empty()) {
        m_shown.card = row->now.card();
        m_shown.code = codeText(row->now);
        m_shown.name = row->now.name();
        m_shown.lab = row->now.lab;
    }
    m_field->showWanted(m_shown);
}

void ThreadChange::focusField() {
    m_field->setFocus(Qt::ShortcutFocusReason);
    m_field->selectAll();
}

void ThreadChange::take() {
    const auto meant = std::exchange(m_meant, std::nullopt);
    const bool asBefore = meant && meant->code == m_shown.code && meant->card == m_shown.card;
    if (!meant || m_parts.empty() || asBefore) {
        return;
    }
    if (!meant->thread) {
        m_field->showWanted(m_shown);
        Q_EMIT told(tr("A colourway is made of threads: type the code or the name of one."));
        return;
    }
    m_shown = *meant;
    Q_EMIT threadMeant(std::vector(m_parts), *meant);
}

} // namespace otherskein::app
