#include "app/tracing/trace_dialog.h"

#include "app/charts/chart_jobs.h"
#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/tracing/edges_bar.h"
#include "app/tracing/page_preview.h"
#include "app/tracing/pieces_panel.h"
#include "app/tracing/tracing_edits.h"
#include "base/input_error.h"

#include <QDragEnterEvent>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kPercent = 100;

} // namespace

TraceDialog::TraceDialog(Session& session, const QStringList& files, QWidget* parent,
                         const Tracer& tracer)
    : QDialog(parent), m_session(session), m_files(files), m_tracer(tracer),
      m_pages(new PageList(this)), m_preview(new PagePreview(this)), m_edges(new EdgesBar(this)),
      m_pieces(new PiecesPanel(this)), m_advice(noteLabel({}, this)), m_trouble(new QLabel(this)),
      m_progress(new QProgressBar(this)), m_add(new QPushButton(tr("Add pages…"), this)),
      m_stop(new QPushButton(tr("Stop"), this)),
      m_make(new QPushButton(tr("Make the chart"), this)), m_worker(new TraceWorker(this)) {
    setWindowTitle(files.size() == 1
                       ? tr("Trace a page: %1").arg(QFileInfo(files.front()).fileName())
                       : tr("Trace pages of %n files", nullptr, static_cast<int>(files.size())));
    build();
    connectParts();
    countPages();
}

void TraceDialog::connectParts() {
    connect(m_pages, &PageList::ticked, this, &TraceDialog::tick);
    connect(m_pages, &PageList::allAsked, this, &TraceDialog::tickAll);
    connect(m_pages, &PageList::currentChanged, this, &TraceDialog::choosePage);
    connect(m_preview, &PagePreview::toggled, this, &TraceDialog::toggleGrid);
    connect(m_preview, &PagePreview::edgeMoved, this, &TraceDialog::moveEdge);
    connect(m_edges, &EdgesBar::moved, this, &TraceDialog::moveEdge);
    connect(m_edges, &EdgesBar::zoomAsked, m_preview, &PagePreview::zoomBy);
    // Not a default button: Enter in a number of the pieces' list must not begin to trace.
    connect(m_preview, &PagePreview::confirmed, m_make, &QPushButton::click);
    connect(m_stop, &QPushButton::clicked, this, &TraceDialog::stopOrGoOn);
    connect(m_make, &QPushButton::clicked, this, &TraceDialog::make);
    connect(m_worker, &TraceWorker::progressed, this, [this](double share) {
        m_progress->setRange(0, kPercent);
        m_progress->setValue(qRound(share * kPercent));
    });
    connect(m_worker, &TraceWorker::failed, this, &TraceDialog::takeFailure);
    connect(m_worker, &TraceWorker::idle, this, &TraceDialog::advance);
}

void TraceDialog::countPages() {
    m_stage = tr("Opening the file …");
    m_worker->start(
        [this, files = m_files.mid(m_counted), count = m_tracer.pageCount](const trace::Progress&) {
            const CountedPages counted = pagesOf(files, count);
            return [this, counted] {
                m_line = counted.line;
                takePages(counted.counts);
            };
        });
    showState();
}

void TraceDialog::takePages(const std::vector<int>& counts) {
    const bool first = m_sheets.empty();
    for (const int count : counts) {
        const QString& file = m_files[m_counted++];
        for (int page = 1; page <= count; ++page) {
            PageSheet sheet;
            sheet.file = file;
            sheet.number = page;
            // Pictures that are opened together are pages of one chart.
            sheet.wanted = m_files.size() > 1 && count == 1;
            m_sheets.push_back(sheet);
        }
    }
    m_pages->show(m_sheets);
    if (first) {
        m_pages->setCurrent(0);
    }
    m_pages->setVisible(m_sheets.size() > 1);
}

void TraceDialog::addFiles(const QStringList& files) {
    const QStringList more = inOrderOfPages(files);
    if (!more.isEmpty() && !m_tracing) {
        m_files += more;
        goOn();
    }
}

std::optional<std::size_t> TraceDialog::nextToRead() const {
    const auto isNeeded = [this](std::size_t i) {
        const PageSheet& sheet = m_sheets[i];
        return (sheet.wanted || i == m_shown) && sheet.page == nullptr && sheet.trouble.isEmpty();
    };
    if (m_shown < m_sheets.size() && isNeeded(m_shown)) {
        return m_shown;
    }
    for (std::size_t i = 0; i < m_sheets.size(); ++i) {
        if (isNeeded(i)) {
            return i;
        }
    }
    return std::nullopt;
}

