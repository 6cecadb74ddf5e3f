#include "app/substitute/chart_choice.h"

#include <QSignalBlocker>

namespace otherskein::app {

namespace {

// What an entry stands for: a chart's id, or one of these.
constexpr qint64 kNoChart = -1;
constexpr qint64 kKeyAlone = -2;
constexpr qint64 kOpenKey = -3;

} // namespace

ChartChoice::ChartChoice(Session& session, QWidget* parent)
    : QComboBox(parent), m_session(session) {
    setAccessibleName(tr("Chart to judge in"));
    setMinimumContentsLength(12);
    setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    connect(this, &QComboBox::activated, this, &ChartChoice::choose);
    connect(&session, &Session::keyChanged, this, &ChartChoice::fill);
    connect(&session.document(), &workbox::Document::chartsChanged, this, &ChartChoice::fill);
    fill();
}

void ChartChoice::fill() {
    const QSignalBlocker quiet(this);
    clear();
    addItem(tr("No chart"), kNoChart);
    qint64 current = kNoChart;
    for (const workbox::ChartFacts& chart : m_session.document().charts()) {
        addItem(chart.name, static_cast<qint64>(chart.id));
    }
    if (const auto chart = m_session.keyChart()) {
        current = static_cast<qint64>(*chart);
    } else if (!m_session.key().empty()) {
        addItem(tr("%1 (key alone)").arg(m_session.keyName()), kKeyAlone);
        current = kKeyAlone;
    }
    insertSeparator(count());
    addItem(tr("Open a key…"), kOpenKey);
    setCurrentIndex(findData(current));
}

void ChartChoice::choose(int index) {
    const qint64 chosen = itemData(index).toLongLong();
    if (chosen == kOpenKey) {
        fill(); // shows what is in force until a key has been read
        Q_EMIT keyAsked();
    } else if (chosen == kNoChart) {
        m_session.clearKey();
    } else if (chosen != kKeyAlone) {
        m_session.judgeIn(workbox::ChartId{chosen});
    }
}

} // namespace otherskein::app
