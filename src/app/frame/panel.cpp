#include "app/frame/panel.h"

#include "app/frame/look.h"

#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

/// Text in the second-rank grey of the tone in force, also after the tone changes.
class QuietLabel : public QLabel {
  public:
    using QLabel::QLabel;

  protected:
    void paintEvent(QPaintEvent* event) override {
        QPalette quiet = palette();
        if (quiet.color(QPalette::WindowText) != greys().quiet) {
            quiet.setColor(QPalette::WindowText, greys().quiet);
            setPalette(quiet);
        }
        QLabel::paintEvent(event);
    }
};

} // namespace

QLabel* titleLabel(const QString& text, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setFont(scaledFont(1.3, 600));
    return label;
}

QLabel* headingLabel(const QString& text, QWidget* parent) {
    auto* label = new QuietLabel(text, parent);
    label->setFont(scaledFont(0.88, 600));
    return label;
}

QLabel* noteLabel(const QString& text, QWidget* parent) {
    auto* label = new QuietLabel(text, parent);
    label->setFont(scaledFont(0.92));
    label->setWordWrap(true);
    return label;
}

Panel::Panel(PanelEdge edge, QWidget* parent)
    : QFrame(parent), m_edge(edge), m_column(new QVBoxLayout(this)) {
    m_column->setContentsMargins(16, 14, 16, 14);
    m_column->setSpacing(8);
}

QLabel* Panel::addTitle(const QString& text) {
    auto* label = titleLabel(text, this);
    m_column->addWidget(label);
    return label;
}

QLabel* Panel::addHeading(const QString& text) {
    auto* label = headingLabel(text, this);
    label->setContentsMargins(0, 8, 0, 0);
    m_column->addWidget(label);
    return label;
}

QLabel* Panel::addNote(const QString& text) {
    auto* label = noteLabel(text, this);
    m_column->addWidget(label);
    return label;
}

void Panel::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), greys().chrome);
    painter.setPen(greys().line);
    const bool leftEdge = (m_edge == PanelEdge::Leading) != isRightToLeft();
    if (m_edge == PanelEdge::Below) {
        painter.drawLine(0, height() - 1, width(), height() - 1);
    } else if (m_edge != PanelEdge::None) {
        const int x = leftEdge ? 0 : width() - 1;
        painter.drawLine(x, 0, x, height());
    }
}

} // namespace otherskein::app
