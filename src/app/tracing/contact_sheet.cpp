#include "app/tracing/contact_sheet.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/tracing/choice_strip.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QListView>
#include <QMenu>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

ContactSheet::ContactSheet(TracedDesk& traced, QWidget* parent)
    : QWidget(parent), m_traced(traced), m_model(new SheetModel(traced, this)),
      m_list(new QListView(this)), m_title(new QLabel(this)), m_note(noteLabel({}, this)),
      m_accept(new QPushButton(tr("Accept"), this)),
      m_move(new QPushButton(tr("Move to another symbol…"), this)),
      m_split(new QPushButton(tr("Make a new symbol"), this)),
      m_join(new QPushButton(tr("Join symbols…"), this)) {
    m_title->setFont(scaledFont(1, 600));
    m_title->setTextFormat(Qt::PlainText);
    m_title->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_list->setModel(m_model);
    m_list->setItemDelegate(new SheetDelegate(*m_model, this));
    m_list->setAccessibleName(tr("Cells of this symbol as they are printed"));
    // Rows that wrap, not the icon view, whose places each have a record of their own.
    m_list->setViewMode(QListView::ListMode);
    m_list->setFlow(QListView::LeftToRight);
    m_list->setWrapping(true);
    m_list->setResizeMode(QListView::Adjust);
    m_list->setUniformItemSizes(true);
    m_list->setSelectionMode(QAbstractItemView::ExtendedSelection);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->installEventFilter(this);
    m_list->viewport()->setAutoFillBackground(false);
    m_list->setStyleSheet(QStringLiteral("QListView { background: transparent; }"));
    m_accept->setToolTip(tr("The selected cells are right as they are (A)"));
    m_move->setToolTip(tr("Work the selected cells in another row of the key (M)"));
    m_split->setToolTip(tr("Part the selected cells off as a row of their own (P)"));
    m_join->setToolTip(tr("This symbol and another are the same (J)"));
    for (QPushButton* button : {m_accept, m_move, m_split, m_join}) {
        button->setAccessibleName(button->text());
        button->setAutoDefault(false);
        button->setStyleSheet(QStringLiteral("QPushButton { padding: 5px 8px; }"
                                             "QPushButton:focus { padding: 4px 7px; }"
                                             "QPushButton::menu-indicator { width: 0; }"));
    }
    m_accept->setAccessibleName(tr("Accept the selected cells"));
    layOut();
    connectParts();
    setFocusProxy(m_list);
    showState();
}

void ContactSheet::layOut() {
    auto* bar = new Panel(PanelEdge::Below, this);
    bar->column()->setContentsMargins(16, 10, 16, 10);
    auto* words = new QVBoxLayout;
    words->setSpacing(1);
    words->addWidget(m_title);
    words->addWidget(m_note);
    bar->column()->addLayout(words);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(6);
    for (QPushButton* button : {m_accept, m_move, m_split, m_join}) {
        buttons->addWidget(button);
    }
    buttons->addStretch(1);
    bar->column()->addLayout(buttons);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(bar);
    auto* around = new QHBoxLayout;
    around->setContentsMargins(11, 8, 0, 0);
    around->addWidget(m_list);
    column->addLayout(around, 1);
}

void ContactSheet::connectParts() {
    auto* others = new QMenu(m_move);
    m_move->setMenu(others);
    connect(others, &QMenu::aboutToShow, this,
            [this, others] { fillRows(*others, &ContactSheet::moveTo); });
    auto* joins = new QMenu(m_join);
    m_join->setMenu(joins);
    connect(joins, &QMenu::aboutToShow, this,
            [this, joins] { fillRows(*joins, &ContactSheet::joinWith); });
    connect(m_accept, &QPushButton::clicked, this, &ContactSheet::acceptSelected);
    connect(m_split, &QPushButton::clicked, this, [this] { m_traced.splitOff(selected()); });
    connect(m_list, &QListView::doubleClicked, this,
            [this](const QModelIndex& index) { Q_EMIT cellAsked(m_model->cell(index.row())); });
    connect(m_list->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &ContactSheet::showState);
    connect(m_model, &QAbstractItemModel::modelReset, this, &ContactSheet::showState);
    connect(&m_traced.desk(), &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        const ChartsState& now = m_traced.desk().state();
        if (now.pageView == PageView::Symbols && !now.row && before.pageView != now.pageView &&
            m_traced.desk().chart() && !m_traced.desk().chart()->key.empty()) {
            m_traced.desk().with([](ChartsState& state) { state.row = chart::KeyIndex{0}; });
            return;
        }
        showState();
    });
    connect(&m_traced.desk(), &ChartDesk::chartChanged, this, &ContactSheet::showState);
}

