// The parts of the dialog and where they stand.
#include "app/tracing/trace_dialog.h"

#include "app/charts/chart_jobs.h"
#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/tracing/edges_bar.h"
#include "app/tracing/page_preview.h"
#include "app/tracing/pieces_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

/// Nearly all of the window that it belongs to: pages are large.
QSize sizeIn(const QWidget* parent) {
    constexpr QSize kAlone(1120, 720);
    constexpr QSize kMost(1500, 1100);
    constexpr QSize kAround(72, 56);
    return parent == nullptr
               ? kAlone
               : (parent->window()->size() - kAround).expandedTo({640, 480}).boundedTo(kMost);
}

} // namespace

void TraceDialog::build() {
    m_pages->hide();
    m_pieces->hide();
    m_trouble->setWordWrap(true);
    m_trouble->setTextFormat(Qt::PlainText);
    m_trouble->setFont(scaledFont(1, 600));
    m_trouble->setAccessibleName(tr("What went wrong"));
    m_trouble->hide();
    m_progress->setRange(0, 0);
    m_progress->setTextVisible(false);
    m_progress->setFixedHeight(6);
    m_progress->setAccessibleName(tr("Progress"));
    QSizePolicy kept = m_progress->sizePolicy();
    kept.setRetainSizeWhenHidden(true);
    m_progress->setSizePolicy(kept);
    m_make->setProperty("strong", true);
    m_make->setToolTip(tr("Trace what is chosen and add it to the workbox (Ctrl+Enter)"));
    m_make->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_Return));
    m_add->setToolTip(tr("More pages of this chart, from other files; or drop them here"));
    setAcceptDrops(true);
    connect(m_add, &QPushButton::clicked, this, [this] { addFiles(askForPages(this, {})); });
    auto* close = new QPushButton(tr("Close"), this);
    connect(close, &QPushButton::clicked, this, &QDialog::reject);
    for (QPushButton* button : {m_add, m_stop, m_make, close}) {
        button->setAccessibleName(button->text());
        button->setAutoDefault(false);
    }
    auto* across = new QHBoxLayout;
    across->setSpacing(14);
    across->addWidget(m_pages);
    auto* page = new QVBoxLayout;
    page->setSpacing(8);
    page->addWidget(m_preview, 1);
    page->addWidget(m_edges);
    across->addLayout(page, 1);
    across->addWidget(m_pieces);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(8);
    buttons->addWidget(noteLabel(tr("For your own stitching. Share the thread list, not the "
                                    "designer's chart."),
                                 this),
                       1);
    for (QPushButton* button : {m_add, m_stop, close, m_make}) {
        buttons->addWidget(button);
    }
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(18, 16, 18, 14);
    column->setSpacing(10);
    column->addWidget(m_advice);
    column->addWidget(m_trouble);
    column->addLayout(across, 1);
    column->addWidget(m_progress);
    column->addLayout(buttons);
    resize(sizeIn(parentWidget()));
}

} // namespace otherskein::app
