#include "app/recolour/recolour_empty.h"

#include "app/frame/panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace otherskein::app {

RecolourEmpty::RecolourEmpty(QWidget* parent) : QWidget(parent) {
    constexpr int kWidth = 480;
    auto* middle = new QWidget(this);
    middle->setFixedWidth(kWidth);
    auto* column = new QVBoxLayout(middle);
    column->setSpacing(12);
    column->addWidget(titleLabel(tr("How would it look otherwise?"), middle));
    auto* text = new QLabel(tr("Recolour shows a chart in other threads, side by side with how it "
                               "was charted. It needs a chart first."),
                            middle);
    text->setWordWrap(true);
    column->addWidget(text);
    auto* demo = new QPushButton(tr("Open the demo"), middle);
    auto* charts = new QPushButton(tr("Go to Charts"), middle);
    charts->setProperty("strong", true);
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    row->addWidget(charts);
    row->addWidget(demo);
    row->addStretch();
    column->addLayout(row);
    auto* across = new QHBoxLayout(this);
    across->addStretch();
    across->addWidget(middle);
    across->addStretch();
    setFocusProxy(charts);
    connect(demo, &QPushButton::clicked, this, &RecolourEmpty::demoAsked);
    connect(charts, &QPushButton::clicked, this, &RecolourEmpty::chartsAsked);
}

} // namespace otherskein::app
