#include "app/recolour/figures_panel.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/recolour/part_words.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLocale>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

constexpr qsizetype kMostLost = 3; // lines of it that are read at a glance

QString number(double value) {
    return QLocale().toString(value, 'f', 1);
}

} // namespace

QStringList lostSeparationTexts(const colourway::Subject& subject,
                                const std::vector<colourway::Choice>& now) {
    QStringList lines;
    for (const colourway::LostSeparation& lost : colourway::lostSeparations(subject, now)) {
        lines.push_back(FiguresPanel::tr("%1 and %2 were ΔE00 %3 apart, now %4.")
                            .arg(codeText(now[lost.one]), codeText(now[lost.other]),
                                 number(lost.was), number(lost.now)));
    }
    return lines;
}

FiguresPanel::FiguresPanel(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Figures of this colourway"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(3);
    column->addWidget(headingLabel(tr("This colourway"), this));
    m_neighbours = addLine(tr("Least difference between neighbours"));
    m_ground = addLine(tr("Least contrast on the ground"));
    m_order = addLine(tr("Order of light and dark kept"));
    m_threads = addLine(tr("Threads"));
    m_toBuy = addLine(tr("To buy"));
    m_lost = new QLabel(this);
    m_lost->setWordWrap(true);
    m_lost->setFont(scaledFont(0.92));
    m_lost->setTextInteractionFlags(Qt::TextSelectableByMouse);
    column->addWidget(m_lost);
}

FiguresPanel::Line FiguresPanel::addLine(const QString& text) {
    Line line;
    line.row = new QWidget(this);
    auto* across = new QHBoxLayout(line.row);
    across->setContentsMargins(0, 0, 0, 0);
    line.text = new QLabel(text, line.row);
    line.text->setWordWrap(true);
    line.value = new QLabel(line.row);
    line.value->setFont(scaledFont(1.0, 600));
    line.value->setAlignment(Qt::AlignRight | Qt::AlignTop);
    across->addWidget(line.text, 1);
    across->addWidget(line.value);
    layout()->addWidget(line.row);
    return line;
}

void FiguresPanel::show(const colourway::Subject& subject, const colourway::Colourway& colourway,
                        bool converts) {
    const colourway::Figures& figures = colourway.figures;
    const bool hasNeighbours = figures.leastBetweenNeighbours.has_value();
    m_neighbours.row->setVisible(hasNeighbours);
    if (hasNeighbours) {
        m_neighbours.value->setText(number(*figures.leastBetweenNeighbours));
        m_neighbours.row->setToolTip(tr("ΔE00 between %1 and %2, which touch or face each other")
                                         .arg(partName(subject, figures.closestOne),
                                              partName(subject, figures.closestOther)));
        m_neighbours.text->setText(tr("Closest neighbours: %1 and %2")
                                       .arg(codeText(colourway.now[figures.closestOne]),
                                            codeText(colourway.now[figures.closestOther])));
    }
    m_ground.value->setText(number(figures.leastOnGround));
    m_order.row->setVisible(colourway.by == colourway::By::Colour);
    m_order.value->setText(tr("%1 %").arg(std::lround(100 * figures.orderKept)));
    m_threads.value->setText(QLocale().toString(figures.threads));
    m_toBuy.value->setText(QLocale().toString(figures.threadsToBuy));

    QStringList lost = converts ? lostSeparationTexts(subject, colourway.now) : QStringList();
    m_lost->setVisible(converts);
    m_lost->setToolTip(lost.mid(0, 30).join(QLatin1Char('\n')));
    const auto more = static_cast<int>(lost.size() - kMostLost);
    lost = lost.mid(0, kMostLost);
    if (more > 0) {
        lost.push_back(tr("and %n more pairs", nullptr, more));
    }
    m_lost->setText(lost.isEmpty() ? tr("Every pair that was told apart still is.")
                                   : QStringLiteral("!  ") + lost.join(QStringLiteral("\n!  ")));
}

} // namespace otherskein::app
