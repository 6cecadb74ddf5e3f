#include "app/tracing/traced_view.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/tracing/choice_strip.h"
#include "app/tracing/contact_sheet.h"
#include "app/tracing/pair_canvas.h"
#include "app/tracing/symbol_wall.h"
#include "app/tracing/tracing_edits.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QStackedLayout>
#include <QVBoxLayout>

namespace otherskein::app {

TracedView::TracedView(ChartDesk& desk, QWidget* parent)
    : QWidget(parent), m_traced(new TracedDesk(desk, this)), m_left(new QLabel(this)),
      m_what(noteLabel({}, this)), m_back(new QPushButton(tr("Back"), this)),
      m_on(new QPushButton(tr("Next doubtful"), this)),
      m_accept(new QPushButton(tr("Right as it is"), this)), m_like(new QPushButton(this)),
      m_page(new PairCanvas(*m_traced, PairCanvas::Half::Page, this)),
      m_cells(new PairCanvas(*m_traced, PairCanvas::Half::Cells, this)),
      m_choices(new ChoiceStrip(*m_traced, this)), m_sheet(new ContactSheet(*m_traced, this)),
      m_wall(new SymbolWall(*m_traced, this)), m_views(new QStackedLayout) {
    dress();
    layOut();
    connectParts();
    setFocusProxy(m_page);
    showState();
}

void TracedView::dress() {
    m_left->setFont(scaledFont(1, 600));
    m_what->setTextFormat(Qt::PlainText);
    m_what->setWordWrap(false);
    m_what->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_back->setAccessibleName(tr("Doubtful cell before"));
    m_on->setAccessibleName(m_on->text());
    m_accept->setAccessibleName(m_accept->text());
    m_accept->setToolTip(tr("Accept the cell as it is and go on (Enter or Space)"));
    m_accept->setProperty("strong", true);
    m_back->setToolTip(tr("The doubtful cell before (Shift+N or Page Up)"));
    m_on->setToolTip(tr("The next doubtful cell, least sure first (N or Page Down)"));
    m_like->setAccessibleName(tr("Accept all like it"));
    m_like->setToolTip(
        tr("Accept this and all doubtful cells that were taken for the same and look "
           "the same (Shift+Enter)"));
    for (QPushButton* button : {m_back, m_on, m_accept, m_like}) {
        button->setAutoDefault(false);
        button->setFocusPolicy(Qt::TabFocus); // a click leaves the keys with the page
        button->setStyleSheet(QStringLiteral("QPushButton { padding: 5px 9px; }"
                                             "QPushButton:focus { padding: 4px 8px; }"));
    }
}

void TracedView::layOut() {
    auto* cells = new QWidget(this);
    auto* bar = new Panel(PanelEdge::Below, cells);
    bar->column()->setContentsMargins(16, 10, 16, 10);
    auto* words = new QVBoxLayout;
    words->setSpacing(1);
    words->addWidget(m_left);
    words->addWidget(m_what);
    auto* row = new QHBoxLayout;
    row->setSpacing(6);
    row->addLayout(words, 1);
    row->addWidget(m_back);
    row->addWidget(m_on);
    row->addWidget(m_like);
    row->addWidget(m_accept);
    bar->column()->addLayout(row);
    auto* pair = new QHBoxLayout;
    pair->setSpacing(2);
    pair->addWidget(m_page, 1);
    pair->addWidget(m_cells, 1);
    auto* column = new QVBoxLayout(cells);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(bar);
    column->addLayout(pair, 1);
    m_views->addWidget(cells);
    m_views->addWidget(m_sheet);
    m_views->addWidget(m_wall);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(0);
    all->addLayout(m_views, 1);
    all->addWidget(m_choices);
}

ChartCanvas& TracedView::canvas() const {
    return *m_page;
}

void TracedView::connectParts() {
    connect(m_back, &QPushButton::clicked, this, [this] { go(TracedDesk::Way::Back); });
    connect(m_on, &QPushButton::clicked, this, [this] { go(TracedDesk::Way::On); });
    connect(m_accept, &QPushButton::clicked, this, &TracedView::accept);
    connect(m_like, &QPushButton::clicked, this, &TracedView::acceptLike);
    connect(m_choices, &ChoiceStrip::chosen, this, &TracedView::take);
    connect(m_sheet, &ContactSheet::selectionChanged, this,
            [this] { m_choices->setSelected(m_sheet->selected()); });
    connect(m_sheet, &ContactSheet::numberTyped, this, [this](int number) {
        if (const auto row = m_choices->choice(number)) {
            take(*row);
        }
    });
    // Both halves show the same part, whichever is moved.
    const auto follow = [](PairCanvas* moved, PairCanvas* other) {
        connect(moved, &ChartCanvas::viewChanged, other, [moved, other] {
            if (other->view().origin != moved->view().origin ||
                other->view().cell != moved->view().cell) {
                const QSignalBlocker once(other);
                other->setView(moved->view());
            }
        });
    };
    follow(m_page, m_cells);
    follow(m_cells, m_page);
    connect(&m_traced->desk(), &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        const ChartsState& now = m_traced->desk().state();
        if (now.current != before.current) {
            m_changed.clear();
        }
        if (now.pageView == PageView::Cells && before.pageView != PageView::Cells) {
            // Begins with what is least sure.
            show(now.current ? now.current : m_traced->doubtfulFrom({}, TracedDesk::Way::On));
        }
        showState();
    });
    // A page that is traced while another is looked through begins as that did. Only when all who
    // look at the chart know it.
    connect(
        m_traced, &TracedDesk::pictureReplaced, this,
        [this] {
            const ChartsState& now = m_traced->desk().state();
            if (now.pageView == PageView::Cells && !now.current) {
                show(m_traced->doubtfulFrom({}, TracedDesk::Way::On));
            }
        },
        Qt::QueuedConnection);
    connect(&m_traced->desk(), &ChartDesk::chartChanged, this, [this] {
        m_changed.clear();
        showState();
    });
    connect(m_traced, &TracedDesk::doubtChanged, this, &TracedView::showState);
    connect(m_sheet, &ContactSheet::cellAsked, this, [this](const chart::Cell& cell) {
        m_traced->desk().with([&](ChartsState& state) {
            state.current = cell;
            state.pageView = PageView::Cells;
        });
    });
}

