#include "app/tracing/contact_sheet.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/tracing/choice_strip.h"
#include "app/tracing/other_symbol.h"
#include "app/tracing/pick_list.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

ContactSheet::ContactSheet(TracedDesk& traced, QWidget* parent)
    : QWidget(parent), m_traced(traced), m_model(new SheetModel(traced, this)),
      m_delegate(new SheetDelegate(*m_model, this)), m_list(new PickList(this)),
      m_other(new OtherSymbol(traced, this)), m_title(new QLabel(this)),
      m_note(noteLabel({}, this)), m_back(new QPushButton(tr("Back"), this)),
      m_on(new QPushButton(tr("Next symbol"), this)), m_accept(new QPushButton(this)),
      m_move(new QPushButton(tr("Move to…"), this)),
      m_split(new QPushButton(tr("New symbol"), this)),
      m_join(new QPushButton(tr("Join with…"), this)),
      m_alike(new QPushButton(tr("Two alike"), this)) {
    dress();
    layOut();
    connectParts();
    connectState();
    setFocusProxy(m_list);
    showState();
}

void ContactSheet::dress() {
    m_title->setFont(scaledFont(1, 600));
    m_title->setTextFormat(Qt::PlainText);
    m_title->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_list->setModel(m_model);
    m_list->setItemDelegate(m_delegate);
    m_list->setAccessibleName(tr("Cells of this symbol as they are printed"));
    m_list->installEventFilter(this);
    m_list->viewport()->installEventFilter(this);
    m_back->setToolTip(tr("The symbol before (Shift+N)"));
    m_back->setAccessibleName(tr("Symbol before"));
    m_on->setToolTip(tr("The next symbol of the key, and bare ground after the last (N)"));
    m_move->setToolTip(tr("Work the selected cells in another row of the key (M)"));
    m_move->setAccessibleName(tr("Move to another symbol"));
    m_split->setToolTip(tr("Part the selected cells off as a row of their own (P)"));
    m_split->setAccessibleName(tr("Make a new symbol"));
    m_join->setToolTip(tr("This symbol and another are the same (J: the one most like it)"));
    m_join->setAccessibleName(tr("Join symbols"));
    m_alike->setToolTip(tr("Go to the next two symbols that look alike; J joins them (L)"));
    m_alike->setAccessibleName(tr("Next two symbols that look alike"));
    m_on->setAccessibleName(m_on->text());
    m_accept->setAccessibleName(tr("Accept the selected cells"));
    for (QPushButton* button : {m_back, m_on, m_accept, m_move, m_split, m_join, m_alike}) {
        button->setAutoDefault(false);
        button->setFocusPolicy(Qt::TabFocus); // a click leaves the keys with the sheet
        button->setStyleSheet(QStringLiteral("QPushButton { padding: 5px 8px; }"
                                             "QPushButton:focus { padding: 4px 7px; }"
                                             "QPushButton::menu-indicator { width: 0; }"));
    }
}

void ContactSheet::layOut() {
    auto* bar = new Panel(PanelEdge::Below, this);
    bar->column()->setContentsMargins(16, 10, 16, 10);
    auto* above = new QHBoxLayout;
    above->setSpacing(6);
    above->addWidget(m_title, 1);
    above->addWidget(m_back);
    above->addWidget(m_on);
    bar->column()->addLayout(above);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(6);
    for (QPushButton* button : {m_accept, m_move, m_split, m_join, m_alike}) {
        buttons->addWidget(button);
    }
    buttons->addStretch(1);
    bar->column()->addLayout(buttons);
    bar->column()->addWidget(m_note);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(bar);
    auto* around = new QHBoxLayout;
    around->setContentsMargins(11, 8, 0, 0);
    around->addWidget(m_list);
    column->addLayout(around, 1);
    column->addWidget(m_other);
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
    connect(m_back, &QPushButton::clicked, this, [this] { step(-1); });
    connect(m_on, &QPushButton::clicked, this, [this] { step(1); });
    connect(m_accept, &QPushButton::clicked, this, &ContactSheet::acceptThem);
    connect(m_alike, &QPushButton::clicked, this, &ContactSheet::showAlike);
    connect(m_split, &QPushButton::clicked, this, [this] { m_traced.splitOff(selected()); });
    connect(m_list, &QListView::doubleClicked, this,
            [this](const QModelIndex& index) { Q_EMIT cellAsked(m_model->cell(index.row())); });
}

