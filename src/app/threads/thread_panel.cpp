#include "app/threads/thread_panel.h"

#include "app/frame/look.h"
#include "app/threads/big_chip.h"
#include "app/threads/thread_fields.h"
#include "app/threads/thread_model.h"

#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kPanelWidth = 268;
constexpr std::size_t kMostStripes = 24;

} // namespace

ThreadPanel::ThreadPanel(const ThreadModel& model, workbox::Document& document, QWidget* parent)
    : Panel(PanelEdge::Leading, parent), m_model(model), m_chip(new BigChip(this)),
      m_code(titleLabel({}, this)), m_name(new QLabel(this)), m_facts(noteLabel({}, this)),
      m_help(noteLabel(tr("Choose a thread to see and edit all that is known of it. Choose several "
                          "with Shift or Control to edit their stash and stock at once."),
                       this)),
      m_scroll(new QScrollArea(this)), m_fields(new ThreadFields(model, document, m_scroll)),
      m_substitute(new QPushButton(tr("Find a substitute"), this)),
      m_caution(noteLabel(tr("The skein in hand decides: compare in the light where the piece will "
                             "hang."),
                          this)) {
    setFixedWidth(kPanelWidth);
    column()->setContentsMargins(16, 16, 16, 14);
    m_name->setWordWrap(true);
    m_name->setTextFormat(Qt::PlainText);
    m_code->setTextFormat(Qt::PlainText);
    m_facts->setTextFormat(Qt::PlainText);
    for (QLabel* label : {m_code, m_name, m_facts}) {
        label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    }
    m_scroll->setWidget(m_fields);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->viewport()->setAutoFillBackground(false);
    m_fields->setAutoFillBackground(false);
    m_substitute->setProperty("strong", true);
    m_substitute->setAccessibleName(tr("Find a substitute"));
    m_substitute->setToolTip(tr("Look for threads that could stand in for this one (Enter)"));

    column()->addWidget(m_help);
    column()->addWidget(m_chip);
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    words->addWidget(m_code);
    words->addWidget(m_name);
    words->addWidget(m_facts);
    column()->addLayout(words);
    column()->addSpacing(2);
    column()->addWidget(m_scroll, 1);
    column()->addWidget(m_substitute);
    column()->addWidget(m_caution);
    column()->addStretch();
    connect(m_substitute, &QPushButton::clicked, this, &ThreadPanel::substituteAsked);
    show({});
}

void ThreadPanel::show(const std::vector<ThreadRef>& threads) {
    const bool any = !threads.empty();
    const bool one = threads.size() == 1;
    m_help->setVisible(!any);
    for (QWidget* widget : {static_cast<QWidget*>(m_chip), static_cast<QWidget*>(m_code),
                            static_cast<QWidget*>(m_facts), static_cast<QWidget*>(m_scroll)}) {
        widget->setVisible(any);
    }
    m_name->setVisible(one);
    m_substitute->setVisible(one);
    m_caution->setVisible(one);
    m_fields->show(threads);
    if (one) {
        showOne(m_model.item(m_model.rowOf(threads.front())));
    } else if (any) {
        showSeveral(threads);
    }
}

void ThreadPanel::showOne(const ThreadItem& item) {
    m_chip->show({QColor(item.shown)});
    m_code->setText(item.thread.code);
    m_name->setText(item.thread.name);
    m_name->setVisible(!item.thread.name.isEmpty());
    m_facts->setText(item.card);
}

void ThreadPanel::showSeveral(const std::vector<ThreadRef>& threads) {
    std::vector<QColor> colours;
    double stash = 0;
    for (const ThreadRef& one : threads) {
        const ThreadItem& item = m_model.item(m_model.rowOf(one));
        if (colours.size() < kMostStripes) {
            colours.emplace_back(item.shown);
        }
        stash += item.thread.stash;
    }
    m_chip->show(std::move(colours));
    m_code->setText(shownCount(static_cast<int>(threads.size())));
    thread::Thread sum;
    sum.stash = stash;
    m_facts->setText(
        stash > 0
            ? tr("%1 together. What you change here changes for all of them.").arg(shownStash(sum))
            : tr("What you change here changes for all of them."));
}

} // namespace otherskein::app
