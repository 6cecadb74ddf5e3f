#include "app/frame/main_window.h"

#include "app/charts/chart_jobs.h"
#include "app/charts/charts_place.h"
#include "app/frame/look.h"
#include "app/frame/message_bar.h"
#include "app/frame/welcome.h"
#include "app/ground/ground_place.h"
#include "app/recolour/recolour_place.h"
#include "app/substitute/substitute_place.h"
#include "app/threads/threads_place.h"
#include "base/input_error.h"

#include <QActionGroup>
#include <QApplication>
#include <QDragEnterEvent>
#include <QHBoxLayout>
#include <QMenuBar>
#include <QMessageBox>
#include <QMimeData>
#include <QStackedWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

const QString kPlaceSetting = QStringLiteral("place");
const QString kToneSetting = QStringLiteral("tone");

QStringList localFiles(const QMimeData& data) {
    QStringList paths;
    for (const QUrl& url : data.urls()) {
        if (url.isLocalFile()) {
            paths.push_back(url.toLocalFile());
        }
    }
    return paths;
}

} // namespace

MainWindow::MainWindow(workbox::Document& document, QWidget* parent)
    : QMainWindow(parent), m_session(document), m_rail(new Rail(this)),
      m_pages(new QStackedWidget(this)), m_welcome(new Welcome(this)),
      m_threads(new ThreadsPlace(m_session, this)), m_charts(new ChartsPlace(m_session, this)),
      m_substitute(new SubstitutePlace(m_session, this)),
      m_recolour(new RecolourPlace(m_session, this)), m_ground(new GroundPlace(m_session, this)),
      m_messages(new MessageBar(this)) {
    setWindowTitle(tr("Otherskein"));
    setAcceptDrops(true);
    resize(1280, 800);
    setMinimumSize(960, 620);

    m_pages->addWidget(m_threads);
    m_pages->addWidget(m_charts);
    m_pages->addWidget(m_substitute);
    m_pages->addWidget(m_recolour);
    m_pages->addWidget(m_ground);
    m_pages->addWidget(m_welcome);

    auto* body = new QWidget(this);
    auto* across = new QHBoxLayout(body);
    across->setContentsMargins(0, 0, 0, 0);
    across->setSpacing(0);
    across->addWidget(m_rail);
    auto* column = new QVBoxLayout;
    column->setSpacing(0);
    column->addWidget(m_pages, 1);
    column->addWidget(m_messages);
    across->addLayout(column, 1);
    setCentralWidget(body);
    makeMenus();

    connectPlaces();
    const int last = document.store().setting(kPlaceSetting).toInt();
    m_place = static_cast<PlaceId>(std::clamp(last, 0, kPlaces - 1));
    showPage();
}

void MainWindow::connectPlaces() {
    const auto refuse = [this](const QString& line) { m_messages->refuse(line); };
    const auto tell = [this](const QString& text) { m_messages->tell(text); };
    const auto listen = [&](auto* place) {
        using Place = std::remove_pointer_t<decltype(place)>;
        connect(place, &Place::told, this, tell);
        connect(place, &Place::refused, this, refuse);
    };
    listen(m_threads);
    listen(m_charts);
    listen(m_substitute);
    listen(m_recolour);
    listen(m_ground);
    workbox::Document& document = m_session.document();
    connect(&document, &workbox::Document::cardsChanged, this, &MainWindow::showPage);
    connect(&document, &workbox::Document::saveFailed, this, refuse);
    // What a message says of the last step is stale once there is another.
    connect(&document.undoStack(), &QUndoStack::indexChanged, m_messages, &QWidget::hide);
    connect(m_rail, &Rail::chosen, this, [this](PlaceId place) { show(place); });
    connect(m_welcome, &Welcome::demoAsked, this, &MainWindow::openDemo);
    connect(m_welcome, &Welcome::importAsked, m_threads, &ThreadsPlace::askForFiles);
    connect(m_charts, &ChartsPlace::demoAsked, this, &MainWindow::openDemo);
    connect(m_charts, &ChartsPlace::recolourAsked, this, [this] { show(PlaceId::Recolour); });
    connect(m_recolour, &RecolourPlace::demoAsked, this, &MainWindow::openDemo);
    connect(m_recolour, &RecolourPlace::chartsAsked, this, [this] { show(PlaceId::Charts); });
    connect(m_ground, &GroundPlace::demoAsked, this, &MainWindow::openDemo);
    connect(&m_session, &Session::substituteAsked, this, [this] { show(PlaceId::Substitute); });
}

void MainWindow::show(PlaceId place) {
    if (place != m_place) {
        m_messages->hide();
    }
    m_place = place;
    m_session.document().store().setSetting(kPlaceSetting,
                                            QString::number(static_cast<int>(place)));
    showPage();
}

void MainWindow::showPage() {
    // A workbox without cards has nothing to show in these two places but how to begin.
    const bool begins = m_session.document().cards().empty() &&
                        (m_place == PlaceId::Threads || m_place == PlaceId::Substitute);
    if (begins) {
        m_pages->setCurrentWidget(m_welcome);
        m_welcome->setFocus();
    } else {
        m_pages->setCurrentIndex(static_cast<int>(m_place));
        m_pages->currentWidget()->setFocus();
    }
    m_rail->setCurrent(m_place);
}

