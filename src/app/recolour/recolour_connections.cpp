// How the pieces of RecolourPlace act on each other, and what it does with files.
#include "app/recolour/alternatives_model.h"
#include "app/recolour/alternatives_wall.h"
#include "app/recolour/before_after_canvas.h"
#include "app/recolour/colourway_bar.h"
#include "app/recolour/colourway_side.h"
#include "app/recolour/colourway_table.h"
#include "app/recolour/picture_colours.h"
#include "app/recolour/recolour_empty.h"
#include "app/recolour/recolour_header.h"
#include "app/recolour/recolour_place.h"
#include "app/recolour/theme_bar.h"
#include "base/input_error.h"
#include "chart/chart_files.h"

#include <QDragEnterEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QMimeData>
#include <QShortcut>

namespace otherskein::app {

namespace {

/// Seeds that one wall looks at; the next wall begins after them.
constexpr std::uint64_t kSeedsOfAWall = 24;

QString pictureIn(const QMimeData& data) {
    for (const QUrl& url : data.urls()) {
        if (url.isLocalFile() && isPictureName(url.toLocalFile())) {
            return url.toLocalFile();
        }
    }
    return {};
}

} // namespace

void RecolourPlace::connectDesk() {
    connect(m_desk, &RecolourDesk::changed, this, &RecolourPlace::showDesk);
    connect(m_desk, &RecolourDesk::told, this, &RecolourPlace::told);
    connect(m_desk, &RecolourDesk::refused, this, &RecolourPlace::refused);
    connect(m_empty, &RecolourEmpty::chartsAsked, this, &RecolourPlace::chartsAsked);
    connect(m_empty, &RecolourEmpty::demoAsked, this, &RecolourPlace::demoAsked);
    connect(m_header, &RecolourHeader::chartChosen, &m_session, &Session::chooseChart);
    connect(m_header, &RecolourHeader::stepChosen, m_desk, &RecolourDesk::changeStep);
    connect(m_header, &RecolourHeader::jobChosen, this, [this](RecolourJob job) {
        RecolourState next = m_desk->state();
        next.job = job;
        m_desk->ask(next);
    });
}

void RecolourPlace::connectWall() {
    connect(m_theme, &ThemeBar::asked, m_desk, &RecolourDesk::ask);
    connect(m_theme, &ThemeBar::pictureAsked, this, &RecolourPlace::askForPicture);
    connect(m_theme, &ThemeBar::newIdeasAsked, this, &RecolourPlace::newIdeas);
    connect(m_theme, &ThemeBar::moreLikeAsked, this,
            [this] { moreLike(m_wall->currentIndex().row()); });
    connect(m_theme, &ThemeBar::stopAsked, m_worker, &RecolourWorker::stop);

    connect(m_worker, &RecolourWorker::found, this, [this](const Alternative& alternative) {
        const bool isFirst = m_model->isStale() || m_model->rowCount() == 0;
        m_model->add(alternative);
        if (isFirst) {
            m_desk->suggest(alternative.colourway);
        }
    });
    connect(m_worker, &RecolourWorker::progressed, this,
            [this](double done) { showProgress(done); });
    connect(m_worker, &RecolourWorker::finished, this, [this] {
        m_model->settle();
        showProgress(std::nullopt);
    });
    connect(m_worker, &RecolourWorker::failed, this, [this](const QString& line) {
        m_model->clear();
        m_wall->setEmptyText(line);
        showProgress(std::nullopt);
    });

    connect(m_wall, &AlternativesWall::takeAsked, this,
            [this](int row) { m_desk->take(m_model->alternative(row).colourway); });
    connect(m_wall, &AlternativesWall::newIdeasAsked, this, &RecolourPlace::newIdeas);
    connect(m_wall, &AlternativesWall::moreLikeAsked, this, &RecolourPlace::moreLike);
    const auto canLike = [this] {
        m_theme->setCanLike(m_wall->currentIndex().isValid() && !m_model->isStale());
    };
    connect(m_wall->selectionModel(), &QItemSelectionModel::currentChanged, this, canLike);
    connect(m_model, &QAbstractItemModel::modelReset, this, canLike);
    canLike();
}

void RecolourPlace::connectSide() {
    connect(m_side, &ColourwaySide::lockAsked, m_desk, &RecolourDesk::setLocked);
    connect(m_side, &ColourwaySide::threadMeant, m_desk, &RecolourDesk::changeThread);
    connect(m_side, &ColourwaySide::told, this, &RecolourPlace::told);
    connect(m_side, &ColourwaySide::saveAsked, this, &RecolourPlace::askWhereToSave);
    connect(m_side, &ColourwaySide::chartAsked, m_desk, &RecolourDesk::makeChart);
    connect(m_side, &ColourwaySide::partsChosen, this,
            [this](const std::vector<std::size_t>& parts) {
                m_canvas->setChosen(parts.empty() || !m_side->table().hasFocus()
                                        ? std::nullopt
                                        : std::optional(parts.front()));
            });
    ColourwayBar& bar = m_side->bar();
    connect(&bar, &ColourwayBar::chosen, m_desk, &RecolourDesk::choose);
    connect(&bar, &ColourwayBar::renamed, m_desk, &RecolourDesk::rename);
    connect(&bar, &ColourwayBar::copyAsked, m_desk, &RecolourDesk::keepCopy);
    connect(&bar, &ColourwayBar::deleteAsked, m_desk, &RecolourDesk::remove);
}

void RecolourPlace::connectCanvas() {
    connect(m_canvas, &BeforeAfterCanvas::dividerMoved, m_desk, &RecolourDesk::setDivider);
    connect(m_canvas, &BeforeAfterCanvas::partChosen, this, [this](std::size_t part) {
        m_side->table().choosePart(part);
        m_canvas->setChosen(part);
    });
}

void RecolourPlace::makeShortcuts() {
    const auto on = [this](Qt::Key key, auto what) {
        auto* shortcut = new QShortcut(QKeySequence(key), this);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, what);
        return shortcut;
    };
    on(Qt::Key_R, [this] { newIdeas(); });
    on(Qt::Key_L, [this] { m_side->table().turnLock(); });
}

