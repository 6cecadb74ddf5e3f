#include "app/threads/table_view.h"

#include "app/frame/look.h"
#include "app/threads/thread_cell.h"
#include "app/threads/thread_filter.h"
#include "app/threads/thread_model.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>

namespace otherskein::app {

namespace {

constexpr int kRowHeight = 30;

int widthOf(int column) {
    switch (static_cast<Column>(column)) {
    case Column::Colour:
        return 120;
    case Column::Code:
        return 76;
    case Column::Name:
        return 150;
    case Column::Card:
        return 140;
    case Column::Difference:
    case Column::Plies:
    case Column::Stash:
    case Column::Spread:
        return 64;
    case Column::L:
    case Column::A:
    case Column::B:
        return 54;
    case Column::Length:
        return 82;
    case Column::Fibre:
        return 76;
    case Column::Finish:
        return 96;
    case Column::Stock:
        return 112;
    case Column::Lot:
        return 92;
    case Column::Note:
        return 200;
    }
    return 110; // a column of the card's own
}

} // namespace

TableView::TableView(ThreadModel& model, QWidget* parent) : QTableView(parent), m_model(model) {
    setModel(&model);
    setItemDelegate(new ThreadCell(model, this));
    setAccessibleName(tr("Table of threads"));
    setSelectionMode(ExtendedSelection);
    setSelectionBehavior(SelectRows);
    setEditTriggers(DoubleClicked | EditKeyPressed | AnyKeyPressed);
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollMode(ScrollPerPixel);
    setFrameShape(NoFrame);
    setShowGrid(false);
    setWordWrap(false);
    setCornerButtonEnabled(false);
    setStyleSheet(QStringLiteral("QAbstractScrollArea::corner { background: transparent; }"));
    setTabKeyNavigation(false); // Tab leaves the table, as it leaves every other control
    setContextMenuPolicy(Qt::CustomContextMenu);
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setDefaultSectionSize(kRowHeight);
    QHeaderView* header = horizontalHeader();
    header->setDefaultAlignment(Qt::AlignLeading | Qt::AlignVCenter);
    header->setAccessibleName(tr("Columns; press one to sort by it"));
    header->setSectionsClickable(true);
    header->setHighlightSections(false);
    header->setSectionsMovable(true);
    header->setSortIndicatorShown(true);
    header->setSortIndicatorClearable(true);
    header->setSortIndicator(-1, Qt::AscendingOrder);
    connect(header, &QHeaderView::sortIndicatorChanged, this, [this](int column, Qt::SortOrder to) {
        Q_EMIT sortAsked(column < 0 ? std::nullopt
                                    : std::optional(HeaderSort{column, to == Qt::DescendingOrder}));
    });
    takeState();
}

void TableView::takeState() {
    const ThreadsState& state = m_model.state();
    const bool near = parsedSearch(state.search).near.has_value();
    for (int column = 0; column < m_model.columnCount(); ++column) {
        if (column >= m_sizedColumns) {
            setColumnWidth(column, widthOf(column));
        }
        const bool hidden = (columnIs(column, Column::Difference) && !near) ||
                            (columnIs(column, Column::Card) && state.card);
        setColumnHidden(column, hidden);
    }
    m_sizedColumns = m_model.columnCount();
    const QSignalBlocker quiet(horizontalHeader());
    const HeaderSort none{-1, false};
    const HeaderSort sort = state.headerSort.value_or(none);
    horizontalHeader()->setSortIndicator(sort.column, sort.descending ? Qt::DescendingOrder
                                                                      : Qt::AscendingOrder);
}

void TableView::keyPressEvent(QKeyEvent* event) {
    if (state() != EditingState) {
        switch (event->key()) {
        case Qt::Key_Delete:
            Q_EMIT deleteAsked();
            return;
        case Qt::Key_Return:
        case Qt::Key_Enter:
            if (currentIndex().isValid()) {
                edit(currentIndex());
            }
            return;
        case Qt::Key_Insert:
            event->ignore(); // adds a thread; no key to type with
            return;
        default:
            break;
        }
    }
    QTableView::keyPressEvent(event);
}

void TableView::paintEvent(QPaintEvent* event) {
    {
        QPainter painter(viewport());
        painter.fillRect(event->rect(), greys().surround);
    }
    QTableView::paintEvent(event);
}

} // namespace otherskein::app
