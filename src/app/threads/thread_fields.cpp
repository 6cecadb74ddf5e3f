#include "app/threads/thread_fields.h"

#include "app/frame/panel.h"
#include "app/threads/stash_box.h"
#include "app/threads/thread_edits.h"
#include "app/threads/thread_model.h"
#include "base/input_error.h"
#include "base/number.h"

#include <QComboBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>

#include <algorithm>

namespace otherskein::app {

namespace {

using Threads = std::vector<const thread::Thread*>;

/// The text that all threads share, if they do.
std::optional<QString> sharedText(const Threads& threads, Column column) {
    const int index = indexOf(column);
    const QString first = cellEntry(*threads.front(), index);
    const bool same = std::ranges::all_of(
        threads, [&](const thread::Thread* thread) { return cellEntry(*thread, index) == first; });
    return same ? std::optional(first) : std::nullopt;
}

} // namespace

ThreadFields::ThreadFields(const ThreadModel& model, workbox::Document& document, QWidget* parent)
    : QWidget(parent), m_model(model), m_document(document), m_stash(new StashBox(this)) {
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(8);
    grid->setVerticalSpacing(5);
    grid->setColumnStretch(1, 1);
    grid->setColumnMinimumWidth(0, 66);
    const auto line = [&](Column column, const QString& name, bool forSeveral = false) {
        addRow(*grid, name, addLine(column, name), forSeveral);
    };
    m_stash->setAccessibleName(tr("Stash, skeins"));
    connect(m_stash, &StashBox::chosen, this, [this](double stash) {
        commit(Column::Stash, base::formatNumber(stash), QStringLiteral("stash %1").arg(m_round));
    });

    line(Column::Code, tr("Code"));
    line(Column::Name, tr("Name"));
    line(Column::Colour, tr("Colour"));
    grid->addWidget(labRow(), grid->rowCount(), 0, 1, 2);
    addRow(*grid, tr("Stash"), m_stash, true);
    addRow(*grid, tr("Stock"),
           addChoice(Column::Stock, tr("Stock"), static_cast<int>(thread::Stock::Discontinued)),
           true);
    addRow(*grid, tr("Finish"),
           addChoice(Column::Finish, tr("Finish"), static_cast<int>(thread::Finish::Variegated)),
           true);
    line(Column::Fibre, tr("Fibre"), true);
    line(Column::Plies, tr("Plies"));
    line(Column::Length, tr("Length, m"));
    line(Column::Lot, tr("Lot"));
    line(Column::Spread, tr("Spread"));
    line(Column::Note, tr("Note"));
    grid->setRowStretch(grid->rowCount(), 1);
    for (const Line& one : m_lines) {
        if (one.column == Column::Spread) {
            one.editor->setToolTip(tr("How far repeated readings of this colour lay apart, ΔE00"));
        } else if (one.column == Column::Length) {
            one.editor->setToolTip(tr("Length of a skein, metres"));
        }
    }
}

void ThreadFields::addRow(QGridLayout& grid, const QString& label, QWidget* field,
                          bool forSeveral) {
    const int row = grid.rowCount();
    auto* text = noteLabel(label, this);
    text->setWordWrap(false);
    text->setBuddy(field);
    grid.addWidget(text, row, 0);
    grid.addWidget(field, row, 1);
    if (!forSeveral) {
        m_onlyForOne.insert(m_onlyForOne.end(), {text, field});
    }
}

QLineEdit* ThreadFields::addLine(Column column, const QString& name) {
    auto* editor = new QLineEdit(this);
    editor->setAccessibleName(name);
    m_lines.push_back({column, editor});
    connect(editor, &QLineEdit::editingFinished, this, [this, column, editor] {
        if (editor->isModified()) {
            editor->setModified(false);
            commit(column, editor->text());
            fill(); // a refused text gives way to what stands
        }
    });
    return editor;
}

QComboBox* ThreadFields::addChoice(Column column, const QString& name, int words) {
    auto* editor = new QComboBox(this);
    editor->setAccessibleName(name);
    editor->setPlaceholderText(tr("various"));
    for (int i = 0; i <= words; ++i) {
        editor->addItem(column == Column::Finish ? shownWord(static_cast<thread::Finish>(i))
                                                 : shownWord(static_cast<thread::Stock>(i)));
    }
    m_choices.push_back({column, editor});
    connect(editor, &QComboBox::activated, this,
            [this, column, editor] { commit(column, editor->currentText()); });
    return editor;
}

QWidget* ThreadFields::labRow() {
    auto* row = new QWidget(this);
    row->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    auto* across = new QHBoxLayout(row);
    across->setContentsMargins(0, 0, 0, 0);
    across->setSpacing(6);
    for (const Column column : {Column::L, Column::A, Column::B}) {
        auto* label = noteLabel(columnTitle(column), row);
        label->setWordWrap(false);
        QLineEdit* editor = addLine(column, columnTitle(column));
        editor->setStyleSheet(QStringLiteral("QLineEdit { padding: 5px 4px; }"
                                             "QLineEdit:focus { padding: 4px 3px; }"));
        label->setBuddy(editor);
        across->addWidget(label);
        across->addWidget(editor, 1);
    }
    m_onlyForOne.push_back(row);
    return row;
}

void ThreadFields::show(const std::vector<ThreadRef>& threads) {
    if (threads != m_threads) {
        m_threads = threads;
        ++m_round;
    }
    for (QWidget* widget : m_onlyForOne) {
        widget->setVisible(m_threads.size() == 1);
    }
    fill();
}

void ThreadFields::fill() {
    Threads threads;
    for (const ThreadRef& one : m_threads) {
        if (const int row = m_model.rowOf(one); row >= 0) {
            threads.push_back(&m_model.item(row).thread);
        }
    }
    if (threads.empty()) {
        return;
    }
    for (const Line& line : m_lines) {
        if (line.editor->isHidden() || (line.editor->isModified() && line.editor->hasFocus())) {
            continue; // what is being typed must not be lost
        }
        const auto text = sharedText(threads, line.column);
        line.editor->setPlaceholderText(text ? QString() : tr("various"));
        if (line.editor->text() != text.value_or(QString())) {
            line.editor->setText(text.value_or(QString()));
            line.editor->setCursorPosition(0);
        }
    }
    for (const Choice& choice : m_choices) {
        const auto text = sharedText(threads, choice.column);
        choice.editor->setCurrentIndex(text ? choice.editor->findText(*text) : -1);
    }
    const double stash = threads.front()->stash;
    const bool sameStash = std::ranges::all_of(
        threads, [stash](const thread::Thread* thread) { return thread->stash == stash; });
    m_stash->show(sameStash ? std::optional(stash) : std::nullopt);
}

void ThreadFields::commit(Column column, const QString& text, const QString& mergeKey) {
    try {
        changeThreads(
            m_document, m_threads,
            [&](const thread::Thread& before, const QString& card) {
                return withCell(before, indexOf(column), text, card);
            },
            tr("Change %1").arg(columnTitle(column)), mergeKey);
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
        fill();
    }
}

void ThreadFields::focusFirst() {
    m_lines.front().editor->setFocus();
    m_lines.front().editor->selectAll();
}

} // namespace otherskein::app
