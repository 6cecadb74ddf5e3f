#include "app/charts/chart_bar.h"

#include "app/charts/chart_overlay.h"
#include "app/charts/mend_canvas.h"
#include "app/frame/look.h"
#include "app/frame/segmented.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLocale>
#include <QMenu>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr double kZoomStep = 1.5; // of one press of a button

QStringList modeNames() {
    QStringList names;
    for (int mode = 0; mode < kMendModes; ++mode) {
        names.push_back(modeName(static_cast<MendMode>(mode)));
    }
    return names;
}

} // namespace

QString modeName(MendMode mode) {
    switch (mode) {
    case MendMode::Look:
        return ChartBar::tr("Look");
    case MendMode::Stitch:
        return ChartBar::tr("Stitch");
    case MendMode::Unpick:
        return ChartBar::tr("Unpick");
    case MendMode::Fill:
        return ChartBar::tr("Fill");
    case MendMode::Pick:
        return ChartBar::tr("Pick");
    }
    return {};
}

QString modeAdvice(MendMode mode) {
    switch (mode) {
    case MendMode::Look:
        return ChartBar::tr("Drag to move the chart; click a stitch to find its thread");
    case MendMode::Stitch:
        return ChartBar::tr("Stitch cells with the row chosen in the key");
    case MendMode::Unpick:
        return ChartBar::tr("Take stitches out");
    case MendMode::Fill:
        return ChartBar::tr("Stitch a whole area of one thread with the chosen row");
    case MendMode::Pick:
        return ChartBar::tr("Click a stitch to stitch on with its thread");
    }
    return {};
}

ChartBar::ChartBar(ChartDesk& desk, MendCanvas& canvas, QWidget* parent)
    : Panel(PanelEdge::Below, parent), m_desk(desk), m_canvas(canvas), m_name(new QLabel(this)),
      m_under(noteLabel({}, this)),
      m_look(new Segmented(tr("Drawn as"), {tr("Stitches"), tr("Symbols")}, this)),
      m_mode(new Segmented(tr("The left button does"), modeNames(), this)),
      m_grid(new QCheckBox(tr("Grid"), this)), m_outlines(new QCheckBox(tr("Motifs"), this)),
      m_charts(new QPushButton(tr("Charts"), this)),
      m_beside(new QPushButton(tr("Beside the page"), this)),
      m_pageView(new Segmented(tr("Compare with the page"),
                               {tr("Cell by cell"), tr("Symbol by symbol"), tr("All symbols")},
                               this)),
      m_zoomed(&canvas), m_zoom(new QWidget(this)) {
    column()->setContentsMargins(16, 12, 16, 12);
    column()->setSpacing(10);
    m_name->setFont(scaledFont(1.05, 600));
    m_name->setTextFormat(Qt::PlainText);
    m_under->setWordWrap(false);
    m_under->setTextFormat(Qt::PlainText);
    for (QLabel* label : {m_name, m_under}) {
        label->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    }
    m_grid->setAccessibleName(tr("Grid"));
    m_grid->setToolTip(tr("Lines between the cells, bolder every ten"));
    m_outlines->setAccessibleName(tr("Outlines of motifs"));
    m_outlines->setToolTip(tr("Outlines of motifs, with their numbers or names"));
    int number = 0;
    for (QPushButton* button : m_mode->findChildren<QPushButton*>()) {
        const auto mode = static_cast<MendMode>(number++);
        button->setToolTip(tr("%1 (%2)").arg(modeAdvice(mode), QString::number(number)));
    }

    // All of the bar has room in the smallest window.
    for (Segmented* one : {m_look, m_mode, m_pageView}) {
        one->setStyleSheet(QStringLiteral("QPushButton { padding: 5px 8px; }"));
    }
    m_charts->setAccessibleName(tr("Charts of the workbox"));
    m_charts->setToolTip(tr("Choose another chart, or open one"));
    m_charts->setAutoDefault(false);
    m_charts->setMenu(new QMenu(m_charts));
    connect(m_charts->menu(), &QMenu::aboutToShow, this, &ChartBar::fillCharts);
    m_charts->hide();
    m_beside->setAccessibleName(m_beside->text());
    m_beside->setToolTip(tr("Mend the chart beside the page that it was traced from (Ctrl+B)"));
    m_beside->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_B));
    m_beside->setCheckable(true);
    m_beside->setAutoDefault(false);
    m_beside->setProperty("segment", QStringLiteral("only"));
    m_beside->setStyleSheet(QStringLiteral("QPushButton { padding: 5px 8px; }"
                                           "QPushButton:focus { padding: 4px 7px; }"));
    layOut();
    connectParts();
    showState();
}