void ContactSheet::connectState() {
    const auto select = [this] {
        showState();
        Q_EMIT selectionChanged();
    };
    connect(m_list->selectionModel(), &QItemSelectionModel::selectionChanged, this, select);
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this, select);
    connect(m_list, &QListView::pressed, this, [this] { walk(false); });
    connect(m_model, &QAbstractItemModel::modelReset, this, [this, select] {
        m_walked = false;
        fitPlaces();
        select();
    });
    connect(&m_traced.desk(), &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        const ChartsState& now = m_traced.desk().state();
        if (now.pageView == PageView::Symbols && !now.row && !now.bare &&
            before.pageView != now.pageView && m_traced.desk().chart() &&
            !m_traced.desk().chart()->key.empty()) {
            m_traced.desk().with([](ChartsState& state) { state.row = chart::KeyIndex{0}; });
            return;
        }
        if (now.row != before.row || now.bare != before.bare) {
            m_did.clear();
            m_pair.reset();
        }
        showState();
    });
    connect(&m_traced.desk(), &ChartDesk::chartChanged, this, [this] {
        m_did.clear();
        m_pair.reset();
        showState();
    });
    connect(&m_traced, &TracedDesk::did, this, [this](const QString& text) {
        m_did = tr("%1 Ctrl+Z takes it back.").arg(text);
        showState();
    });
    connect(&m_traced.desk(), &ChartDesk::chartReplaced, this, [this] { m_passed.clear(); });
    connect(&m_traced, &TracedDesk::doubtChanged, this, &ContactSheet::showState);
}

void ContactSheet::fitPlaces() {
    // The other symbol's cells are as large, so both are fitted at once: else the one would make
    // room for the other, and that take it back, for ever.
    QSize room = m_list->viewport()->size();
    const bool areTwo = !m_other->isHidden();
    if (areTwo) {
        room.rheight() += m_other->height() - OtherSymbol::kTitle - OtherSymbol::kBelow;
    }
    if (m_delegate->fitInto(room, m_model->rowCount(), areTwo ? OtherSymbol::kRowsOfCells : 0)) {
        m_list->doItemsLayout();
    }
    m_other->setSide(m_delegate->side());
}

std::vector<chart::Cell> ContactSheet::selected() const {
    std::vector<int> rows;
    for (const QModelIndex& index : m_list->selectionModel()->selectedIndexes()) {
        rows.push_back(index.row());
    }
    if (rows.empty() && m_walked && m_list->currentIndex().isValid()) {
        rows.push_back(m_list->currentIndex().row());
    }
    std::ranges::sort(rows);
    std::vector<chart::Cell> cells;
    for (const int row : rows) {
        cells.push_back(m_model->cell(row));
    }
    return cells;
}

QString ContactSheet::shownName() const {
    const ChartDesk& desk = m_traced.desk();
    return desk.state().bare ? tr("Bare ground") : signOf(desk.chart()->key[*desk.state().row]);
}

QString ContactSheet::advice(int chosen) const {
    if (chosen > 0) {
        return tr("%1: A accepts, 1 to 9 move, P makes a new symbol, Esc selects none.")
            .arg(tr("%Ln cells are selected", nullptr, chosen));
    }
    if (!m_did.isEmpty()) {
        return m_did;
    }
    return m_traced.desk().state().bare
               ? tr("Doubtful cells first, the oddest at the front. Select what is no bare ground; "
                    "A "
                    "accepts what is left.")
               : tr("Doubtful cells first, the oddest at the front. Select what is of another "
                    "symbol "
                    "(click or Space). J joins with the symbol most like it, L shows the next two "
                    "alike.");
}

void ContactSheet::showState() {
    const ChartDesk& desk = m_traced.desk();
    if (desk.state().pageView != PageView::Symbols) {
        return;
    }
    const auto row = desk.state().row;
    const bool symbol = desk.chart() && row && *row < desk.chart()->key.size();
    const bool bare = desk.chart() && desk.state().bare;
    const int chosen = static_cast<int>(selected().size());
    const int doubtful = symbol || bare ? m_traced.doubtfulOf(bare ? chart::kBare : *row) : 0;
    QString title = tr("Choose a symbol in the key");
    if (symbol || bare) {
        title = tr("%1: %Ln cells", nullptr, m_model->rowCount()).arg(shownName());
        if (doubtful > 0) {
            title = tr("%1, %2").arg(title, tr("%Ln doubtful", nullptr, doubtful));
        }
    }
    m_title->setText(title);
    m_note->setText(advice(chosen));
    m_other->setRow(m_pair ? std::optional(m_pair->other) : std::nullopt);
    const bool others = desk.chart() && desk.chart()->key.size() > (symbol ? 1 : 0);
    m_accept->setText(chosen > 0     ? tr("Accept %Ln", nullptr, chosen)
                      : doubtful > 0 ? tr("Accept all %Ln", nullptr, doubtful)
                                     : tr("Accept"));
    m_accept->setAccessibleName(chosen > 0 ? tr("Accept the selected cells")
                                           : tr("Accept all doubtful cells of this symbol"));
    m_accept->setToolTip(tr("%1 (A)").arg(m_accept->accessibleName()));
    m_accept->setEnabled(chosen > 0 || doubtful > 0);
    m_move->setEnabled(chosen > 0 && others);
    m_split->setEnabled(chosen > 0 && (bare || chosen < m_model->rowCount()));
    m_join->setEnabled(symbol && others);
    m_alike->setEnabled(desk.chart() && desk.chart()->key.size() > 1);
}

