#include "app/threads/threads_middle.h"

#include "app/frame/look.h"
#include "app/threads/add_row.h"
#include "app/threads/chosen_threads.h"
#include "app/threads/import_report.h"
#include "app/threads/table_view.h"
#include "app/threads/thread_model.h"
#include "app/threads/threads_bar.h"
#include "app/threads/wall_view.h"

#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

/// The neutral grey that colours are seen on.
class Surround : public QStackedWidget {
  public:
    using QStackedWidget::QStackedWidget;

  protected:
    void paintEvent(QPaintEvent* /*event*/) override {
        QPainter painter(this);
        painter.fillRect(rect(), greys().surround);
    }
};

} // namespace

template <typename Change>
void ThreadsMiddle::askFor(const Change& change) {
    ThreadsState after = m_model.state();
    change(after);
    Q_EMIT stateAsked(after);
}

ThreadsMiddle::ThreadsMiddle(ThreadModel& model, ChosenThreads& chosen, workbox::Document& document,
                             QWidget* parent)
    : QWidget(parent), m_model(model), m_chosen(chosen), m_document(document),
      m_bar(new ThreadsBar(this)), m_addRow(new AddRow(document, this)),
      m_pages(new Surround(this)), m_wall(new WallView(model, m_pages)),
      m_table(new TableView(model, m_pages)), m_nothing(new QLabel(m_pages)),
      m_report(new ImportReport(this)) {
    m_nothing->setAlignment(Qt::AlignCenter);
    m_nothing->setWordWrap(true);
    m_nothing->setMargin(40);
    m_pages->addWidget(m_wall);
    m_pages->addWidget(m_table);
    m_pages->addWidget(m_nothing);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_bar);
    column->addWidget(m_addRow);
    column->addWidget(m_pages, 1);
    column->addWidget(m_report);
    connectBar();
    connectViews();
}

void ThreadsMiddle::connectBar() {
    connect(m_bar, &ThreadsBar::searchTyped, this, [this](const QString& text) {
        askFor([&](ThreadsState& state) { state.search = text; });
    });
    connect(m_bar, &ThreadsBar::orderChosen, this,
            [this](WallOrder order) { askFor([&](ThreadsState& state) { state.order = order; }); });
    connect(m_bar, &ThreadsBar::viewChosen, this,
            [this](ThreadsView view) { askFor([&](ThreadsState& state) { state.view = view; }); });
    connect(m_bar, &ThreadsBar::addAsked, this, &ThreadsMiddle::openAddRow);
    connect(m_bar, &ThreadsBar::intoThreadsAsked, this, [this] {
        if (m_model.rowCount() == 0) {
            return;
        }
        if (m_chosen.threads().empty()) {
            m_chosen.choose({m_model.item(0).ref});
        }
        view()->setFocus();
    });
    connect(m_bar, &ThreadsBar::chipWidthChosen, this,
            [this](int pixels) { askFor([&](ThreadsState& state) { state.chipWidth = pixels; }); });
    connect(m_addRow, &AddRow::refused, this, &ThreadsMiddle::refused);
    connect(m_addRow, &AddRow::closed, this, [this] { view()->setFocus(); });
}

void ThreadsMiddle::connectViews() {
    for (QAbstractItemView* one :
         {static_cast<QAbstractItemView*>(m_wall), static_cast<QAbstractItemView*>(m_table)}) {
        one->setSelectionModel(m_chosen.selection());
        connect(one, &QWidget::customContextMenuRequested, this, [this, one](const QPoint& at) {
            Q_EMIT menuAsked(one->viewport()->mapToGlobal(at));
        });
    }
    connect(m_wall, &WallView::substituteAsked, this, &ThreadsMiddle::substituteAsked);
    connect(m_wall, &WallView::deleteAsked, this, &ThreadsMiddle::deleteAsked);
    connect(m_wall, &WallView::chipWidthAsked, this,
            [this](int pixels) { askFor([&](ThreadsState& state) { state.chipWidth = pixels; }); });
    connect(m_wall, &WallView::searchTyped, this, [this](const QString& text) {
        focusSearch();
        m_bar->search().setText(text);
    });
    connect(m_table, &TableView::deleteAsked, this, &ThreadsMiddle::deleteAsked);
    connect(m_table, &TableView::sortAsked, this, [this](const std::optional<HeaderSort>& sort) {
        askFor([&](ThreadsState& state) { state.headerSort = sort; });
    });
}

QWidget* ThreadsMiddle::view() const {
    return m_model.state().view == ThreadsView::Wall ? static_cast<QWidget*>(m_wall) : m_table;
}

QString ThreadsMiddle::whyNothing() const {
    if (m_document.cards().empty()) {
        return tr("No shade cards yet. Import one, or make a new card and add its threads.");
    }
    if (m_model.totalCount() == 0) {
        return tr(
            "This card has no threads yet. \"Add thread\", or the Insert key, makes the first.");
    }
    return m_model.state().search.isEmpty()
               ? tr("No thread is left: \"Show\" hides all of them.")
               : tr("No thread has \"%1\" in its code or name.").arg(m_model.state().search);
}

void ThreadsMiddle::showState() {
    m_wall->setChipWidth(m_model.state().chipWidth);
    m_table->takeState();
    const bool nothing = m_model.rowCount() == 0;
    if (nothing) {
        m_nothing->setText(whyNothing());
    }
    m_pages->setCurrentWidget(nothing ? m_nothing : view());
    scrollToAnswer();
    showCounts(static_cast<int>(m_chosen.threads().size()));
}

/// A new search shows its first answers; any other change keeps the chosen thread in sight.
void ThreadsMiddle::scrollToAnswer() {
    ThreadsState now = m_model.state();
    now.chipWidth = m_shown.chipWidth;
    if (now == m_shown) {
        return;
    }
    const bool otherSearch = now.search != m_shown.search || now.card != m_shown.card;
    const QModelIndex current = m_chosen.selection()->currentIndex();
    for (QAbstractItemView* one :
         {static_cast<QAbstractItemView*>(m_wall), static_cast<QAbstractItemView*>(m_table)}) {
        if (otherSearch || !m_chosen.selection()->isSelected(current)) {
            one->scrollToTop();
        } else {
            one->scrollTo(current, QAbstractItemView::PositionAtCenter);
        }
    }
    m_shown = now;
}

void ThreadsMiddle::showCounts(int chosen) {
    m_bar->showState(m_model.state(), m_model.rowCount(), m_model.totalCount(), chosen);
}

void ThreadsMiddle::showReport(const std::vector<ImportOutcome>& outcomes) {
    m_report->show(outcomes);
}

void ThreadsMiddle::openAddRow() {
    m_addRow->open(m_model.state().card);
}

void ThreadsMiddle::focusSearch() {
    m_bar->search().setFocus();
    m_bar->search().selectAll();
}

} // namespace otherskein::app