void TraceDialog::advance() {
    if (m_worker->isBusy()) {
        return;
    }
    m_tracing = false;
    m_reading.reset();
    if (!m_halted && m_counted < m_files.size()) {
        countPages();
    } else if (!m_halted) {
        if (const auto next = nextToRead()) {
            read(*next);
        } else if (!m_joined && !m_sheets.empty()) {
            join();
        }
    }
    showState();
}

void TraceDialog::goOn() {
    m_halted = false;
    m_line.clear();
    advance();
}

void TraceDialog::read(std::size_t sheet) {
    m_stage = m_sheets.size() == 1
                  ? tr("Reading the page …")
                  : tr("Reading page %1 of %2 …").arg(sheet + 1).arg(m_sheets.size());
    m_reading = sheet;
    const PageSheet& one = m_sheets[sheet];
    m_worker->start([this, sheet, file = one.file, number = one.number,
                     tracer = m_tracer](const trace::Progress&) {
        auto page = std::make_shared<const trace::Page>(tracer.readPage(file, number));
        std::vector<trace::FoundGrid> grids = tracer.gridsOn(*page);
        return [this, sheet, page, grids = std::move(grids)] { takeRead(sheet, page, grids); };
    });
}

void TraceDialog::takeRead(std::size_t sheet, const std::shared_ptr<const trace::Page>& page,
                           const std::vector<trace::FoundGrid>& grids) {
    PageSheet& one = m_sheets[sheet];
    one.page = page;
    if (!std::exchange(one.looked, true)) {
        one.grids = grids;
        one.chosen.assign(grids.size(), false);
        if (!grids.empty()) {
            one.chosen.front() = true; // the largest
        }
        // The first page with a chart that is seen belongs to it, unless the user says otherwise.
        const bool none = std::ranges::none_of(m_sheets, &PageSheet::wanted);
        one.wanted = !grids.empty() && (one.wanted || (none && sheet == m_shown));
    }
    forgetPictures(m_sheets, m_shown);
    m_joined = false;
}

void TraceDialog::takeFailure(const QString& line) {
    if (m_reading) {
        PageSheet& sheet = m_sheets[*m_reading];
        sheet.trouble = line;
        sheet.wanted = false;
        m_joined = false;
    } else {
        m_counted = m_files.size(); // or it would be tried for ever
        m_line = line;
    }
}

void TraceDialog::join() {
    m_joined = true;
    ChosenPages all = chosenOf(m_sheets);
    if (all.pages.empty()) {
        m_pieces->show({}, {});
        return;
    }
    m_stage = tr("Joining the pieces …");
    m_worker->start([this, all = std::move(all), joined = m_tracer.joined](const trace::Progress&) {
        std::vector<trace::Piece> pieces = joined(all.pages, all.grids);
        std::vector<int> numbers;
        for (const trace::Piece& one : pieces) {
            numbers.push_back(all.numbers[one.page]);
        }
        return [this, pieces = std::move(pieces), numbers = std::move(numbers)] {
            m_pieces->show(pieces, numbers);
        };
    });
}

void TraceDialog::make() {
    if (m_worker->isBusy() || m_pieces->pieces().empty()) {
        return;
    }
    m_line.clear();
    m_stage = tr("Tracing …");
    m_tracing = true;
    m_worker->start([this, all = chosenOf(m_sheets), pieces = m_pieces->pieces(),
                     traced = m_tracer.traced](const trace::Progress& progress) {
        const auto tracing = traced(all.pages, pieces, progress);
        if (!tracing) {
            return TraceWorker::Done([] {}); // it was stopped
        }
        return TraceWorker::Done(
            [this, tracing = *tracing, page = pageOf(*tracing)] { keep(tracing, page); });
    });
    showState();
}

void TraceDialog::keep(const trace::Tracing& tracing, const workbox::TracedPage& page) {
    try {
        chart::Chart chart = withThreadsOfCodes(tracing.chart, m_session);
        chart.name = QFileInfo(m_files.front()).completeBaseName();
        const workbox::ChartId id = m_session.document().addTracedChart(chart, page);
        Q_EMIT made(id);
        accept();
    } catch (const base::InputError& error) {
        m_line = error.line();
    }
}

