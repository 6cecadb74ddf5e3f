#include "app/recolour/recolour_header.h"

#include "app/frame/segmented.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QSlider>
#include <QVBoxLayout>

namespace otherskein::app {

RecolourHeader::RecolourHeader(QWidget* parent)
    : Panel(PanelEdge::Below, parent), m_charts(new QComboBox(this)),
      m_jobs(new Segmented(
          tr("What to do"),
          {tr("One colour into many"), tr("Another colour family"), tr("Other threads")}, this)),
      m_motifs(new QWidget(this)), m_slider(new QSlider(Qt::Horizontal, m_motifs)),
      m_few(noteLabel({}, m_motifs)), m_many(noteLabel(tr("many"), m_motifs)) {
    constexpr int kLeastWidth = 300; // what does not fit is left out, see resizeEvent
    setMinimumWidth(kLeastWidth);
    column()->setContentsMargins(12, 8, 14, 8);
    m_charts->setAccessibleName(tr("Chart"));
    m_charts->setMinimumContentsLength(8);
    m_charts->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_charts->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    m_slider->setRange(0, chart::kMotifSteps - 1);
    m_slider->setPageStep(1);
    m_slider->setMinimumWidth(70);
    m_slider->setMaximumWidth(130);
    m_slider->setAccessibleName(tr("Motifs, from few to many"));
    m_few->setWordWrap(false);
    m_many->setWordWrap(false);
    auto* motifs = new QHBoxLayout(m_motifs);
    motifs->setContentsMargins(0, 0, 0, 0);
    motifs->setSpacing(6);
    motifs->addWidget(m_few);
    motifs->addWidget(m_slider, 1);
    motifs->addWidget(m_many);
    auto* row = new QHBoxLayout;
    row->setSpacing(10);
    row->addWidget(m_charts, 1);
    row->addWidget(m_jobs);
    row->addStretch(1);
    row->addWidget(m_motifs);
    column()->addLayout(row);

    connect(m_charts, &QComboBox::activated, this, [this](int index) {
        Q_EMIT chartChosen(workbox::ChartId{m_charts->itemData(index).toLongLong()});
    });
    connect(m_jobs, &Segmented::chosen, this,
            [this](int index) { Q_EMIT jobChosen(static_cast<RecolourJob>(index)); });
    connect(m_slider, &QSlider::valueChanged, this, &RecolourHeader::stepChosen);
}

void RecolourHeader::showCharts(const std::vector<workbox::ChartFacts>& charts) {
    const qlonglong current = m_charts->currentData().toLongLong();
    m_charts->clear();
    for (const workbox::ChartFacts& one : charts) {
        m_charts->addItem(one.name, static_cast<qlonglong>(one.id));
    }
    m_charts->setCurrentIndex(m_charts->findData(current));
}

void RecolourHeader::show(const RecolourState& state, int step, std::size_t motifs) {
    m_charts->setCurrentIndex(state.chart ? m_charts->findData(static_cast<qlonglong>(*state.chart))
                                          : -1);
    m_charts->setToolTip(m_charts->currentText());
    m_jobs->setCurrent(static_cast<int>(state.job));
    m_motifs->setVisible(state.job == RecolourJob::Motifs);
    const QSignalBlocker quiet(m_slider);
    m_slider->setValue(step);
    m_slider->setToolTip(tr("%n motifs", nullptr, static_cast<int>(motifs)));
    m_few->setText(tr("%n motifs: few", nullptr, static_cast<int>(motifs)));
}

void RecolourHeader::resizeEvent(QResizeEvent* event) {
    Panel::resizeEvent(event);
    constexpr int kRoomForWords = 760;
    m_few->setVisible(width() >= kRoomForWords);
    m_many->setVisible(width() >= kRoomForWords);
}

} // namespace otherskein::app
