#include "app/threads/import_report.h"

#include "app/frame/look.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kMostLinesShown = 6;

} // namespace

ImportReport::ImportReport(QWidget* parent)
    : Panel(PanelEdge::None, parent), m_summary(new QLabel(this)),
      m_lines(new QPlainTextEdit(this)) {
    setAccessibleName(tr("Report of the import"));
    column()->setContentsMargins(16, 10, 16, 12);
    m_summary->setFont(scaledFont(1, 600));
    m_lines->setReadOnly(true);
    m_lines->setTabChangesFocus(true);
    m_lines->setAccessibleName(tr("What became of each file"));
    auto* close = new QPushButton(tr("Close"), this);
    close->setAccessibleName(tr("Close the report"));
    auto* above = new QHBoxLayout;
    above->addWidget(m_summary, 1);
    above->addWidget(close);
    column()->addLayout(above);
    column()->addWidget(m_lines);
    connect(close, &QPushButton::clicked, this, &QWidget::hide);
    hide();
}

void ImportReport::show(const std::vector<ImportOutcome>& outcomes) {
    QStringList lines;
    // What was refused needs reading most.
    for (const bool refused : {true, false}) {
        for (const ImportOutcome& one : outcomes) {
            if ((one.what == ImportOutcome::What::Refused) == refused) {
                lines.push_back(lineOf(one));
            }
        }
    }
    m_summary->setText(summaryOf(outcomes));
    m_lines->setPlainText(lines.join(u'\n'));
    const int shown = std::clamp(static_cast<int>(lines.size()) + 1, 2, kMostLinesShown);
    m_lines->setFixedHeight(m_lines->fontMetrics().lineSpacing() * shown + 24);
    QWidget::show();
}

QString ImportReport::text() const {
    return isHidden() ? QString() : m_lines->toPlainText();
}

void ImportReport::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        hide();
        return;
    }
    Panel::keyPressEvent(event);
}

void ImportReport::paintEvent(QPaintEvent* event) {
    Panel::paintEvent(event);
    QPainter painter(this);
    painter.setPen(greys().line);
    painter.drawLine(0, 0, width(), 0);
}

} // namespace otherskein::app