void TracedView::showState() {
    const ChartDesk& desk = m_traced->desk();
    const ChartsState& state = desk.state();
    if (state.pageView != PageView::Off) {
        QWidget* const views[] = {m_page, m_sheet, m_wall};
        const int view = static_cast<int>(state.pageView) - static_cast<int>(PageView::Cells);
        m_views->setCurrentIndex(view);
        m_choices->setVisible(state.pageView != PageView::All);
        setFocusProxy(views[view]);
    }
    const int left = m_traced->doubtfulLeft();
    m_left->setText(left == 0 ? tr("No doubtful cells left")
                              : tr("%Ln doubtful cells left", nullptr, left));
    for (QPushButton* button : {m_back, m_on}) {
        button->setEnabled(left > 0);
    }
    m_accept->setEnabled(state.current.has_value());
    const bool looks = state.pageView == PageView::Cells && desk.chart() && state.current;
    const int like = looks && m_traced->isDoubtful(*state.current)
                         ? static_cast<int>(m_traced->doubtfulLike(*state.current).size())
                         : 0;
    m_like->setText(like > 1 ? tr("All %Ln like it", nullptr, like) : tr("All like it"));
    m_like->setEnabled(like > 1);
    if (!desk.chart() || !state.current) {
        m_what->setText(tr("Click a cell, here or on the page, to mend it"));
        return;
    }
    const chart::KeyIndex row = desk.chart()->grid.at(*state.current);
    const QString what = row == chart::kBare ? tr("Bare ground") : signOf(desk.chart()->key[row]);
    const QString sure =
        m_traced->isSeen(*state.current)
            ? tr("%1: you have seen it").arg(what)
            : tr("%1: %2 % sure").arg(what).arg(m_traced->surenessOf(*state.current));
    m_what->setText(m_changed.isEmpty()
                        ? sure
                        : tr("%1 Ctrl+Z takes it back. Next is %2").arg(m_changed, sure));
}

