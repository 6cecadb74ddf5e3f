#include "app/tracing/symbol_wall.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/tracing/pick_list.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

SymbolWall::SymbolWall(TracedDesk& traced, QWidget* parent)
    : QWidget(parent), m_traced(traced), m_model(new SymbolModel(traced, this)),
      m_list(new PickList(this)), m_title(new QLabel(this)), m_note(noteLabel({}, this)),
      m_alike(new QPushButton(tr("Next alike"), this)), m_join(new QPushButton(this)),
      m_bare(new QPushButton(tr("Bare ground"), this)),
      m_open(new QPushButton(tr("Show cells"), this)) {
    dress();
    layOut();
    connectParts();
    setFocusProxy(m_list);
    showState();
}

void SymbolWall::dress() {
    m_title->setFont(scaledFont(1, 600));
    m_title->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_list->setModel(m_model);
    m_list->setItemDelegate(new SymbolDelegate(*m_model, m_list));
    m_list->setAccessibleName(tr("All symbols as they are printed"));
    m_list->installEventFilter(this);
    m_alike->setAccessibleName(tr("Pick the next symbols that look alike"));
    m_alike->setToolTip(tr("Pick the next symbols that look alike (L)"));
    m_join->setAccessibleName(tr("Join the picked symbols"));
    m_join->setToolTip(tr("The picked symbols are one (J)"));
    m_bare->setAccessibleName(tr("The picked symbols are bare ground"));
    m_bare->setToolTip(tr("No stitches where the picked symbols are: dirt, shade, rests of lines "
                          "(Delete)"));
    m_open->setAccessibleName(tr("Cells of this symbol"));
    m_open->setToolTip(tr("All cells of the symbol with the thin frame (Enter)"));
    m_join->setProperty("strong", true);
    for (QPushButton* button : {m_alike, m_join, m_bare, m_open}) {
        button->setAutoDefault(false);
        button->setFocusPolicy(Qt::TabFocus); // a click leaves the keys with the wall
        button->setStyleSheet(QStringLiteral("QPushButton { padding: 5px 8px; }"
                                             "QPushButton:focus { padding: 4px 7px; }"));
    }
}

void SymbolWall::layOut() {
    auto* bar = new Panel(PanelEdge::Below, this);
    bar->column()->setContentsMargins(16, 10, 16, 10);
    auto* above = new QHBoxLayout;
    above->setSpacing(6);
    above->addWidget(m_title, 1);
    for (QPushButton* button : {m_open, m_bare, m_alike, m_join}) {
        above->addWidget(button);
    }
    bar->column()->addLayout(above);
    bar->column()->addWidget(m_note);
    auto* around = new QHBoxLayout;
    around->setContentsMargins(16, 8, 0, 8);
    around->addWidget(m_list);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(bar);
    column->addLayout(around, 1);
}

void SymbolWall::connectParts() {
    connect(m_alike, &QPushButton::clicked, this, &SymbolWall::pickAlike);
    connect(m_join, &QPushButton::clicked, this, &SymbolWall::join);
    connect(m_bare, &QPushButton::clicked, this, &SymbolWall::makeBare);
    connect(m_open, &QPushButton::clicked, this, &SymbolWall::open);
    connect(m_list, &QListView::doubleClicked, this, &SymbolWall::open);
    const QItemSelectionModel* picks = m_list->selectionModel();
    connect(picks, &QItemSelectionModel::selectionChanged, this, &SymbolWall::showState);
    connect(picks, &QItemSelectionModel::currentChanged, this, [this](const QModelIndex& index) {
        if (index.isValid()) {
            m_traced.desk().with(
                [&](ChartsState& state) { state.row = m_model->keyRow(index.row()); });
        }
    });
    connect(m_model, &QAbstractItemModel::modelReset, this, [this] {
        m_goesOn = false;
        takeRow();
        showState();
    });
    connect(&m_traced.desk(), &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        if (before.row != m_traced.desk().state().row) {
            takeRow();
        }
        showState();
    });
    connect(&m_traced.desk(), &ChartDesk::chartChanged, this, [this] {
        m_did.clear();
        showState();
    });
    connect(&m_traced, &TracedDesk::did, this, [this](const QString& text) {
        m_did = tr("%1 Ctrl+Z takes it back.").arg(text);
        showState();
    });
}