void ChartBar::layOut() {
    auto* words = new QVBoxLayout;
    words->setSpacing(1);
    words->addWidget(m_name);
    words->addWidget(m_under);
    auto* above = new QHBoxLayout;
    above->setSpacing(10);
    above->addLayout(words, 1);
    above->addWidget(m_charts);
    above->addWidget(m_beside);
    above->addWidget(m_look);
    column()->addLayout(above);
    auto* below = new QHBoxLayout;
    below->setSpacing(10);
    below->addWidget(m_mode);
    below->addWidget(m_pageView);
    below->addStretch(1);
    below->addWidget(m_grid);
    below->addWidget(m_outlines);
    auto* zoom = new QHBoxLayout(m_zoom);
    zoom->setContentsMargins(0, 0, 0, 0);
    zoom->setSpacing(4);
    QPushButton* out = zoomButton(QStringLiteral("−"), tr("Zoom out"), tr("Zoom out (−)"));
    QPushButton* in = zoomButton(QStringLiteral("+"), tr("Zoom in"), tr("Zoom in (+)"));
    QPushButton* whole = zoomButton(tr("Whole"), tr("Whole chart"), tr("Show the whole chart (0)"));
    for (QPushButton* button : {out, in, whole}) {
        zoom->addWidget(button);
    }
    below->addWidget(m_zoom);
    column()->addLayout(below);

    connect(out, &QPushButton::clicked, this, [this] { m_zoomed->zoomBy(1 / kZoomStep); });
    connect(in, &QPushButton::clicked, this, [this] { m_zoomed->zoomBy(kZoomStep); });
    connect(whole, &QPushButton::clicked, this, [this] { m_zoomed->fit(); });
}

QPushButton* ChartBar::zoomButton(const QString& text, const QString& name,
                                  const QString& toolTip) {
    auto* button = new QPushButton(text, this);
    button->setAccessibleName(name);
    button->setToolTip(toolTip);
    button->setAutoDefault(false);
    if (text.size() == 1) {
        button->setFixedWidth(32);
    }
    button->setStyleSheet(QStringLiteral("QPushButton { padding: 5px 6px; }"
                                         "QPushButton:focus { padding: 4px 5px; }"));
    return button;
}

void ChartBar::showMenuOfCharts(bool on) {
    m_charts->setVisible(on);
}

void ChartBar::fillCharts() {
    QMenu& menu = *m_charts->menu();
    menu.clear();
    for (const workbox::ChartFacts& chart : m_desk.document().charts()) {
        QAction* action = menu.addAction(chart.name, this, [this, id = chart.id] {
            m_desk.session().chooseChart(id);
            Q_EMIT chartChosen();
        });
        action->setCheckable(true);
        action->setChecked(chart.id == m_desk.id());
    }
    menu.addSeparator();
    menu.addAction(tr("Open a chart picture…"), this, &ChartBar::openAsked);
    menu.addAction(tr("Trace a page…"), this, &ChartBar::traceAsked);
}