void TraceDialog::reject() {
    m_halted = true;
    m_worker->stop();
    QDialog::reject();
}

void TraceDialog::dragEnterEvent(QDragEnterEvent* event) {
    if (!picturesIn(*event->mimeData()).isEmpty()) {
        event->acceptProposedAction();
    }
}

void TraceDialog::dropEvent(QDropEvent* event) {
    event->acceptProposedAction();
    addFiles(picturesIn(*event->mimeData()));
}

void TraceDialog::stopOrGoOn() {
    if (!m_worker->isBusy()) {
        goOn();
        return;
    }
    if (m_tracing) {
        m_line = tr("Stopped. Nothing has been added.");
    } else {
        m_halted = true;
        m_joined = false;
    }
    m_worker->stop();
}

void TraceDialog::toggleGrid(int grid) {
    PageSheet& sheet = m_sheets[m_shown];
    const auto at = static_cast<std::size_t>(grid);
    sheet.chosen[at] = !sheet.chosen[at];
    sheet.last = at;
    sheet.wanted = sheet.hasChosen();
    m_joined = false;
    goOn();
}

void TraceDialog::moveEdge(GridSide side, int by) {
    if (m_tracing || m_shown >= m_sheets.size() || !m_sheets[m_shown].currentGrid()) {
        return;
    }
    trace::FoundGrid& grid = m_sheets[m_shown].grids[*m_sheets[m_shown].currentGrid()];
    grid = withEdgeMoved(grid, side, by);
    m_joined = false;
    goOn();
}

void TraceDialog::tick(int page, bool on) {
    m_sheets[static_cast<std::size_t>(page)].want(on);
    m_joined = false;
    m_shown = static_cast<std::size_t>(page);
    m_pages->setCurrent(page);
    goOn();
}

void TraceDialog::tickAll() {
    for (PageSheet& sheet : m_sheets) {
        sheet.want(true);
    }
    m_joined = false;
    goOn();
}

void TraceDialog::choosePage(int page) {
    m_shown = static_cast<std::size_t>(std::max(page, 0));
    goOn();
}

void TraceDialog::showState() {
    const bool busy = m_worker->isBusy();
    static const PageSheet kNone;
    const PageSheet& sheet = m_shown < m_sheets.size() ? m_sheets[m_shown] : kNone;
    m_pages->show(m_sheets);
    m_preview->show(sheet.page, sheet.grids, sheet.chosen);
    const auto current = sheet.currentGrid();
    m_edges->show(current ? static_cast<int>(*current) + 1 : 0,
                  current ? sheet.grids[*current].columns : 0,
                  current ? sheet.grids[*current].rows : 0);
    m_advice->setText(busy       ? m_stage
                      : m_halted ? tr("Stopped. “Read on” takes it up again.")
                                 : adviceOn(m_sheets, m_shown));
    m_trouble->setText(m_line.isEmpty() ? troubleOf(m_sheets, m_shown) : m_line);
    m_trouble->setVisible(!m_trouble->text().isEmpty());
    m_progress->setRange(0, busy ? 0 : kPercent);
    m_progress->setValue(0);
    m_progress->setVisible(busy);
    m_stop->setText(m_halted && !busy ? tr("Read on") : tr("Stop"));
    m_stop->setAccessibleName(m_stop->text());
    m_stop->setToolTip(m_tracing ? tr("Stop tracing; the choices stay")
                       : busy    ? tr("Stop reading; what is read stays")
                                 : QString());
    const bool hadFocus = m_stop->hasFocus();
    m_stop->setEnabled(busy || m_halted);
    m_pieces->setVisible(m_pieces->pieces().size() > 1);
    for (QWidget* one :
         std::initializer_list<QWidget*>{m_pages, m_preview, m_edges, m_pieces, m_add}) {
        one->setEnabled(!m_tracing); // what is being traced stays as it is
    }
    m_make->setEnabled(!busy && m_joined && !m_pieces->pieces().empty());
    if (hadFocus && !m_stop->isEnabled()) {
        (m_make->isEnabled() ? static_cast<QWidget*>(m_make) : m_preview)->setFocus();
    }
}

} // namespace otherskein::app
