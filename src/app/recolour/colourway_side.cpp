#include "app/recolour/colourway_side.h"

#include "app/frame/chip.h"
#include "app/recolour/colourway_bar.h"
#include "app/recolour/colourway_table.h"
#include "app/recolour/figures_panel.h"
#include "app/recolour/thread_change.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QVBoxLayout>

namespace otherskein::app {

ColourwaySide::ColourwaySide(Session& session, QWidget* parent)
    : Panel(PanelEdge::Leading, parent), m_session(session), m_bar(new ColourwayBar(this)),
      m_table(new ColourwayTable(this)), m_change(new ThreadChange(session, this)),
      m_figures(new FiguresPanel(this)), m_save(new QPushButton(tr("Save files…"), this)),
      m_makeChart(new QPushButton(tr("Make it a chart"), this)) {
    constexpr int kMargin = 14;
    column()->setContentsMargins(1, 8, 0, 12);
    column()->setSpacing(8);
    const auto inset = [this](QWidget* widget) {
        auto* row = new QHBoxLayout;
        row->setContentsMargins(kMargin, 0, kMargin, 0);
        row->addWidget(widget);
        column()->addLayout(row);
    };
    inset(m_bar);
    column()->addWidget(m_table, 1);
    inset(m_change);
    inset(m_figures);
    m_save->setToolTip(tr("The recoloured chart as a picture with its key, for stitching from"));
    m_makeChart->setToolTip(tr("Adds the recoloured chart to the workbox as a chart of its own"));
    auto* buttons = new QHBoxLayout;
    buttons->setContentsMargins(kMargin, 2, kMargin, 0);
    buttons->setSpacing(8);
    buttons->addWidget(m_save, 1);
    buttons->addWidget(m_makeChart, 1);
    column()->addLayout(buttons);

    connect(m_table, &ColourwayTable::rowChosen, this, [this] {
        const ColourwayRow* row = m_table->chosen();
        m_change->show(row);
        Q_EMIT partsChosen(row != nullptr ? row->parts : std::vector<std::size_t>());
    });
    connect(m_table, &ColourwayTable::changeAsked, m_change, &ThreadChange::focusField);
    connect(m_table, &ColourwayTable::lockAsked, this, &ColourwaySide::lockAsked);
    connect(m_change, &ThreadChange::threadMeant, this, &ColourwaySide::threadMeant);
    connect(m_change, &ThreadChange::told, this, &ColourwaySide::told);
    connect(m_save, &QPushButton::clicked, this, &ColourwaySide::saveAsked);
    connect(m_makeChart, &QPushButton::clicked, this, &ColourwaySide::chartAsked);
    showNothing();
}

void ColourwaySide::show(const RecolourState& state, const colourway::Subject& subject,
                         const colourway::Colourway& colourway,
                         const std::map<std::size_t, colourway::Choice>& locks) {
    m_table->show(rowsOf(subject, colourway.now, locks), toQColor(m_session.ground().shown));
    m_figures->show(subject, colourway, state.job == RecolourJob::Convert);
    m_figures->setVisible(true);
    m_save->setEnabled(true);
    m_makeChart->setEnabled(true);
}

void ColourwaySide::showNothing() {
    m_table->show({}, toQColor(m_session.ground().shown));
    m_change->show(nullptr);
    m_figures->setVisible(false);
    m_save->setEnabled(false);
    m_makeChart->setEnabled(false);
}

} // namespace otherskein::app
