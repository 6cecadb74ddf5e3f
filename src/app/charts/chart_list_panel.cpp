#include "app/charts/chart_list_panel.h"

#include <QAction>
#include <QGridLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

constexpr int kPanelWidth = 232;

} // namespace

ChartListPanel::ChartListPanel(Session& session, QWidget* parent)
    : Panel(PanelEdge::Trailing, parent), m_list(new ChartList(session, this)),
      m_aboutPictures(noteLabel(tr("A chart picture is a PNG with one pixel a stitch. Its key is "
                                   "taken along when it lies beside it."),
                                this)) {
    setFixedWidth(kPanelWidth);
    // The list's rows reach from edge to edge of the panel; all else keeps its margin.
    const QMargins margins = column()->contentsMargins();
    column()->setContentsMargins(0, margins.top(), 1, margins.bottom());
    addTitle(tr("Charts"))->setContentsMargins(margins.left(), 0, margins.right(), 2);
    column()->addWidget(m_list);
    auto* rest = new QVBoxLayout;
    rest->setContentsMargins(margins.left(), 0, margins.right() - 1, 0);
    rest->setSpacing(column()->spacing());
    column()->addLayout(rest);
    makeButtons(*rest);
    rest->addWidget(m_aboutPictures);
    column()->addStretch(1);
    connect(m_list, &ChartList::deleteAsked, this, &ChartListPanel::deleteAsked);
}

void ChartListPanel::makeButtons(QVBoxLayout& column) {
    struct Job {
        QString text;
        QString toolTip;
        std::function<void()> start;
    };
    const Job jobs[] = {
        {tr("Open a chart picture…"), tr("Read charts from PNG pictures; or drop them here"),
         [this] { Q_EMIT openAsked(); }},
        {tr("Trace a page…"), tr("Read a chart off a printed page: a PDF, a scan or a photo"),
         [this] { Q_EMIT traceAsked(); }},
        {tr("Export…"), tr("Write this chart as a picture with its key"),
         [this] { Q_EMIT exportAsked(); }},
        {tr("Rename"), tr("Rename this chart (F2)"), [this] { m_list->renameCurrent(); }},
        {tr("Delete"), tr("Delete this chart with its colourways (Delete); undo brings it back"),
         [this] { Q_EMIT deleteAsked(); }}};
    auto* grid = new QGridLayout;
    grid->setSpacing(6);
    constexpr int kAlone = 2; // the first stand alone, over all columns
    int place = 0;
    for (const Job& job : jobs) {
        auto* action = new QAction(job.text, this);
        action->setToolTip(job.toolTip);
        connect(action, &QAction::triggered, this, job.start);
        m_list->addAction(action);
        auto* button = new QPushButton(job.text, this);
        button->setToolTip(job.toolTip);
        button->setAccessibleName(job.text);
        button->setAccessibleDescription(job.toolTip);
        button->setAutoDefault(false);
        button->setStyleSheet(QStringLiteral("QPushButton { padding: 4px 4px; }"
                                             "QPushButton:focus { padding: 3px 3px; }"));
        connect(button, &QPushButton::clicked, action, &QAction::trigger);
        const bool alone = place < kAlone;
        grid->addWidget(button, alone ? place : kAlone, alone ? 0 : place - kAlone, 1,
                        alone ? 3 : 1);
        ++place;
    }
    column.addLayout(grid);
    connect(m_list, &QWidget::customContextMenuRequested, this, [this](const QPoint& at) {
        QMenu menu;
        menu.addActions(m_list->actions());
        menu.exec(m_list->viewport()->mapToGlobal(at));
    });
}

} // namespace otherskein::app
