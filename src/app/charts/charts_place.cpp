#include "app/charts/charts_place.h"

#include "app/charts/chart_bar.h"
#include "app/charts/chart_desk.h"
#include "app/charts/chart_jobs.h"
#include "app/charts/chart_list_panel.h"
#include "app/charts/chart_side.h"
#include "app/charts/charts_empty.h"
#include "app/charts/key_model.h"
#include "app/charts/key_page.h"
#include "app/charts/mend_canvas.h"
#include "app/tracing/trace_dialog.h"
#include "app/tracing/traced_view.h"
#include "base/input_error.h"

#include <QCoreApplication>
#include <QDragEnterEvent>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QShortcut>
#include <QStackedLayout>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

const QString kPageViewSetting = QStringLiteral("page_view");

} // namespace

struct ChartsPlace::Private {
    Session& session;
    ChartDesk* desk;
    ChartListPanel* charts;
    MendCanvas* canvas;
    TracedView* traced;
    ChartBar* bar;
    ChartSide* side;
    ChartsEmpty* empty;
    QWidget* work;
    QStackedLayout* pages;
    std::vector<QShortcut*> modeKeys{};
    PageView shownView = PageView::Off;
    QString refusedPage{}; ///< the last picture that is no chart's but may be a page
};

ChartsPlace::ChartsPlace(Session& session, QWidget* parent) : QWidget(parent) {
    auto* desk = new ChartDesk(session, this);
    auto* work = new QWidget(this);
    auto* canvas = new MendCanvas(*desk, work);
    m_private = std::make_unique<Private>(
        Private{session, desk, new ChartListPanel(session, work), canvas,
                new TracedView(*desk, work), new ChartBar(*desk, *canvas, work),
                new ChartSide(*desk, work), new ChartsEmpty(this), work, new QStackedLayout(this)});
    TracedDesk& traced = m_private->traced->traced();
    m_private->side->key().model().setPrints(
        [&traced](chart::KeyIndex row, int pixels) { return traced.printOf(row, pixels); });
    setAcceptDrops(true);
    layOut();
    connectParts();
    addKeys();
    // A page half looked through goes on where it was left.
    const int view = session.document().store().setting(kPageViewSetting).toInt();
    if (view >= 0 && view <= static_cast<int>(PageView::All)) {
        desk->with([view](ChartsState& state) { state.pageView = static_cast<PageView>(view); });
    }
    showPage();
}

ChartsPlace::~ChartsPlace() = default;

void ChartsPlace::layOut() {
    Private& d = *m_private;
    auto* middle = new QVBoxLayout;
    middle->setSpacing(0);
    middle->addWidget(d.bar);
    middle->addWidget(d.canvas, 1);
    middle->addWidget(d.traced, 1);
    d.traced->hide();
    auto* across = new QHBoxLayout(d.work);
    across->setContentsMargins(0, 0, 0, 0);
    across->setSpacing(0);
    across->addWidget(d.charts);
    across->addLayout(middle, 1);
    across->addWidget(d.side);
    d.pages->addWidget(d.work);
    d.pages->addWidget(d.empty);
}

void ChartsPlace::connectParts() {
    const Private& d = *m_private;
    connect(d.desk, &ChartDesk::told, this, &ChartsPlace::told);
    connect(d.desk, &ChartDesk::refused, this, &ChartsPlace::refused);
    connect(d.desk, &ChartDesk::chartReplaced, this, &ChartsPlace::showPage);
    connect(d.charts, &ChartListPanel::openAsked, this, &ChartsPlace::askForFiles);
    connect(d.bar, &ChartBar::openAsked, this, &ChartsPlace::askForFiles);
    connect(d.charts, &ChartListPanel::traceAsked, this, &ChartsPlace::askForPage);
    connect(d.bar, &ChartBar::traceAsked, this, &ChartsPlace::askForPage);
    // Whoever chose it there wants the keys of what is shown.
    connect(d.bar, &ChartBar::chartChosen, this, [this] { setFocus(); });
    connect(d.empty, &ChartsEmpty::traceAsked, this, &ChartsPlace::askForPage);
    connect(d.desk, &ChartDesk::stateChanged, this, &ChartsPlace::showView);
    connect(d.charts, &ChartListPanel::exportAsked, this, &ChartsPlace::askForExport);
    connect(d.charts, &ChartListPanel::deleteAsked, this, &ChartsPlace::deleteChart);
    connect(&d.charts->list(), &ChartList::refused, this, &ChartsPlace::refused);
    connect(d.side, &ChartSide::recolourAsked, this, &ChartsPlace::recolourAsked);
    connect(d.empty, &ChartsEmpty::openAsked, this, &ChartsPlace::askForFiles);
    connect(d.empty, &ChartsEmpty::demoAsked, this, &ChartsPlace::demoAsked);
}

