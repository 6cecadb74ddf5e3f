#include "app/threads/card_panel.h"

#include "app/frame/look.h"
#include "app/threads/card_list.h"
#include "app/threads/mark_legend.h"
#include "app/threads/thread_columns.h"

#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

constexpr int kPanelWidth = 232;

} // namespace

CardPanel::CardPanel(workbox::Document& document, QWidget* parent)
    : Panel(PanelEdge::Trailing, parent), m_list(new CardList(document, this)),
      m_onlyStash(new QCheckBox(tr("Only my stash"), this)),
      m_withoutOut(new QCheckBox(tr("Hide what is out of stock"), this)),
      m_finish(new QComboBox(this)), m_rest(new QVBoxLayout) {
    setFixedWidth(kPanelWidth);
    // The list's rows reach from edge to edge of the panel; all else keeps its margin.
    const QMargins margins = column()->contentsMargins();
    column()->setContentsMargins(0, margins.top(), 1, margins.bottom());
    addTitle(tr("Threads"))->setContentsMargins(margins.left(), 0, margins.right(), 2);
    column()->addWidget(m_list);
    m_rest->setContentsMargins(margins.left(), 0, margins.right() - 1, 0);
    m_rest->setSpacing(column()->spacing());
    column()->addLayout(m_rest);
    makeButtons();
    makeFilters();
    addRestHeading(tr("Marks on a chip"));
    m_rest->addWidget(new MarkLegend(this));
    column()->addStretch(1);
    connect(m_list, &CardList::chosen, this, [this](std::optional<workbox::CardId> card) {
        takeCard();
        Q_EMIT cardChosen(card);
    });
    connect(m_list, &CardList::deleteAsked, this, &CardPanel::deleteCardAsked);
    takeCard();
}

void CardPanel::makeButtons() {
    struct Job {
        QString text;
        QString toolTip;
        bool needsCard;
        std::function<void()> start;
    };
    const Job jobs[] = {
        {tr("Import…"), tr("Read shade cards from CSV or CGATS files"), false,
         [this] { Q_EMIT importAsked(); }},
        {tr("New card"), tr("Begin an empty shade card"), false, [this] { Q_EMIT newCardAsked(); }},
        {tr("Export…"), tr("Write this card as a CSV file"), true,
         [this] { Q_EMIT exportAsked(); }},
        {tr("Rename"), tr("Rename this card (F2)"), true, [this] { m_list->renameCurrent(); }},
        {tr("Delete card"), tr("Delete this card with its threads; undo brings it back"), true,
         [this] { Q_EMIT deleteCardAsked(); }}};
    auto* grid = new QGridLayout;
    grid->setSpacing(6);
    int place = 1; // Import stands alone, over both columns
    for (const Job& job : jobs) {
        auto* action = new QAction(job.text, this);
        action->setToolTip(job.toolTip);
        connect(action, &QAction::triggered, this, job.start);
        auto* button = new QPushButton(job.text, this);
        button->setToolTip(job.toolTip);
        button->setAccessibleName(job.text);
        button->setAccessibleDescription(job.toolTip);
        button->setStyleSheet(QStringLiteral("QPushButton { padding: 4px 6px; }"
                                             "QPushButton:focus { padding: 3px 5px; }"));
        connect(button, &QPushButton::clicked, action, &QAction::trigger);
        connect(action, &QAction::enabledChanged, button, &QWidget::setEnabled);
        if (job.needsCard) {
            m_cardActions.push_back(action);
        }
        m_list->addAction(action);
        const bool first = place == 1;
        grid->addWidget(button, place / 2, first ? 0 : place % 2, 1, first ? 2 : 1);
        ++place;
    }
    m_rest->addLayout(grid);
    connect(m_list, &QWidget::customContextMenuRequested, this, [this](const QPoint& at) {
        QMenu menu;
        menu.addActions(m_list->actions());
        menu.exec(m_list->viewport()->mapToGlobal(at));
    });
}

void CardPanel::addRestHeading(const QString& text) {
    QLabel* heading = headingLabel(text, this);
    heading->setContentsMargins(0, 8, 0, 0);
    m_rest->addWidget(heading);
}

void CardPanel::makeFilters() {
    addRestHeading(tr("Show"));
    m_rest->addWidget(m_onlyStash);
    m_rest->addWidget(m_withoutOut);
    m_rest->addWidget(m_finish);
    m_onlyStash->setAccessibleName(m_onlyStash->text());
    m_withoutOut->setAccessibleName(m_withoutOut->text());
    m_finish->setAccessibleName(tr("Finish to show"));
    m_finish->addItem(tr("Any finish"));
    for (int i = 1; i <= static_cast<int>(thread::Finish::Variegated); ++i) {
        m_finish->addItem(tr("Only %1").arg(shownWord(static_cast<thread::Finish>(i))));
    }
    const auto choose = [this] {
        const int finish = m_finish->currentIndex();
        Q_EMIT filterChosen(m_onlyStash->isChecked(), m_withoutOut->isChecked(),
                            finish > 0 ? std::optional(static_cast<thread::Finish>(finish))
                                       : std::nullopt);
    };
    connect(m_onlyStash, &QCheckBox::toggled, this, choose);
    connect(m_withoutOut, &QCheckBox::toggled, this, choose);
    connect(m_finish, &QComboBox::currentIndexChanged, this, choose);
}

void CardPanel::takeCard() {
    for (QAction* action : m_cardActions) {
        action->setEnabled(m_list->current().has_value());
    }
}

void CardPanel::showState(const ThreadsState& state) {
    const QSignalBlocker quiet[] = {QSignalBlocker(m_onlyStash), QSignalBlocker(m_withoutOut),
                                    QSignalBlocker(m_finish)};
    m_list->setCurrent(state.card);
    m_onlyStash->setChecked(state.onlyStash);
    m_withoutOut->setChecked(state.withoutOut);
    m_finish->setCurrentIndex(state.finish ? static_cast<int>(*state.finish) : 0);
    takeCard();
}

} // namespace otherskein::app
