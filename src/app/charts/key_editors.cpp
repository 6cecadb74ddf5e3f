#include "app/charts/key_editors.h"

#include "app/charts/key_edits.h"
#include "app/charts/symbol_button.h"
#include "app/charts/thread_field.h"
#include "app/frame/chip.h"
#include "app/frame/panel.h"
#include "app/tracing/tracing_edits.h"
#include "chart/mending.h"
#include "thread/thread.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QSpinBox>
#include <QVBoxLayout>

namespace otherskein::app {

KeyEditors::KeyEditors(ChartDesk& desk, const KeyModel& model, QWidget* parent)
    : QWidget(parent), m_desk(desk), m_model(model),
      m_thread(new ThreadField(desk.session(), this)), m_symbol(new SymbolButton(this)),
      m_strands(new QSpinBox(this)), m_replace(new QPushButton(tr("Replace with"), this)),
      m_remove(new QPushButton(tr("Remove"), this)), m_add(new QPushButton(tr("Add a row"), this)),
      m_others(new QMenu(this)), m_hint(noteLabel({}, this)) {
    m_strands->setAccessibleName(tr("Strands of this row"));
    m_strands->setKeyboardTracking(false);
    m_thread->setToolTip(tr("Change the thread of this row (Enter in the key); Up and Down go to "
                            "the rows around it"));
    m_replace->setToolTip(tr("Work all stitches and lines of this row in another one"));
    m_replace->setMenu(m_others);
    m_remove->setToolTip(tr("Remove a row that nothing is worked in (Delete)"));
    m_add->setToolTip(tr("Add a row, then choose its thread"));
    for (QPushButton* button : {m_replace, m_remove, m_add}) {
        button->setAccessibleName(button->text());
        button->setAccessibleDescription(button->toolTip());
        button->setAutoDefault(false);
        button->setStyleSheet(QStringLiteral(
            "QPushButton { padding: 4px 6px; } QPushButton:focus { padding: 3px 5px; }"));
    }

    m_remove->setAccessibleName(tr("Remove row"));
    m_replace->setText(tr("Replace with…")); // its menu needs no arrow besides
    m_replace->setStyleSheet(m_replace->styleSheet() +
                             QStringLiteral("QPushButton::menu-indicator { width: 0; }"));

    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(8);
    grid->setVerticalSpacing(6);
    const auto label = [&](const QString& text, QWidget* buddy) {
        QLabel* one = noteLabel(text, this);
        one->setWordWrap(false);
        one->setBuddy(buddy);
        return one;
    };
    grid->addWidget(label(tr("Thread"), m_thread), 0, 0);
    grid->addWidget(m_thread, 0, 1, 1, 3);
    grid->addWidget(m_hint, 1, 1, 1, 3);
    grid->addWidget(label(tr("Sign"), m_symbol), 2, 0);
    grid->addWidget(m_symbol, 2, 1);
    grid->addWidget(label(tr("Strands"), m_strands), 2, 2, Qt::AlignTrailing | Qt::AlignVCenter);
    grid->addWidget(m_strands, 2, 3);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(6);
    for (QPushButton* button : {m_replace, m_remove, m_add}) {
        buttons->addWidget(button, 1);
    }
    grid->addLayout(buttons, 3, 0, 1, 4);
    grid->setColumnStretch(3, 1);

    connect(m_thread, &ThreadField::meant, this, [this](const colourway::Wanted& thread) {
        if (m_desk.state().row) {
            m_desk.change(withThread(*m_desk.chart(), *m_desk.state().row, thread),
                          tr("Change the thread of %1").arg(nameOfRow()));
        }
    });
    connect(m_thread, &ThreadField::rowAsked, this, [this](int down) {
        const int row = m_desk.state().row ? *m_desk.state().row + down : -1;
        if (row >= 0 && row < m_model.rowCount()) {
            m_desk.with(
                [row](ChartsState& state) { state.row = static_cast<chart::KeyIndex>(row); });
            m_thread->selectAll();
        }
    });
    connect(m_thread, &ThreadField::nothingMeant, this, [this](const QString& typed) {
        Q_EMIT m_desk.refused(tr("No thread of the workbox is called “%1”: type a code, a name or "
                                 "a colour such as #445d76.")
                                  .arg(typed));
    });
    connect(m_symbol, &SymbolButton::picked, this, [this](int symbol) {
        m_desk.change(withSymbol(*m_desk.chart(), *m_desk.state().row, drawing::symbolName(symbol)),
                      tr("Change the sign of %1").arg(nameOfRow()));
    });
    connect(m_strands, &QSpinBox::valueChanged, this, [this](int strands) {
        m_desk.change(withStrands(*m_desk.chart(), *m_desk.state().row, strands),
                      tr("Change the strands of %1").arg(nameOfRow()),
                      QStringLiteral("strands %1").arg(m_round));
    });
    connect(m_remove, &QPushButton::clicked, this, &KeyEditors::removeRow);
    connect(m_add, &QPushButton::clicked, this, &KeyEditors::addRow);
    connect(m_others, &QMenu::aboutToShow, this, &KeyEditors::fillOthers);
    connect(&desk, &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        if (before.row != m_desk.state().row) {
            ++m_round;
            showRow();
        }
    });
    connect(&desk.session(), &Session::cardsChanged, this, &KeyEditors::showHint);
    connect(&model, &QAbstractItemModel::modelReset, this, &KeyEditors::showRow);
    connect(&model, &QAbstractItemModel::dataChanged, this, &KeyEditors::showRow);
    showRow();
}

