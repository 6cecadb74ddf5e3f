#include "app/threads/threads_place.h"

#include "app/threads/card_list.h"
#include "app/threads/card_panel.h"
#include "app/threads/chosen_threads.h"
#include "app/threads/thread_edits.h"
#include "app/threads/thread_fields.h"
#include "app/threads/thread_model.h"
#include "app/threads/thread_panel.h"
#include "app/threads/threads_dialogs.h"
#include "app/threads/threads_middle.h"
#include "base/input_error.h"

#include <QHBoxLayout>
#include <QMenu>
#include <QShortcut>

#include <algorithm>

namespace otherskein::app {

struct ThreadsPlace::Private {
    Session& session;
    ThreadModel* model;
    ChosenThreads* chosen;
    CardPanel* cards;
    ThreadsMiddle* middle;
    ThreadPanel* thread;
    std::optional<SameName> sameName;
};

ThreadsPlace::ThreadsPlace(Session& session, QWidget* parent) : QWidget(parent) {
    workbox::Document& document = session.document();
    auto* model = new ThreadModel(document, this);
    auto* chosen = new ChosenThreads(*model, this);
    m_private =
        std::make_unique<Private>(Private{session, model, chosen, new CardPanel(document, this),
                                          new ThreadsMiddle(*model, *chosen, document, this),
                                          new ThreadPanel(*model, document, this), std::nullopt});
    auto* across = new QHBoxLayout(this);
    across->setContentsMargins(0, 0, 0, 0);
    across->setSpacing(0);
    across->addWidget(m_private->cards);
    across->addWidget(m_private->middle, 1);
    across->addWidget(m_private->thread);
    connectParts();
    setState(state());
}

ThreadsPlace::~ThreadsPlace() = default;

void ThreadsPlace::resizeEvent(QResizeEvent* event) {
    // In a small window the wall needs the room; the table edits as well as the panel does.
    constexpr int kRoomForPanel = 960;
    m_private->thread->setVisible(width() >= kRoomForPanel);
    QWidget::resizeEvent(event);
}

void ThreadsPlace::connectParts() {
    const Private& d = *m_private;
    connect(d.model, &ThreadModel::refused, this, &ThreadsPlace::refused);
    connect(d.model, &ThreadModel::rearranged, this, [this] {
        m_private->cards->showState(state());
        m_private->middle->showState();
    });
    connect(d.model, &ThreadModel::dataChanged, this, &ThreadsPlace::showChosen);
    connect(d.chosen, &ChosenThreads::changed, this, &ThreadsPlace::showChosen);

    connect(d.cards, &CardPanel::cardChosen, this, [this](std::optional<workbox::CardId> card) {
        ThreadsState after = state();
        after.card = card;
        if (after.headerSort && after.headerSort->column >= kFixedColumns) {
            after.headerSort.reset(); // a column of the other card
        }
        setState(after);
    });
    connect(d.cards, &CardPanel::filterChosen, this,
            [this](bool onlyStash, bool withoutOut, std::optional<thread::Finish> finish) {
                ThreadsState after = state();
                after.onlyStash = onlyStash;
                after.withoutOut = withoutOut;
                after.finish = finish;
                setState(after);
            });
    connect(d.cards, &CardPanel::importAsked, this, &ThreadsPlace::askForFiles);
    connect(d.cards, &CardPanel::newCardAsked, this, &ThreadsPlace::newCard);
    connect(d.cards, &CardPanel::exportAsked, this, &ThreadsPlace::askForExport);
    connect(d.cards, &CardPanel::deleteCardAsked, this, &ThreadsPlace::deleteCard);
    connect(&d.cards->list(), &CardList::refused, this, &ThreadsPlace::refused);

    connect(d.middle, &ThreadsMiddle::stateAsked, this, &ThreadsPlace::setState);
    connect(d.middle, &ThreadsMiddle::substituteAsked, this, &ThreadsPlace::findSubstitute);
    connect(d.middle, &ThreadsMiddle::deleteAsked, this, &ThreadsPlace::deleteChosen);
    connect(d.middle, &ThreadsMiddle::menuAsked, this, &ThreadsPlace::openMenu);
    connect(d.middle, &ThreadsMiddle::refused, this, &ThreadsPlace::refused);

    connect(d.thread, &ThreadPanel::substituteAsked, this, &ThreadsPlace::findSubstitute);
    connect(&d.thread->fields(), &ThreadFields::refused, this, &ThreadsPlace::refused);

    auto* insert = new QShortcut(QKeySequence(Qt::Key_Insert), this);
    insert->setContext(Qt::WidgetWithChildrenShortcut);
    connect(insert, &QShortcut::activated, d.middle, &ThreadsMiddle::openAddRow);
}

const ThreadsState& ThreadsPlace::state() const {
    return m_private->model->state();
}

ThreadModel& ThreadsPlace::model() const {
    return *m_private->model;
}

ChosenThreads& ThreadsPlace::chosen() const {
    return *m_private->chosen;
}

void ThreadsPlace::setState(const ThreadsState& wanted) {
    ThreadsState after = wanted;
    after.chipWidth = std::clamp(after.chipWidth, kLeastChipWidth, kMostChipWidth);
    m_private->model->setState(after);
    m_private->cards->showState(after);
    m_private->middle->showState();
    showChosen();
}

void ThreadsPlace::showChosen() {
    const std::vector<ThreadRef> threads = m_private->chosen->threads();
    m_private->thread->show(threads);
    m_private->middle->showCounts(static_cast<int>(threads.size()));
}

void ThreadsPlace::findSubstitute() {
    const auto ref = m_private->chosen->only();
    if (!ref) {
        return;
    }
    const ThreadItem& item = m_private->model->item(m_private->model->rowOf(*ref));
    Session& session = m_private->session;
    if (const auto wanted = session.wantedThread(item.card, item.thread.code)) {
        session.setWanted(*wanted);
        Q_EMIT session.substituteAsked();
    }
}

void ThreadsPlace::deleteChosen() {
    const std::vector<ThreadRef> threads = m_private->chosen->threads();
    if (threads.empty()) {
        return;
    }
    try {
        removeThreads(m_private->session.document(), threads);
        Q_EMIT told(tr("%1 deleted. Undo brings back what was deleted.")
                        .arg(shownCount(static_cast<int>(threads.size()))));
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

void ThreadsPlace::deleteCard() {
    workbox::Document& document = m_private->session.document();
    const workbox::StoredCard* card = state().card ? document.card(*state().card) : nullptr;
    if (card == nullptr) {
        return;
    }
    const QString name = card->name;
    try {
        document.removeCard(card->id);
        Q_EMIT told(tr("The card %1 is deleted. Undo brings it back.").arg(name));
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

void ThreadsPlace::newCard() {
    try {
        ThreadsState after = state();
        after.card = m_private->session.document().addCard({tr("New card"), {}, {}});
        after.search.clear();
        setState(after);
        m_private->cards->list().renameCurrent();
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

void ThreadsPlace::openMenu(const QPoint& globalPosition) {
    const auto count = m_private->chosen->threads().size();
    QMenu menu;
    QAction* substitute =
        menu.addAction(tr("Find a substitute"), this, &ThreadsPlace::findSubstitute);
    substitute->setEnabled(count == 1);
    menu.addSeparator();
    menu.addAction(tr("Add thread"), m_private->middle, &ThreadsMiddle::openAddRow);
    QAction* remove = menu.addAction(tr("Delete"), this, &ThreadsPlace::deleteChosen);
    remove->setEnabled(count > 0);
    menu.exec(globalPosition);
}

void ThreadsPlace::askForFiles() {
    const QStringList paths = askForCardFiles(this);
    if (!paths.isEmpty()) {
        importFiles(paths);
    }
}

void ThreadsPlace::setSameName(std::optional<SameName> answer) {
    m_private->sameName = answer;
}

void ThreadsPlace::importFiles(const QStringList& paths) {
    const std::vector<ImportOutcome> outcomes =
        importCards(m_private->session.document(), paths, [this](const QStringList& names) {
            return m_private->sameName ? *m_private->sameName : askAboutSameName(this, names);
        });
    m_private->middle->showReport(outcomes);
    QStringList refusals;
    ThreadsState after = state();
    for (const ImportOutcome& one : outcomes) {
        if (one.what == ImportOutcome::What::Refused) {
            refusals.push_back(one.refusal);
        }
        if (one.card) {
            after.card = outcomes.size() == 1 ? one.card : std::nullopt;
            after.search.clear();
        }
    }
    setState(after);
    if (!refusals.isEmpty()) {
        // One line has room for one reason; the report has them all.
        Q_EMIT refused(refusals.size() == 1 ? refusals.front() : summaryOf(outcomes));
    } else {
        Q_EMIT told(summaryOf(outcomes));
    }
}

void ThreadsPlace::askForExport() {
    const workbox::Document& document = m_private->session.document();
    const workbox::StoredCard* card = state().card ? document.card(*state().card) : nullptr;
    if (card == nullptr) {
        return;
    }
    const QString path = askForExportFile(this, card->name);
    if (path.isEmpty()) {
        return;
    }
    try {
        exportCard(document, card->id, path);
        Q_EMIT told(tr("The card %1 is written to %2.").arg(card->name, path));
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

void ThreadsPlace::focusSearch() {
    m_private->middle->focusSearch();
}

} // namespace otherskein::app
