#include "app/tracing/trace_dialog.h"

#include "app/frame/panel.h"
#include "app/tracing/page_preview.h"
#include "app/tracing/pieces_panel.h"
#include "app/tracing/tracing_edits.h"
#include "base/input_error.h"

#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kPagesWidth = 128;
constexpr int kPercent = 100;

} // namespace

TraceDialog::TraceDialog(Session& session, const QString& file, QWidget* parent,
                         const Tracer& tracer)
    : QDialog(parent), m_session(session), m_file(file), m_tracer(tracer),
      m_pages(new QListWidget(this)), m_preview(new PagePreview(this)),
      m_pieces(new PiecesPanel(this)), m_advice(noteLabel({}, this)), m_trouble(new QLabel(this)),
      m_progress(new QProgressBar(this)), m_stop(new QPushButton(tr("Stop"), this)),
      m_make(new QPushButton(tr("Make the chart"), this)), m_worker(new TraceWorker(this)) {
    setWindowTitle(tr("Trace a page: %1").arg(QFileInfo(file).fileName()));
    build();
    connectParts();
    resize(880, 660);
    countPages();
}

void TraceDialog::build() {
    m_pages->setAccessibleName(tr("Pages that belong to the chart"));
    m_pages->setToolTip(tr("Tick the pages that belong to the chart (Space)"));
    m_pages->setFixedWidth(kPagesWidth);
    m_pages->setStyleSheet(QStringLiteral("QListWidget::item { padding: 4px 0; }"));
    m_pages->hide();
    m_pieces->hide();
    m_trouble->setWordWrap(true);
    m_trouble->setTextFormat(Qt::PlainText);
    m_trouble->setAccessibleName(tr("What went wrong"));
    m_trouble->hide();
    m_progress->setRange(0, 0);
    m_progress->setTextVisible(false);
    m_progress->setFixedHeight(6);
    m_progress->setAccessibleName(tr("Progress"));
    m_stop->setToolTip(tr("Stop tracing; the choices stay"));
    m_make->setProperty("strong", true);
    m_make->setToolTip(tr("Trace what is chosen and add it to the workbox (Ctrl+Enter)"));
    m_make->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_Return));
    auto* close = new QPushButton(tr("Close"), this);
    connect(close, &QPushButton::clicked, this, &QDialog::reject);
    for (QPushButton* button : {m_stop, m_make, close}) {
        button->setAccessibleName(button->text());
        button->setAutoDefault(false);
    }
    auto* across = new QHBoxLayout;
    across->setSpacing(14);
    across->addWidget(m_pages);
    across->addWidget(m_preview, 1);
    across->addWidget(m_pieces);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(8);
    buttons->addWidget(noteLabel(tr("For your own stitching. Share the thread list, not the "
                                    "designer's chart."),
                                 this),
                       1);
    for (QPushButton* button : {m_stop, close, m_make}) {
        buttons->addWidget(button);
    }
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(18, 16, 18, 14);
    column->setSpacing(10);
    column->addWidget(m_advice);
    column->addLayout(across, 1);
    column->addWidget(m_trouble);
    column->addWidget(m_progress);
    column->addLayout(buttons);
}

void TraceDialog::connectParts() {
    connect(m_pages, &QListWidget::itemChanged, this,
            [this](QListWidgetItem* item) { takeTick(*item); });
    connect(m_pages, &QListWidget::currentRowChanged, this, &TraceDialog::choosePage);
    connect(m_preview, &PagePreview::toggled, this, &TraceDialog::toggleGrid);
    connect(m_stop, &QPushButton::clicked, m_worker, &TraceWorker::stop);
    connect(m_make, &QPushButton::clicked, this, &TraceDialog::make);
    connect(m_worker, &TraceWorker::progressed, this, [this](double share) {
        m_progress->setRange(0, kPercent);
        m_progress->setValue(qRound(share * kPercent));
    });
    connect(m_worker, &TraceWorker::failed, this, [this](const QString& line) {
        m_trouble->setText(line);
        m_trouble->show();
    });
    connect(m_worker, &TraceWorker::idle, this, &TraceDialog::advance);
}

