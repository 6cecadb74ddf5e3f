#include "app/ground/ground_place.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/frame/segmented.h"
#include "app/ground/chart_on_ground.h"
#include "app/ground/ground_matrix.h"
#include "app/ground/ground_side.h"
#include "app/ground/grounds_dialog.h"
#include "app/ground/measures_dialog.h"
#include "app/ground/piece_figures.h"
#include "app/ground/ways_panel.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

constexpr int kGroundSideWidth = 286;

} // namespace

GroundPlace::GroundPlace(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_desk(new GroundDesk(session, this)) {
    build();
    connectAll();
    connectWays();
    showDesk();
}

void GroundPlace::build() {
    m_side = new GroundSide(m_session, this);
    auto* scroll = new QScrollArea(this);
    scroll->setWidget(m_side);
    scroll->setWidgetResizable(true);
    scroll->setFixedWidth(kGroundSideWidth);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);

    auto* bar = new Panel(PanelEdge::Below, this);
    bar->column()->setContentsMargins(14, 8, 14, 8);
    m_title = titleLabel({}, bar);
    m_title->setFont(scaledFont(1.1, 600));
    m_page = new Segmented(tr("What is shown"), {tr("Threads"), tr("The chart")}, bar);
    m_order = new QComboBox(bar);
    m_order->setAccessibleName(tr("Order"));
    m_order->addItems({tr("Least contrast first"), tr("In the order of the key")});
    auto* row = new QHBoxLayout;
    row->setSpacing(10);
    row->addWidget(m_title, 1);
    row->addWidget(m_order);
    row->addWidget(m_page);
    bar->column()->addLayout(row);

    m_pages = new QStackedWidget(this);
    m_matrix = new GroundMatrix(m_pages);
    m_chart = new ChartOnGround(m_pages);
    m_pages->addWidget(m_matrix);
    m_pages->addWidget(m_chart);
    buildEmpty();
    m_pages->addWidget(m_empty);

    auto* centre = new QVBoxLayout;
    centre->setSpacing(0);
    centre->addWidget(bar);
    centre->addWidget(m_pages, 1);
    auto* across = new QHBoxLayout(this);
    across->setContentsMargins(0, 0, 0, 0);
    across->setSpacing(0);
    across->addWidget(scroll);
    across->addLayout(centre, 1);
    setFocusProxy(m_matrix);
}

void GroundPlace::buildEmpty() {
    m_empty = new QWidget(m_pages);
    auto* middle = new QWidget(m_empty);
    constexpr int kWidth = 460;
    middle->setFixedWidth(kWidth);
    auto* column = new QVBoxLayout(middle);
    column->setSpacing(12);
    column->addWidget(titleLabel(tr("Does it show on this fabric?"), middle));
    auto* text =
        new QLabel(tr("Ground stitches your threads on your fabrics and says which are lost "
                      "there. It needs at least one fabric, and threads: a chart, a stash or "
                      "a shade card."),
                   middle);
    text->setWordWrap(true);
    column->addWidget(text);
    auto* grounds = new QPushButton(tr("My grounds…"), middle);
    grounds->setProperty("strong", true);
    auto* demo = new QPushButton(tr("Open the demo"), middle);
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    row->addWidget(grounds);
    row->addWidget(demo);
    row->addStretch();
    column->addLayout(row);
    auto* across = new QHBoxLayout(m_empty);
    across->addStretch();
    across->addWidget(middle);
    across->addStretch();
    connect(grounds, &QPushButton::clicked, this, &GroundPlace::openGrounds);
    connect(demo, &QPushButton::clicked, this, &GroundPlace::demoAsked);
}