void RecolourPlace::newIdeas() {
    if (!m_desk->subject() || !hasNewIdeas(m_desk->state())) {
        return;
    }
    RecolourState next = m_desk->state();
    next.seed += kSeedsOfAWall;
    m_desk->ask(next);
}

void RecolourPlace::moreLike(int row) {
    if (row >= 0 && row < m_model->rowCount() && !m_model->isStale()) {
        m_liked = m_model->alternative(row).colourway;
        askWall();
    }
}

void RecolourPlace::openPicture(const QString& path) {
    try {
        RecolourState next = m_desk->state();
        next.pictureColours = coloursOfPicture(path);
        next.pictureName = QFileInfo(path).fileName();
        next.source = ColourSource::Picture;
        if (next.job == RecolourJob::Convert) {
            next.job = RecolourJob::Family; // converting keeps the chart's own colours
        }
        m_desk->ask(next);
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

void RecolourPlace::askForPicture() {
    const QString path = QFileDialog::getOpenFileName(
        this, tr("A picture to take colours from"), {},
        pictureNameFilter() + QStringLiteral(";;") + tr("All files (*)"));
    if (!path.isEmpty()) {
        openPicture(path);
    }
}

void RecolourPlace::saveTo(const QString& picture) const {
    const QFileInfo file(picture);
    const QString key =
        file.path() + QLatin1Char('/') + file.completeBaseName() + QStringLiteral(".key.csv");
    // The dialog has asked about the picture; a key without one belongs to something else.
    const auto existing = file.exists() ? base::Existing::Replace : base::Existing::Refuse;
    chart::writeChart(m_desk->worked(), picture, key, existing);
}

void RecolourPlace::askWhereToSave() {
    if (!m_desk->shown()) {
        return;
    }
    QString name = m_desk->worked().name;
    name.replace(QLatin1Char('/'), QLatin1Char('-'));
    QString path =
        QFileDialog::getSaveFileName(this, tr("Save the recoloured chart"),
                                     name + QStringLiteral(".png"), tr("Chart pictures (*.png)"));
    if (path.isEmpty()) {
        return;
    }
    if (!path.endsWith(QStringLiteral(".png"), Qt::CaseInsensitive)) {
        path += QStringLiteral(".png");
    }
    try {
        saveTo(path);
        Q_EMIT told(tr("%1 and its key are saved.").arg(QFileInfo(path).fileName()));
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

void RecolourPlace::dragEnterEvent(QDragEnterEvent* event) {
    if (m_desk->subject() && !pictureIn(*event->mimeData()).isEmpty()) {
        event->acceptProposedAction();
    }
}

void RecolourPlace::dropEvent(QDropEvent* event) {
    if (const QString path = pictureIn(*event->mimeData()); !path.isEmpty()) {
        event->acceptProposedAction();
        openPicture(path);
    }
}

} // namespace otherskein::app
