#include "app/charts/charts_empty.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace otherskein::app {

ChartsEmpty::ChartsEmpty(QWidget* parent) : QWidget(parent) {
    auto* middle = new QWidget(this);
    middle->setFixedWidth(520);
    auto* column = new QVBoxLayout(middle);
    column->setSpacing(10);
    auto* title = new QLabel(tr("What will you stitch?"), middle);
    title->setFont(scaledFont(2.0, 600));
    column->addWidget(title);
    auto* line = new QLabel(
        tr("Open a chart to see it stitched on your fabric, mend its cells and its key, and part "
           "it into motifs for new colours."),
        middle);
    line->setWordWrap(true);
    column->addWidget(line);
    column->addSpacing(10);
    auto* buttons = new QHBoxLayout;
    auto* open = new QPushButton(tr("Open a chart picture…"), middle);
    open->setProperty("strong", true);
    auto* trace = new QPushButton(tr("Trace a page…"), middle);
    auto* demo = new QPushButton(tr("Open the demo"), middle);
    for (QPushButton* button : {open, trace, demo}) {
        button->setAccessibleName(button->text());
        button->setAutoDefault(false);
        buttons->addWidget(button);
    }
    buttons->addStretch(1);
    column->addLayout(buttons);
    column->addWidget(noteLabel(tr("A chart picture is a PNG with one pixel a stitch, see-through "
                                   "where the ground stays bare. Its key (CSV) is taken along "
                                   "when it lies beside it. A printed page (PDF, scan or photo) is "
                                   "traced; so are several pages of one chart, together. You can "
                                   "also drop files here."),
                                middle));
    auto* across = new QHBoxLayout(this);
    across->addStretch(1);
    across->addWidget(middle, 0, Qt::AlignVCenter);
    across->addStretch(1);
    setFocusProxy(open);
    connect(open, &QPushButton::clicked, this, &ChartsEmpty::openAsked);
    connect(trace, &QPushButton::clicked, this, &ChartsEmpty::traceAsked);
    connect(demo, &QPushButton::clicked, this, &ChartsEmpty::demoAsked);
}

} // namespace otherskein::app
