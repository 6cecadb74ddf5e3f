#include "app/charts/chart_list.h"

#include "app/charts/chart_row.h"
#include "base/input_error.h"

#include <QKeyEvent>
#include <QLocale>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kMostRowsWanted = 9;

} // namespace

ChartList::ChartList(Session& session, QWidget* parent)
    : QListWidget(parent), m_session(session), m_pictures(new ChartPictures(session, this)) {
    setAccessibleName(tr("Charts"));
    setItemDelegate(new ChartRow(*m_pictures, this));
    setMouseTracking(true);
    setUniformItemSizes(true);
    setFrameShape(NoFrame);
    setAutoFillBackground(false);
    viewport()->setAutoFillBackground(false);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Maximum);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(ScrollPerPixel);
    setEditTriggers(EditKeyPressed | DoubleClicked);
    setContextMenuPolicy(Qt::CustomContextMenu);
    connect(m_pictures, &ChartPictures::drawn, viewport(), qOverload<>(&QWidget::update));
    connect(&session.document(), &workbox::Document::chartsChanged, this, &ChartList::fill);
    connect(&session, &Session::chartChosen, this, &ChartList::showCurrent);
    connect(this, &QListWidget::currentRowChanged, this, [this] {
        const auto chart = current();
        if (chart && chart != m_session.chartId()) {
            m_session.chooseChart(*chart);
        }
    });
    connect(this, &QListWidget::itemChanged, this, &ChartList::rename);
    fill();
}

void ChartList::fill() {
    const QSignalBlocker quiet(this);
    clear();
    for (const workbox::ChartFacts& chart : m_session.document().charts()) {
        auto* item = new QListWidgetItem(chart.name, this);
        item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable);
        item->setData(ChartRow::kIdRole, static_cast<qint64>(chart.id));
        const QString size =
            tr("%1 × %2 stitches")
                .arg(QLocale().toString(chart.columns), QLocale().toString(chart.rows));
        item->setData(ChartRow::kSizeRole, size);
        item->setToolTip(chart.name);
        item->setData(Qt::AccessibleTextRole, tr("%1, %2").arg(chart.name, size));
    }
    showCurrent();
    updateGeometry();
}

void ChartList::showCurrent() {
    const QSignalBlocker quiet(this);
    const auto chosen = m_session.chartId();
    for (int row = 0; chosen && row < count(); ++row) {
        if (item(row)->data(ChartRow::kIdRole).toLongLong() == static_cast<qint64>(*chosen)) {
            setCurrentRow(row);
        }
    }
}

std::optional<workbox::ChartId> ChartList::current() const {
    const QListWidgetItem* item = currentItem();
    return item == nullptr
               ? std::nullopt
               : std::optional(workbox::ChartId{item->data(ChartRow::kIdRole).toLongLong()});
}

void ChartList::renameCurrent() {
    if (currentItem() != nullptr) {
        setFocus();
        editItem(currentItem());
    }
}

void ChartList::rename(QListWidgetItem* item) {
    const workbox::ChartId id{item->data(ChartRow::kIdRole).toLongLong()};
    const auto& charts = m_session.document().charts();
    const auto chart = std::ranges::find(charts, id, &workbox::ChartFacts::id);
    if (chart == charts.end() || chart->name == item->text()) {
        return;
    }
    // The document fills this list anew, so it must wait until the list's own editor has closed.
    QMetaObject::invokeMethod(
        this,
        [this, id, after = item->text()] {
            try {
                m_session.document().renameChart(id, after);
            } catch (const base::InputError& error) {
                Q_EMIT refused(error.line());
            }
            fill();
        },
        Qt::QueuedConnection);
}

void ChartList::keyPressEvent(QKeyEvent* event) {
    if (state() != EditingState) {
        switch (event->key()) {
        case Qt::Key_Delete:
            Q_EMIT deleteAsked();
            return;
        case Qt::Key_Return:
        case Qt::Key_Enter:
            event->accept(); // the chart is shown already
            return;
        default:
            break;
        }
    }
    QListWidget::keyPressEvent(event);
}

QSize ChartList::sizeHint() const {
    return {200, ChartRow::kHeight * std::clamp(count(), 2, kMostRowsWanted)};
}

QSize ChartList::minimumSizeHint() const {
    return {120, ChartRow::kHeight * std::clamp(count(), 1, 2)};
}

} // namespace otherskein::app