void MainWindow::openDemo() {
    try {
        m_session.openDemo();
        show(PlaceId::Recolour);
        m_messages->tell(
            tr("The demo is open: a row of boathouses in one colour, and ways to stitch "
               "it in many. Click one. Undo takes the demo away again."));
    } catch (const base::InputError& error) {
        m_messages->refuse(error.line());
    }
}

void MainWindow::makeFileMenu() {
    QMenu* file = menuBar()->addMenu(tr("&File"));
    file->addAction(tr("Open a &chart picture…"), QKeySequence::Open, this, [this] {
        show(PlaceId::Charts);
        m_charts->askForFiles();
    });
    file->addAction(tr("&Trace a page…"), QKeySequence(Qt::CTRL | Qt::Key_T), this, [this] {
        show(PlaceId::Charts);
        m_charts->askForPage();
    });
    file->addAction(tr("&Import shade cards…"), QKeySequence(Qt::CTRL | Qt::Key_I), m_threads,
                    &ThreadsPlace::askForFiles);
    file->addAction(tr("Open a chart's &key…"), QKeySequence(Qt::CTRL | Qt::Key_K), m_substitute,
                    &SubstitutePlace::askForKey);
    file->addAction(tr("Open the &demo"), this, &MainWindow::openDemo);
    file->addSeparator();
    file->addAction(tr("&Quit"), QKeySequence::Quit, this, &QWidget::close);
}

void MainWindow::makeMenus() {
    QUndoStack& undo = m_session.document().undoStack();
    makeFileMenu();

    QMenu* edit = menuBar()->addMenu(tr("&Edit"));
    QAction* undoAction = undo.createUndoAction(this, tr("&Undo"));
    undoAction->setShortcuts(QKeySequence::Undo);
    QAction* redoAction = undo.createRedoAction(this, tr("&Redo"));
    redoAction->setShortcuts(QKeySequence::Redo);
    edit->addActions({undoAction, redoAction});
    connect(undoAction, &QAction::triggered, this,
            [this, &undo] { m_messages->tell(tr("Undone: %1").arg(undo.redoText())); });
    connect(redoAction, &QAction::triggered, this,
            [this, &undo] { m_messages->tell(tr("Done again: %1").arg(undo.undoText())); });
    edit->addSeparator();
    edit->addAction(tr("&Find"), QKeySequence::Find, this, [this] {
        if (m_place == PlaceId::Substitute) {
            m_substitute->focusWanted();
        } else {
            show(PlaceId::Threads);
            m_threads->focusSearch();
        }
    });

    QMenu* view = menuBar()->addMenu(tr("&View"));
    for (int i = 0; i < kPlaces; ++i) {
        const auto place = static_cast<PlaceId>(i);
        view->addAction(placeName(place), QKeySequence(Qt::CTRL | (Qt::Key_1 + i)), this,
                        [this, place] { show(place); });
    }
    view->addSeparator();
    auto* tones = new QActionGroup(this);
    const std::pair<Tone, QString> choices[] = {{Tone::Light, tr("&Light")},
                                                {Tone::Dark, tr("&Dark")}};
    for (const auto& [one, name] : choices) {
        QAction* action = view->addAction(name, this, [this, one = one] { chooseTone(int(one)); });
        action->setCheckable(true);
        action->setChecked(tone() == one);
        tones->addAction(action);
    }

    QMenu* help = menuBar()->addMenu(tr("&Help"));
    help->addAction(tr("&Cautions"), this, [this] {
        QMessageBox::information(this, tr("Cautions"),
                                 tr("Screen colours guide; the skein in hand decides. Compare in "
                                    "the light where the piece will "
                                    "hang.\n\nDye lots differ: buy enough of one lot.\n\nStrong "
                                    "reds, blues and blacks can bleed: "
                                    "test before washing.\n\nA chart is its designer's: share the "
                                    "thread list, not the chart."));
    });
}

void MainWindow::chooseTone(int tone) {
    auto* application = qobject_cast<QApplication*>(QCoreApplication::instance());
    applyLook(*application, static_cast<Tone>(tone));
    m_session.document().store().setSetting(kToneSetting, wordOf(static_cast<Tone>(tone)));
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    if (!localFiles(*event->mimeData()).isEmpty()) {
        event->acceptProposedAction();
    }
}

void MainWindow::dropEvent(QDropEvent* event) {
    const QStringList paths = localFiles(*event->mimeData());
    if (!paths.isEmpty()) {
        event->acceptProposedAction();
        openDropped(paths);
    }
}

/// Pictures are charts, pages become charts, everything else is read as shade cards.
void MainWindow::openDropped(const QStringList& paths) {
    QStringList pictures;
    QStringList cards;
    for (const QString& path : paths) {
        const bool picture =
            path.endsWith(QStringLiteral(".png"), Qt::CaseInsensitive) || isPage(path);
        (picture ? pictures : cards).push_back(path);
    }
    if (!cards.isEmpty()) {
        m_threads->importFiles(cards);
    }
    if (!pictures.isEmpty()) {
        show(PlaceId::Charts);
        m_charts->openFiles(pictures);
    }
}

} // namespace otherskein::app