void TraceDialog::countPages() {
    m_stage = tr("Opening the file …");
    m_worker->start([this, file = m_file, count = m_tracer.pageCount](const trace::Progress&) {
        const int pages = count(file);
        return [this, pages] { fillPages(pages); };
    });
    showState();
}

void TraceDialog::fillPages(int count) {
    m_sheets.resize(static_cast<std::size_t>(count));
    const QSignalBlocker quiet(m_pages);
    for (int page = 1; page <= count; ++page) {
        auto* item = new QListWidgetItem(tr("Page %1").arg(page), m_pages);
        item->setFlags(item->flags() | Qt::ItemIsUserCheckable);
        item->setCheckState(Qt::Unchecked);
    }
    m_pages->setCurrentRow(0);
    m_pages->setVisible(count > 1);
}

void TraceDialog::advance() {
    if (m_worker->isBusy()) {
        return;
    }
    m_tracing = false;
    const auto needed = [this](std::size_t i) {
        return !m_sheets[i].looked && (m_sheets[i].wanted || i == m_shown);
    };
    if (m_shown < m_sheets.size() && needed(m_shown)) {
        read(m_shown);
    } else {
        for (std::size_t i = 0; i < m_sheets.size() && !m_worker->isBusy(); ++i) {
            if (needed(i)) {
                read(i);
            }
        }
    }
    if (!m_worker->isBusy() && !m_joined && !m_sheets.empty()) {
        join();
    }
    showState();
}

void TraceDialog::read(std::size_t sheet) {
    m_stage = tr("Reading page %1 …").arg(sheet + 1);
    m_sheets[sheet].looked = true; // also when it cannot be read: once is enough
    m_worker->start([this, sheet, file = m_file, tracer = m_tracer](const trace::Progress&) {
        auto page =
            std::make_shared<const trace::Page>(tracer.readPage(file, static_cast<int>(sheet) + 1));
        std::vector<trace::FoundGrid> grids = tracer.gridsOn(*page);
        return [this, sheet, page, grids = std::move(grids)] {
            Sheet& one = m_sheets[sheet];
            one.page = page;
            one.grids = grids;
            one.chosen.assign(grids.size(), false);
            if (grids.empty()) {
                return;
            }
            one.chosen.front() = true; // the largest
            // The first page that is seen belongs to the chart, unless the user says otherwise.
            const bool none = std::ranges::none_of(m_sheets, &Sheet::wanted);
            if (none && sheet == m_shown) {
                one.wanted = true;
                const QSignalBlocker quiet(m_pages);
                m_pages->item(static_cast<int>(sheet))->setCheckState(Qt::Checked);
            }
            m_joined = false;
        };
    });
}

TraceDialog::Chosen TraceDialog::chosen() const {
    Chosen all;
    for (std::size_t i = 0; i < m_sheets.size(); ++i) {
        const Sheet& sheet = m_sheets[i];
        std::vector<trace::FoundGrid> grids;
        for (std::size_t grid = 0; grid < sheet.grids.size(); ++grid) {
            if (sheet.chosen[grid]) {
                grids.push_back(sheet.grids[grid]);
            }
        }
        if (sheet.wanted && sheet.page && !grids.empty()) {
            all.pages.push_back(*sheet.page);
            all.grids.push_back(std::move(grids));
            all.numbers.push_back(static_cast<int>(i) + 1);
        }
    }
    return all;
}

