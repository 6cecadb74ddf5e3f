#include "app/charts/chart_side.h"

#include "app/charts/chart_desk.h"
#include "app/charts/key_page.h"
#include "app/charts/motif_page.h"
#include "app/frame/segmented.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

constexpr int kSideWidth = 316;

} // namespace

ChartSide::ChartSide(ChartDesk& desk, QWidget* parent)
    : Panel(PanelEdge::Leading, parent), m_desk(desk),
      m_page(new Segmented(tr("Show of this chart"), {tr("Key"), tr("Motifs")}, this)),
      m_pages(new QStackedWidget(this)), m_key(new KeyPage(desk, m_pages)) {
    setFixedWidth(kSideWidth);
    // The tables' rows reach from edge to edge of the panel; all else keeps its margin.
    const QMargins margins = column()->contentsMargins();
    column()->setContentsMargins(1, margins.top(), 0, margins.bottom());
    auto* top = new QHBoxLayout;
    top->setContentsMargins(margins.left() - 1, 0, margins.right(), 0);
    top->addWidget(m_page);
    top->addStretch(1);
    column()->addLayout(top);
    m_pages->addWidget(m_key);
    m_pages->addWidget(new MotifPage(desk, m_pages));
    column()->addWidget(m_pages, 1);
    auto* recolour = new QPushButton(tr("Recolour this chart"), this);
    recolour->setProperty("strong", true);
    recolour->setAccessibleName(recolour->text());
    recolour->setToolTip(tr("See how it would look in other threads"));
    recolour->setAutoDefault(false);
    auto* foot = new QVBoxLayout;
    foot->setContentsMargins(margins.left() - 1, 6, margins.right(), 0);
    foot->addWidget(recolour);
    column()->addLayout(foot);
    connect(recolour, &QPushButton::clicked, this, &ChartSide::recolourAsked);
    connect(m_page, &Segmented::chosen, this, [this](int page) {
        m_desk.with([page](ChartsState& state) { state.page = static_cast<ChartsPage>(page); });
    });
    connect(&desk, &ChartDesk::stateChanged, this, &ChartSide::showState);
    showState();
}

void ChartSide::showState() {
    const int page = static_cast<int>(m_desk.state().page);
    const QSignalBlocker quiet(m_page);
    m_page->setCurrent(page);
    m_pages->setCurrentIndex(page);
}

} // namespace otherskein::app