void TracedView::show(const std::optional<chart::Cell>& cell) {
    if (cell) {
        m_traced->goTo(cell);
        m_page->reveal(*cell, PairCanvas::Size::Readable);
    }
}

void TracedView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    // Only now do the halves have their size, which they take when this returns.
    QMetaObject::invokeMethod(
        this, [this] { show(m_traced->desk().state().current); }, Qt::QueuedConnection);
}

void TracedView::go(TracedDesk::Way way) {
    const auto next = m_traced->doubtfulFrom(m_traced->desk().state().current, way);
    if (next) {
        show(next);
    }
}

void TracedView::accept() {
    const auto cell = m_traced->desk().state().current;
    if (cell) {
        m_traced->accept({&*cell, 1});
        go(TracedDesk::Way::On);
    }
}

void TracedView::acceptLike() {
    const auto cell = m_traced->desk().state().current;
    if (cell && m_traced->isDoubtful(*cell)) {
        m_traced->accept(m_traced->doubtfulLike(*cell));
        go(TracedDesk::Way::On);
    }
}

void TracedView::take(chart::KeyIndex row) {
    if (m_traced->desk().state().pageView == PageView::Symbols) {
        m_sheet->take(row);
    } else {
        change(row);
    }
}

void TracedView::change(chart::KeyIndex row) {
    const auto cell = m_traced->desk().state().current;
    if (!cell) {
        return;
    }
    const bool wasDoubtful = m_traced->isDoubtful(*cell);
    const auto before = m_traced->desk().chart();
    m_traced->change({&*cell, 1}, row);
    if (wasDoubtful) {
        go(TracedDesk::Way::On); // one that was clicked stays in view
    }
    if (m_traced->desk().chart() != before && m_traced->desk().state().current != cell) {
        // The cell is out of sight by now, and a letter is soon hit by mistake.
        m_changed = row == chart::kBare
                        ? tr("Now bare ground.")
                        : tr("Now %1.").arg(signOf(m_traced->desk().chart()->key[row]));
        showState();
    }
}

bool TracedView::changeByKey(const QKeyEvent& event) {
    const ChartDesk& desk = m_traced->desk();
    if (!desk.chart() || !desk.state().current) {
        return false;
    }
    if (const auto row = rowOfLetter(desk.chart()->key, event.text())) {
        change(*row);
        return true;
    }
    if (const auto row = m_choices->choice(event.key() - Qt::Key_0)) {
        change(*row);
        return true;
    }
    return false;
}

void TracedView::keyPressEvent(QKeyEvent* event) {
    const Qt::KeyboardModifiers modifiers = event->modifiers() & ~Qt::KeypadModifier;
    const bool plain = modifiers == Qt::NoModifier || modifiers == Qt::ShiftModifier;
    if (m_traced->desk().state().pageView != PageView::Cells || !plain) {
        QWidget::keyPressEvent(event);
        return;
    }
    switch (event->key()) {
    case Qt::Key_PageDown:
        go(TracedDesk::Way::On);
        return;
    case Qt::Key_PageUp:
        go(TracedDesk::Way::Back);
        return;
    case Qt::Key_N: // also where a row has that letter: a habit must not change a cell
        go(modifiers == Qt::ShiftModifier ? TracedDesk::Way::Back : TracedDesk::Way::On);
        return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_Space:
        if (modifiers == Qt::ShiftModifier) {
            acceptLike();
        } else {
            accept();
        }
        return;
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        change(chart::kBare);
        return;
    default:
        break;
    }
    if (!changeByKey(*event)) {
        QWidget::keyPressEvent(event);
    }
}

} // namespace otherskein::app