void ChartBar::connectParts() {
    connect(m_look, &Segmented::chosen, this, [this](int look) {
        m_desk.with([look](ChartsState& state) { state.look = static_cast<ChartLook>(look); });
    });
    connect(m_mode, &Segmented::chosen, this, [this](int mode) {
        m_desk.with([mode](ChartsState& state) { state.mode = static_cast<MendMode>(mode); });
    });
    connect(m_beside, &QPushButton::toggled, this, [this](bool on) {
        m_desk.with(
            [on](ChartsState& state) { state.pageView = on ? PageView::Cells : PageView::Off; });
    });
    connect(m_pageView, &Segmented::chosen, this, [this](int view) {
        m_desk.with([view](ChartsState& state) {
            // One a button, without Off.
            state.pageView = static_cast<PageView>(view + static_cast<int>(PageView::Cells));
        });
    });
    connect(m_grid, &QCheckBox::toggled, this,
            [this](bool on) { m_desk.with([on](ChartsState& state) { state.grid = on; }); });
    connect(m_outlines, &QCheckBox::toggled, this,
            [this](bool on) { m_desk.with([on](ChartsState& state) { state.outlines = on; }); });
    connect(&m_desk, &ChartDesk::stateChanged, this, &ChartBar::showState);
    connect(&m_desk, &ChartDesk::chartReplaced, this, &ChartBar::showState);
    connect(&m_desk, &ChartDesk::chartChanged, this, &ChartBar::showState);
    connect(&m_canvas, &MendCanvas::cellChanged, this, &ChartBar::showCell);
}

void ChartBar::showState() {
    const ChartsState& state = m_desk.state();
    const QSignalBlocker quiet[] = {QSignalBlocker(m_look),     QSignalBlocker(m_mode),
                                    QSignalBlocker(m_grid),     QSignalBlocker(m_outlines),
                                    QSignalBlocker(m_pageView), QSignalBlocker(m_beside)};
    const bool beside = state.pageView != PageView::Off;
    m_beside->setVisible(m_desk.page() != nullptr);
    m_beside->setChecked(beside);
    m_pageView->setVisible(beside);
    m_zoom->setVisible(state.pageView == PageView::Off || state.pageView == PageView::Cells);
    m_pageView->setCurrent(
        std::max(0, static_cast<int>(state.pageView) - static_cast<int>(PageView::Cells)));
    for (QWidget* one : std::initializer_list<QWidget*>{m_look, m_mode, m_grid, m_outlines}) {
        one->setVisible(!beside);
    }
    m_look->setCurrent(static_cast<int>(state.look));
    m_mode->setCurrent(static_cast<int>(state.mode));
    m_grid->setChecked(state.grid);
    // The page of motifs is of no use without them.
    m_outlines->setChecked(state.outlines || state.page == ChartsPage::Motifs);
    m_outlines->setEnabled(state.page != ChartsPage::Motifs);
    m_name->setText(m_desk.chart() ? m_desk.chart()->name : QString());
    showCell();
}

void ChartBar::showCell() {
    m_under->setText(underPointer());
}

QString ChartBar::underPointer() const {
    const auto& chart = m_desk.chart();
    if (chart == nullptr) {
        return {};
    }
    const QLocale locale;
    const ChartsState& state = m_desk.state();
    const auto cell = state.pageView == PageView::Off ? m_canvas.cell() : state.current;
    if (!cell || !chart->grid.contains(*cell)) {
        if (state.mode != MendMode::Look && state.pageView == PageView::Off) {
            return modeAdvice(state.mode);
        }
        const QString size =
            tr("%1 × %2 stitches")
                .arg(locale.toString(chart->grid.columns()), locale.toString(chart->grid.rows()));
        const int left = m_desk.doubtfulLeft();
        return left == 0 ? size
                         : tr("%1, %2").arg(size, tr("%Ln doubtful cells left", nullptr, left));
    }
    const chart::KeyIndex row = chart->grid.at(*cell);
    const QString what = row == chart::kBare ? tr("bare ground") : shownRow(chart->key[row]);
    const QString where =
        tr("Column %1, row %2: %3")
            .arg(locale.toString(cell->column + 1), locale.toString(cell->row + 1), what);
    const auto& motifs = m_desk.motifs();
    if (motifs && motifs->at(*cell) != chart::kNoMotif &&
        (state.outlines || state.page == ChartsPage::Motifs)) {
        return tr("%1, motif %2").arg(where, shownMotif(*motifs, motifs->at(*cell)));
    }
    return where;
}

} // namespace otherskein::app