QString KeyEditors::nameOfRow() const {
    return shownRow(m_desk.chart()->key[*m_desk.state().row]);
}

void KeyEditors::showRow() {
    const auto& chart = m_desk.chart();
    const bool hasRow = chart && m_desk.state().row;
    const int row = hasRow ? int{*m_desk.state().row} : -1;
    for (QWidget* one : std::initializer_list<QWidget*>{m_thread, m_symbol, m_strands}) {
        one->setEnabled(hasRow);
    }
    m_add->setEnabled(chart && chart->key.size() < chart::kMostKeyRows);
    m_replace->setEnabled(hasRow && chart->key.size() > 1);
    m_remove->setEnabled(hasRow);
    showHint();
    const QSignalBlocker quiet(m_strands);
    // Stands for the least value, which is a row's own where there is one.
    m_strands->setSpecialValueText(hasRow ? QString() : QStringLiteral("–"));
    if (!hasRow) {
        m_thread->setPlaceholderText(tr("Choose a row of the key"));
        m_thread->showText({});
        m_symbol->showMark({}, {});
        m_strands->setRange(0, 0);
        return;
    }
    m_thread->setPlaceholderText(tr("Code, name or #hex"));
    const chart::KeyRow& shown = chart->key[static_cast<std::size_t>(row)];
    m_thread->showText(shown.code.isEmpty() && shown.name.isEmpty() ? QString() : shownRow(shown));
    std::vector<int> taken;
    for (int other = 0; other < m_model.rowCount(); ++other) {
        if (other != row && m_model.mark(other).symbol) {
            taken.push_back(*m_model.mark(other).symbol);
        }
    }
    m_symbol->showMark(m_model.mark(row), taken);
    m_strands->setRange(1, thread::limits::kMostStrands);
    m_strands->setValue(shown.strands);
}

/// What a page calls a thread is no thread of the user's until the workbox has it.
void KeyEditors::showHint() {
    const auto& chart = m_desk.chart();
    const auto row = m_desk.state().row;
    const bool traced = chart && m_desk.page() && row && *row < chart->key.size();
    const bool lacks = traced && !isInWorkbox(chart->key[*row], m_desk.session());
    if (lacks) {
        m_hint->setText(chart->key[*row].code.isEmpty()
                            ? tr("No thread yet. Type it above (Enter); Down goes to the next row.")
                            : tr("Not in the workbox. Type its thread above (Enter)."));
    }
    m_hint->setVisible(lacks);
}

void KeyEditors::fillOthers() {
    m_others->clear();
    const chart::Key& key = m_desk.chart()->key;
    for (std::size_t other = 0; other < key.size(); ++other) {
        if (other == m_desk.state().row) {
            continue;
        }
        QPixmap chip(32, 20);
        chip.fill(toQColor(key[other].pixel));
        m_others->addAction(chip, shownRow(key[other]), this,
                            [this, other] { replaceWith(static_cast<chart::KeyIndex>(other)); });
    }
}

void KeyEditors::editThread() {
    m_thread->setFocus(Qt::ShortcutFocusReason);
}

void KeyEditors::addRow() {
    const chart::Chart& chart = *m_desk.chart();
    const auto added = static_cast<chart::KeyIndex>(chart.key.size());
    if (m_desk.change(withNewRow(chart), tr("Add a row to the key"))) {
        m_desk.with([added](ChartsState& state) { state.row = added; });
        editThread();
    }
}

void KeyEditors::removeRow() {
    const chart::Chart& chart = *m_desk.chart();
    const chart::KeyIndex row = *m_desk.state().row;
    if (chart::isUsed(chart, row)) {
        Q_EMIT m_desk.refused(tr("The chart is worked in %1: replace it with another row first, "
                                 "then remove it.")
                                  .arg(nameOfRow()));
        return;
    }
    const QString name = nameOfRow();
    if (m_desk.change(chart::withoutRow(chart, row), tr("Remove %1 from the key").arg(name))) {
        Q_EMIT m_desk.told(tr("%1 is removed from the key. Undo brings it back.").arg(name));
    }
}

void KeyEditors::replaceWith(chart::KeyIndex row) {
    const chart::KeyIndex from = *m_desk.state().row;
    const QString was = nameOfRow();
    const QString is = shownRow(m_desk.chart()->key[row]);
    if (m_desk.change(chart::withRowReplaced(*m_desk.chart(), from, row),
                      tr("Replace %1 with %2").arg(was, is))) {
        m_desk.with([row](ChartsState& state) { state.row = row; });
        Q_EMIT m_desk.told(tr("All of %1 is worked in %2 now.").arg(was, is));
    }
}

} // namespace otherskein::app