std::vector<chart::Cell> ContactSheet::selected() const {
    std::vector<int> rows;
    for (const QModelIndex& index : m_list->selectionModel()->selectedIndexes()) {
        rows.push_back(index.row());
    }
    std::ranges::sort(rows);
    std::vector<chart::Cell> cells;
    for (const int row : rows) {
        cells.push_back(m_model->cell(row));
    }
    return cells;
}

void ContactSheet::showState() {
    const ChartDesk& desk = m_traced.desk();
    const auto row = desk.state().row;
    const bool has = desk.chart() && row && *row < desk.chart()->key.size();
    const int chosen = static_cast<int>(m_list->selectionModel()->selectedIndexes().size());
    if (has) {
        m_title->setText(
            tr("%1: %Ln cells", nullptr, m_model->rowCount()).arg(signOf(desk.chart()->key[*row])));
    } else {
        m_title->setText(tr("Choose a symbol in the key"));
    }
    m_note->setText(chosen == 0 ? tr("Least sure first. Select those that are of another symbol.")
                                : tr("%Ln cells are selected", nullptr, chosen));
    const bool others = has && desk.chart()->key.size() > 1;
    m_accept->setEnabled(chosen > 0);
    m_move->setEnabled(chosen > 0 && others);
    m_split->setEnabled(chosen > 0 && chosen < m_model->rowCount());
    m_join->setEnabled(others);
}

void ContactSheet::acceptSelected() {
    const int next = m_list->currentIndex().row();
    m_traced.accept(selected());
    m_list->setCurrentIndex(m_model->index(std::min(next, m_model->rowCount() - 1)));
}

void ContactSheet::moveTo(chart::KeyIndex row) {
    m_traced.change(selected(), row);
}

void ContactSheet::joinWith(chart::KeyIndex row) {
    if (const auto shown = m_traced.desk().state().row) {
        m_traced.join(*shown, row);
    }
}

void ContactSheet::fillRows(QMenu& menu, void (ContactSheet::*take)(chart::KeyIndex)) {
    menu.clear();
    const chart::Key& key = m_traced.desk().chart()->key;
    const std::vector<drawing::Mark> marks = drawing::marksOf(key);
    for (std::size_t other = 0; other < key.size(); ++other) {
        if (other != m_traced.desk().state().row) {
            menu.addAction(
                markIcon(key[other], marks[other], devicePixelRatioF()), signOf(key[other]), this,
                [this, take, other] { (this->*take)(static_cast<chart::KeyIndex>(other)); });
        }
    }
    if (take == &ContactSheet::moveTo) {
        menu.addSeparator();
        menu.addAction(tr("Bare ground"), this, [this] { moveTo(chart::kBare); });
    }
}

bool ContactSheet::eventFilter(QObject* watched, QEvent* event) {
    if (watched != m_list || event->type() != QEvent::KeyPress) {
        return QWidget::eventFilter(watched, event);
    }
    const auto* key = static_cast<QKeyEvent*>(event);
    if (key->modifiers() != Qt::NoModifier) {
        return false;
    }
    switch (key->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (m_list->currentIndex().isValid()) {
            Q_EMIT cellAsked(m_model->cell(m_list->currentIndex().row()));
        }
        return true;
    case Qt::Key_A:
        m_accept->click();
        return true;
    case Qt::Key_M:
        m_move->click();
        return true;
    case Qt::Key_P:
        m_split->click();
        return true;
    case Qt::Key_J:
        m_join->click();
        return true;
    default:
        return false;
    }
}

} // namespace otherskein::app