void GroundPlace::connectAll() {
    connect(m_desk, &GroundDesk::changed, this, &GroundPlace::showDesk);
    connect(m_desk, &GroundDesk::told, this, &GroundPlace::told);
    connect(m_desk, &GroundDesk::refused, this, &GroundPlace::refused);
    connect(m_side, &GroundSide::asked, m_desk, &GroundDesk::ask);
    connect(m_side, &GroundSide::chartChosen, &m_session, &Session::chooseChart);
    connect(m_side, &GroundSide::groundsAsked, this, &GroundPlace::openGrounds);
    connect(m_side, &GroundSide::measuresAsked, this, &GroundPlace::openMeasures);
    connect(&m_side->piece(), &PieceFigures::asked, m_desk, &GroundDesk::ask);
    connect(m_chart, &ChartOnGround::asked, m_desk, &GroundDesk::ask);
    connect(m_chart, &ChartOnGround::dividerMoved, m_desk, &GroundDesk::setDivider);
    connect(m_page, &Segmented::chosen, this, [this](int index) {
        GroundState next = m_desk->state();
        next.page = static_cast<GroundPage>(index);
        m_desk->ask(next);
    });
    connect(m_order, &QComboBox::activated, this, [this](int index) {
        GroundState next = m_desk->state();
        next.leastFirst = index == 0;
        m_desk->ask(next);
    });
    connect(m_matrix, &GroundMatrix::groundChosen, this, [this](int column) {
        m_session.chooseGround(m_desk->columns()[static_cast<std::size_t>(column)].id);
    });
    connect(m_matrix, &GroundMatrix::substituteAsked, this, [this](int row) {
        const colourway::Choice& choice = m_desk->rows()[static_cast<std::size_t>(row)].choice;
        if (const auto wanted = m_session.wantedThread(choice.card(), choice.code())) {
            m_session.setWanted(*wanted);
            Q_EMIT m_session.substituteAsked();
        }
    });
}

void GroundPlace::connectWays() {
    WaysPanel& ways = m_side->ways();
    connect(m_matrix, &GroundMatrix::rowChosen, this, [this](int row) {
        if (const auto part = m_desk->rows()[static_cast<std::size_t>(row)].part) {
            m_side->ways().choosePart(*part);
        }
    });
    connect(m_chart, &ChartOnGround::partChosen, this, [this](std::size_t part) {
        m_chart->choosePart(part);
        m_side->ways().choosePart(part);
    });
    connect(&ways, &WaysPanel::partChosen, this,
            [this](std::size_t part) { m_chart->choosePart(part); });
    connect(&ways, &WaysPanel::strandsAsked, m_desk, &GroundDesk::moreStrands);
    connect(&ways, &WaysPanel::groundAsked, &m_session, &Session::chooseGround);
    connect(&ways, &WaysPanel::threadAsked, m_desk, &GroundDesk::take);
    connect(&ways, &WaysPanel::pushAsked, m_desk, &GroundDesk::pushAll);
}

void GroundPlace::showDesk() {
    const GroundState& state = m_desk->state();
    const auto threads = m_desk->rows().size();
    const auto grounds = m_desk->columns().size();
    const bool chart = state.page == GroundPage::Chart && m_desk->subject() != nullptr;
    const bool nothing = threads == 0 || (grounds == 0 && !chart);
    m_side->show(*m_desk);
    m_page->setVisible(m_desk->subject() != nullptr);
    m_page->setCurrent(chart ? 1 : 0);
    m_order->setVisible(!chart && !nothing);
    m_order->setCurrentIndex(state.leastFirst ? 0 : 1);
    m_order->setItemText(1, m_desk->subject() ? tr("In the order of the key")
                                              : tr("In the order of the card"));
    m_title->setText(nothing ? QString()
                     : chart
                         ? tr("On %1").arg(m_session.ground().name)
                         : tr("%1 on %2")
                               .arg(threads == 1 ? tr("1 thread") : tr("%1 threads").arg(threads),
                                    grounds == 1 ? tr("1 ground") : tr("%1 grounds").arg(grounds)));
    if (nothing) {
        m_pages->setCurrentWidget(m_empty);
    } else if (chart) {
        m_chart->show(*m_desk);
        m_pages->setCurrentWidget(m_chart);
    } else {
        m_matrix->show(*m_desk);
        m_pages->setCurrentWidget(m_matrix);
    }
}

void GroundPlace::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_desk->setActive(true);
}

void GroundPlace::hideEvent(QHideEvent* event) {
    m_desk->setActive(false);
    QWidget::hideEvent(event);
}

void GroundPlace::openGrounds() {
    GroundsDialog dialog(m_session, m_desk->state(), this);
    connect(&dialog, &GroundsDialog::asked, m_desk, &GroundDesk::ask);
    connect(&dialog, &GroundsDialog::refused, this, &GroundPlace::refused);
    dialog.exec();
}

void GroundPlace::openMeasures() {
    MeasuresDialog dialog(m_session, m_desk->chosenGround(), this);
    dialog.exec();
}

} // namespace otherskein::app