void TraceDialog::join() {
    m_joined = true;
    Chosen all = chosen();
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
    m_trouble->hide();
    m_stage = tr("Tracing …");
    m_tracing = true;
    m_worker->start([this, all = chosen(), pieces = m_pieces->pieces(),
                     traced = m_tracer.traced](const trace::Progress& progress) {
        const auto tracing = traced(all.pages, pieces, progress);
        if (!tracing) {
            return TraceWorker::Done([this] {
                m_trouble->setText(tr("Stopped. Nothing has been added."));
                m_trouble->show();
            });
        }
        return TraceWorker::Done(
            [this, tracing = *tracing, page = pageOf(*tracing)] { keep(tracing, page); });
    });
    showState();
}

void TraceDialog::keep(const trace::Tracing& tracing, const workbox::TracedPage& page) {
    try {
        chart::Chart chart = withThreadsOfCodes(tracing.chart, m_session);
        chart.name = QFileInfo(m_file).completeBaseName();
        const workbox::ChartId id = m_session.document().addTracedChart(chart, page);
        Q_EMIT made(id);
        accept();
    } catch (const base::InputError& error) {
        m_trouble->setText(error.line());
        m_trouble->show();
    }
}

void TraceDialog::reject() {
    m_worker->stop();
    QDialog::reject();
}

void TraceDialog::toggleGrid(int grid) {
    Sheet& sheet = m_sheets[m_shown];
    const auto at = static_cast<std::size_t>(grid);
    sheet.chosen[at] = !sheet.chosen[at];
    sheet.wanted = std::ranges::find(sheet.chosen, true) != sheet.chosen.end();
    const QSignalBlocker quiet(m_pages);
    m_pages->item(static_cast<int>(m_shown))
        ->setCheckState(sheet.wanted ? Qt::Checked : Qt::Unchecked);
    m_joined = false;
    advance();
}

void TraceDialog::takeTick(const QListWidgetItem& item) {
    const int row = m_pages->row(&item);
    Sheet& sheet = m_sheets[static_cast<std::size_t>(row)];
    sheet.wanted = item.checkState() == Qt::Checked;
    if (sheet.wanted && !sheet.grids.empty() &&
        std::ranges::find(sheet.chosen, true) == sheet.chosen.end()) {
        sheet.chosen.front() = true;
    }
    m_joined = false;
    m_pages->setCurrentRow(row);
    advance();
}

void TraceDialog::choosePage(int page) {
    m_shown = static_cast<std::size_t>(std::max(page, 0));
    advance();
}

QString TraceDialog::advice() const {
    if (m_worker->isBusy()) {
        return m_stage;
    }
    if (m_shown >= m_sheets.size() || !m_sheets[m_shown].page) {
        return tr("Nothing to show.");
    }
    const bool none = m_sheets[m_shown].grids.empty();
    if (none && m_sheets.size() > 1) {
        return tr("No chart was found on this page. Choose another page.");
    }
    if (none) {
        return tr("No chart was found on this page. A sharper or flatter picture may help.");
    }
    return m_sheets.size() > 1
               ? tr("Tick the pages that belong to the chart; click the grids on each that are "
                    "part of it.")
               : tr("Click the grids that are part of the chart.");
}

void TraceDialog::showState() {
    const bool busy = m_worker->isBusy();
    static const Sheet kNone;
    const Sheet& sheet = m_shown < m_sheets.size() ? m_sheets[m_shown] : kNone;
    m_preview->show(sheet.page, sheet.grids, sheet.chosen);
    m_advice->setText(advice());
    m_progress->setRange(0, busy ? 0 : kPercent);
    m_progress->setValue(0);
    QSizePolicy kept = m_progress->sizePolicy();
    kept.setRetainSizeWhenHidden(true);
    m_progress->setSizePolicy(kept);
    m_progress->setVisible(busy);
    m_stop->setEnabled(busy);
    m_pieces->setVisible(m_pieces->pieces().size() > 1);
    for (QWidget* one : std::initializer_list<QWidget*>{m_pages, m_preview, m_pieces}) {
        one->setEnabled(!m_tracing); // what is being traced stays as it is
    }
    m_make->setEnabled(!busy && !m_pieces->pieces().empty());
}

} // namespace otherskein::app