void ChartsPlace::addKeys() {
    const auto add = [this](const QKeySequence& keys, auto start) {
        auto* shortcut = new QShortcut(keys, this);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, start);
        return shortcut;
    };
    for (int mode = 0; mode < kMendModes; ++mode) {
        m_private->modeKeys.push_back(add(QKeySequence(Qt::Key_1 + mode), [this, mode] {
            m_private->desk->with(
                [mode](ChartsState& state) { state.mode = static_cast<MendMode>(mode); });
        }));
    }
}

const ChartsState& ChartsPlace::state() const {
    return m_private->desk->state();
}

void ChartsPlace::setState(const ChartsState& state) {
    m_private->desk->setState(state);
}

bool ChartsPlace::isBusy() const {
    return m_private->desk->isBusy() || m_private->charts->list().isBusy();
}

ChartDesk& ChartsPlace::desk() const {
    return *m_private->desk;
}

MendCanvas& ChartsPlace::canvas() const {
    return *m_private->canvas;
}

void ChartsPlace::showPage() {
    const Private& d = *m_private;
    const bool none = d.desk->chart() == nullptr;
    d.pages->setCurrentWidget(none ? static_cast<QWidget*>(d.empty) : d.work);
    setFocusProxy(none ? static_cast<QWidget*>(d.empty) : d.canvas);
    showView();
}

void ChartsPlace::showView() {
    const Private& d = *m_private;
    if (d.desk->chart() == nullptr) {
        return;
    }
    const bool beside = d.desk->state().pageView != PageView::Off;
    // Whoever asks for another view, by a button of the bar too, wants its keys.
    const bool changes =
        std::exchange(m_private->shownView, d.desk->state().pageView) != d.desk->state().pageView;
    for (QShortcut* key : d.modeKeys) {
        key->setEnabled(!beside); // figures change cells there
    }
    d.canvas->setVisible(!beside);
    d.traced->setVisible(beside);
    d.charts->showAboutPictures(d.desk->page() == nullptr);
    makeRoom();
    d.bar->setZoomed(beside ? d.traced->canvas() : *d.canvas);
    setFocusProxy(beside ? static_cast<QWidget*>(d.traced) : d.canvas);
    if (changes) {
        d.session.document().store().setSetting(
            kPageViewSetting, QString::number(static_cast<int>(d.desk->state().pageView)));
        setFocus();
    }
}

TracedView& ChartsPlace::tracedView() const {
    return *m_private->traced;
}

void ChartsPlace::resizeEvent(QResizeEvent* event) {
    makeRoom();
    QWidget::resizeEvent(event);
}

/// In a small window the chart needs the room, and a page beside it needs more; a menu stands in
/// for the list.
void ChartsPlace::makeRoom() {
    constexpr int kRoomForList = 1120;
    constexpr int kRoomBesidePage = 1500;
    const bool beside = m_private->desk->state().pageView != PageView::Off;
    const bool room = width() >= (beside ? kRoomBesidePage : kRoomForList);
    m_private->charts->setVisible(room);
    m_private->bar->showMenuOfCharts(!room);
}

QSize ChartsPlace::minimumSizeHint() const {
    return {870, 480}; // without the list of charts
}

void ChartsPlace::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && m_private->desk->chart()) {
        m_private->desk->with([](ChartsState& state) {
            if (state.pageView != PageView::Off) {
                state.pageView = PageView::Off;
            } else if (state.cutting || state.mode != MendMode::Look) {
                state.cutting = false;
                state.mode = MendMode::Look;
            } else {
                state.row.reset();
                state.motifs.clear();
            }
        });
        return;
    }
    // Keys that nothing beside the page has a use for are the page's.
    const QWidget* focus = window()->focusWidget();
    if (m_private->desk->state().pageView != PageView::Off && event->text().size() == 1 &&
        event->text().front().isLetterOrNumber() && focus != nullptr &&
        !m_private->traced->isAncestorOf(focus)) {
        setFocus();
        if (QWidget* now = window()->focusWidget(); m_private->traced->isAncestorOf(now)) {
            QCoreApplication::sendEvent(now, event);
        }
        return;
    }
    QWidget::keyPressEvent(event);
}