void ContactSheet::acceptThem() {
    const ChartsState& state = m_traced.desk().state();
    const std::vector<chart::Cell> some = selected();
    if (some.empty() && (state.row || state.bare)) {
        m_traced.accept(m_traced.doubtfulCellsOf(state.bare ? chart::kBare : *state.row));
        return;
    }
    // Of cells that arrows go to one after the other, the next has its turn.
    const bool walked = m_walked && !m_list->selectionModel()->hasSelection();
    const int next = m_list->currentIndex().row() + (walked ? 1 : 0);
    m_traced.accept(some);
    m_list->clearSelection();
    goTo(next);
}

void ContactSheet::moveTo(chart::KeyIndex row) {
    const int place = m_list->currentIndex().row();
    const bool walked = m_walked;
    m_traced.change(selected(), row);
    goTo(place); // not back to the first
    walk(walked);
}

void ContactSheet::goTo(int place) {
    if (m_model->rowCount() > 0) {
        m_list->selectionModel()->setCurrentIndex(
            m_model->index(std::clamp(place, 0, m_model->rowCount() - 1)),
            QItemSelectionModel::NoUpdate);
    }
}

void ContactSheet::joinWith(chart::KeyIndex row) {
    if (const auto shown = m_traced.desk().state().row) {
        m_traced.join(*shown, row);
    }
}

void ContactSheet::take(chart::KeyIndex row) {
    selected().empty() ? joinWith(row) : moveTo(row);
}

/// With the one of the pair, and on to the next pair; else with the first of the choices.
void ContactSheet::joinMostAlike() {
    const auto shown = m_traced.desk().state().row;
    if (!shown) {
        return;
    }
    if (const auto pair = std::exchange(m_pair, std::nullopt)) {
        joinWith(pair->other);
        const QString did = m_did;
        showAlike();
        m_did = tr("%1 %2").arg(did, m_did);
        showState();
    } else if (const auto alike = m_traced.nearestToRow(*shown, 1); !alike.empty()) {
        joinWith(alike.front());
    }
}

/// The most alike pair that has not been shown yet; from the start when all have been.
void ContactSheet::showAlike() {
    const auto pairs = m_traced.alikePairs();
    const chart::Key& key = m_traced.desk().chart()->key;
    const auto signs = [&](const RowPrints::Pair& pair) {
        const bool bare = pair.other == chart::kBare;
        return std::pair(key[pair.row].symbol, bare ? QString() : key[pair.other].symbol);
    };
    auto next = std::ranges::find_if(
        pairs, [&](const RowPrints::Pair& pair) { return !m_passed.contains(signs(pair)); });
    if (next == pairs.end()) {
        m_passed.clear();
        next = pairs.begin();
    }
    if (next == pairs.end()) {
        return;
    }
    m_passed.insert(signs(*next));
    m_traced.desk().with([&](ChartsState& state) {
        state.bare = false;
        state.row = next->row;
    });
    m_pair = *next;
    const QString one = signOf(key[next->row]);
    m_did = next->other == chart::kBare
                ? tr("Is %1 bare ground? J says so, L shows the next two.").arg(one)
                : tr("Are %1 and %2 one symbol? J joins them, L shows the next two.")
                      .arg(one, signOf(key[next->other]));
    showState();
}

/// Round through the key, with bare ground after its last row.
void ContactSheet::step(int by) {
    const ChartDesk& desk = m_traced.desk();
    if (desk.chart() == nullptr) {
        return;
    }
    const int rows = static_cast<int>(desk.chart()->key.size());
    const int now = desk.state().bare ? rows : desk.state().row.value_or(0);
    const int next = (now + by + rows + 1) % (rows + 1);
    m_traced.desk().with([&](ChartsState& state) {
        state.bare = next == rows;
        state.row = state.bare ? std::nullopt : std::optional(static_cast<chart::KeyIndex>(next));
    });
}

void ContactSheet::fillRows(QMenu& menu, void (ContactSheet::*job)(chart::KeyIndex)) {
    menu.clear();
    const chart::Key& key = m_traced.desk().chart()->key;
    const std::vector<drawing::Mark> marks = drawing::marksOf(key);
    for (std::size_t other = 0; other < key.size(); ++other) {
        if (other != m_traced.desk().state().row) {
            menu.addAction(
                markIcon(key[other], marks[other], devicePixelRatioF()), signOf(key[other]), this,
                [this, job, other] { (this->*job)(static_cast<chart::KeyIndex>(other)); });
        }
    }
    if (job == &ContactSheet::moveTo && !m_traced.desk().state().bare) {
        menu.addSeparator();
        menu.addAction(tr("Bare ground"), this, [this] { moveTo(chart::kBare); });
    }
}

} // namespace otherskein::app