/// The row that is chosen in the key has the frame.
void SymbolWall::takeRow() {
    const auto row = m_traced.desk().state().row;
    const auto place = row ? m_model->placeOf(*row) : std::optional(0);
    if (place && *place < m_model->rowCount() && m_list->currentIndex().row() != *place) {
        m_list->selectionModel()->setCurrentIndex(m_model->index(*place),
                                                  QItemSelectionModel::NoUpdate);
        m_list->scrollTo(m_model->index(*place));
    }
}

std::vector<chart::KeyIndex> SymbolWall::picked() const {
    std::vector<chart::KeyIndex> rows;
    for (const QModelIndex& index : m_list->selectionModel()->selectedIndexes()) {
        rows.push_back(m_model->keyRow(index.row()));
    }
    std::ranges::sort(rows);
    return rows;
}

void SymbolWall::showState() {
    const ChartDesk& desk = m_traced.desk();
    if (desk.state().pageView != PageView::All || desk.chart() == nullptr) {
        return;
    }
    const int picks = static_cast<int>(m_list->selectionModel()->selectedIndexes().size());
    m_title->setText(picks == 0 ? tr("%Ln symbols", nullptr, m_model->rowCount())
                                : tr("%1, %2").arg(tr("%Ln symbols", nullptr, m_model->rowCount()),
                                                   tr("%Ln picked", nullptr, picks)));
    const QString keys =
        picks > 1    ? tr("J makes one symbol of those picked; a click or Space lets one go.")
        : picks == 1 ? tr("Pick all that are the same symbol, then J joins them.")
                     : tr("Alike ones stand side by side. L picks the next ones alike, a click or "
                          "Space picks one.");
    m_note->setText(m_did.isEmpty() ? keys : tr("%1 %2").arg(m_did, keys));
    m_alike->setEnabled(!m_model->alikeAfter(-1).empty());
    m_join->setText(picks > 1 ? tr("Join %Ln", nullptr, picks) : tr("Join"));
    m_join->setEnabled(picks > 1);
    m_bare->setEnabled(picks > 0);
    m_open->setEnabled(m_list->currentIndex().isValid());
}

void SymbolWall::pickAlike() {
    QItemSelectionModel& picks = *m_list->selectionModel();
    // From what was picked last; without it, the first of all.
    const bool goesOn = std::exchange(m_goesOn, true);
    const std::vector<int> alike = m_model->alikeAfter(goesOn ? m_list->currentIndex().row() : -1);
    picks.clearSelection();
    if (alike.empty()) {
        m_goesOn = false;
        showState();
        return;
    }
    picks.setCurrentIndex(m_model->index(alike.front()), QItemSelectionModel::NoUpdate);
    picks.select(QItemSelection(m_model->index(alike.front()), m_model->index(alike.back())),
                 QItemSelectionModel::Select);
    m_list->scrollTo(m_model->index(alike.back()));
    m_list->scrollTo(m_model->index(alike.front()));
}

void SymbolWall::join() {
    const std::vector<chart::KeyIndex> rows = picked();
    const bool goesOn = m_goesOn;
    if (rows.size() < 2 || !m_traced.joinAll(rows)) {
        return;
    }
    m_list->clearSelection();
    if (goesOn) {
        m_goesOn = true; // the model was reset
        pickAlike();
    }
}

void SymbolWall::makeBare() {
    if (const std::vector<chart::KeyIndex> rows = picked(); !rows.empty()) {
        m_traced.makeBare(rows);
    }
}

void SymbolWall::open() {
    const QModelIndex index = m_list->currentIndex();
    if (index.isValid()) {
        const chart::KeyIndex row = m_model->keyRow(index.row());
        m_traced.desk().with([row](ChartsState& state) {
            state.row = row;
            state.pageView = PageView::Symbols;
        });
    }
}

bool SymbolWall::eventFilter(QObject* watched, QEvent* event) {
    if (watched != m_list || event->type() != QEvent::KeyPress) {
        return QWidget::eventFilter(watched, event);
    }
    const auto* key = static_cast<QKeyEvent*>(event);
    return (key->modifiers() & ~Qt::KeypadModifier) == Qt::NoModifier && pressKey(key->key());
}

bool SymbolWall::pressKey(int key) {
    const bool some = m_list->selectionModel()->hasSelection();
    switch (key) {
    case Qt::Key_L:
        m_alike->click();
        return true;
    case Qt::Key_J:
        m_join->click();
        return true;
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        m_bare->click();
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        m_open->click();
        return true;
    case Qt::Key_Escape:
        m_list->clearSelection(); // a second time it is for the place
        m_goesOn = false;
        return some;
    default:
        return false;
    }
}

} // namespace otherskein::app