void ChartsPlace::askForFiles() {
    const QStringList pictures = askForPictures(this);
    if (!pictures.isEmpty()) {
        openFiles(pictures);
    }
}

void ChartsPlace::askForPage() {
    const QStringList files = askForPages(this, m_private->refusedPage);
    if (!files.isEmpty()) {
        tracePages(files);
    }
}

void ChartsPlace::tracePages(const QStringList& files) {
    m_private->refusedPage.clear();
    auto* dialog = new TraceDialog(m_private->session, inOrderOfPages(files), this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &TraceDialog::made, this, [this](workbox::ChartId id) {
        m_private->session.chooseChart(id);
        m_private->desk->with([](ChartsState& state) { state.pageView = PageView::Cells; });
        const TracedDesk& traced = m_private->traced->traced();
        const QString doubtful = tr("%Ln cells are doubtful.", nullptr, traced.doubtfulLeft());
        const int alike = traced.alikeCount();
        Q_EMIT told(
            alike == 0
                ? tr("The page is traced: %1").arg(doubtful)
                : tr("The page is traced: %1 %2")
                      .arg(doubtful, tr("%Ln symbols look like another one: “All symbols” joins "
                                        "them.",
                                        nullptr, alike)));
    });
    dialog->open();
}

void ChartsPlace::openFiles(const QStringList& files) {
    QStringList pictures;
    QStringList pages;
    for (const QString& file : files) {
        // One picture alone is asked about; among several, what cannot be a chart is a page.
        const bool page = isPage(file) || (files.size() > 1 && couldBePage(file));
        (page ? pages : pictures).push_back(file);
    }
    if (!pages.isEmpty()) {
        tracePages(pages);
    }
    if (pictures.isEmpty()) {
        return;
    }
    Session& session = m_private->session;
    const OpenedCharts opened = openCharts(session.document(), pictures);
    if (!opened.charts.empty()) {
        session.chooseChart(opened.charts.back());
    }
    const int came = static_cast<int>(opened.charts.size());
    const int refusals = static_cast<int>(opened.refusals.size());
    if (refusals == 1 && pictures.size() == 1 && couldBePage(pictures.front())) {
        m_private->refusedPage = pictures.front();
        Q_EMIT refused(
            tr("%1. If it is a printed page, use “Trace a page…”.").arg(opened.refusals.front()));
    } else if (refusals == 1) {
        Q_EMIT refused(opened.refusals.front());
    } else if (refusals > 1) {
        Q_EMIT refused(tr("%1 (and %n more files refused)", nullptr, refusals - 1)
                           .arg(opened.refusals.front()));
    } else if (came == 1) {
        Q_EMIT told(tr("The chart %1 is open.").arg(m_private->desk->chart()->name));
    } else if (came > 1) {
        Q_EMIT told(tr("%n charts are open.", nullptr, came));
    }
}

void ChartsPlace::askForExport() {
    if (const auto& chart = m_private->desk->chart()) {
        const QString picture = askForExportPicture(this, chart->name);
        if (!picture.isEmpty()) {
            exportTo(picture);
        }
    }
}

void ChartsPlace::exportTo(const QString& picture) {
    const auto chart = m_private->desk->chart();
    if (chart && m_private->desk->attempt([&] { exportChart(*chart, picture); })) {
        Q_EMIT told(tr("The chart %1 and its key are written to %2.").arg(chart->name, picture));
    }
}

void ChartsPlace::deleteChart() {
    const Private& d = *m_private;
    if (!d.desk->id()) {
        return;
    }
    const QString name = d.desk->chart()->name;
    if (d.desk->attempt([&] { d.session.document().removeChart(*d.desk->id()); })) {
        Q_EMIT told(tr("The chart %1 is deleted. Undo brings it back.").arg(name));
    }
}

void ChartsPlace::dragEnterEvent(QDragEnterEvent* event) {
    if (!picturesIn(*event->mimeData()).isEmpty()) {
        event->acceptProposedAction();
    }
}

void ChartsPlace::dropEvent(QDropEvent* event) {
    const QStringList pictures = picturesIn(*event->mimeData());
    if (!pictures.isEmpty()) {
        event->acceptProposedAction();
        openFiles(pictures);
    }
}

} // namespace otherskein::app
