#include "app/tracing/edges_bar.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace otherskein::app {

EdgesBar::EdgesBar(QWidget* parent) : QWidget(parent), m_grid(noteLabel({}, this)) {
    m_grid->setWordWrap(false);
    m_grid->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    // Two rows: between the list of pages and the pieces there is not much room.
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    auto* above = new QHBoxLayout;
    above->setSpacing(4);
    above->addWidget(m_grid, 1);
    column->addLayout(above);
    auto* row = new QHBoxLayout;
    row->setSpacing(4);
    column->addLayout(row);
    struct Edge {
        GridSide side;
        QString name;
        QString less; ///< what − does
        QString more;
        QString arrow; ///< of the key that does so
    };
    const Edge edges[] = {{GridSide::Left, tr("Left"), tr("A column less on the left"),
                           tr("A column more on the left"), tr("Left")},
                          {GridSide::Right, tr("Right"), tr("A column less on the right"),
                           tr("A column more on the right"), tr("Right")},
                          {GridSide::Top, tr("Top"), tr("A row less at the top"),
                           tr("A row more at the top"), tr("Up")},
                          {GridSide::Bottom, tr("Bottom"), tr("A row less at the bottom"),
                           tr("A row more at the bottom"), tr("Down")}};
    for (const Edge& edge : edges) {
        QLabel* name = noteLabel(edge.name, this);
        name->setWordWrap(false);
        row->addWidget(name);
        QPushButton* less = addButton(QStringLiteral("−"), edge.less,
                                      tr("%1 (Ctrl+Shift+%2)").arg(edge.less, edge.arrow));
        QPushButton* more = addButton(QStringLiteral("+"), edge.more,
                                      tr("%1 (Ctrl+%2)").arg(edge.more, edge.arrow));
        connect(less, &QPushButton::clicked, this,
                [this, side = edge.side] { Q_EMIT moved(side, -1); });
        connect(more, &QPushButton::clicked, this,
                [this, side = edge.side] { Q_EMIT moved(side, 1); });
        m_buttons.insert(m_buttons.end(), {less, more});
        row->addWidget(less);
        row->addWidget(more);
        row->addSpacing(6);
    }
    row->addStretch(1);
    struct Zoom {
        QString text;
        QString name;
        QString toolTip;
        double factor;
    };
    constexpr double kStep = 1.5;
    const Zoom zooms[] = {
        {QStringLiteral("−"), tr("Zoom out"), tr("Zoom out (−)"), 1 / kStep},
        {QStringLiteral("+"), tr("Zoom in"), tr("Zoom in (+, or the wheel)"), kStep},
        {tr("Whole"), tr("Whole page"), tr("Show the whole page (0)"), 0}};
    for (const Zoom& zoom : zooms) {
        QPushButton* button = addButton(zoom.text, zoom.name, zoom.toolTip);
        connect(button, &QPushButton::clicked, this,
                [this, factor = zoom.factor] { Q_EMIT zoomAsked(factor); });
        above->addWidget(button);
    }
    show(0, 0, 0);
}

QPushButton* EdgesBar::addButton(const QString& text, const QString& name, const QString& toolTip) {
    auto* button = new QPushButton(text, this);
    button->setAccessibleName(name);
    button->setToolTip(toolTip);
    button->setAutoDefault(false);
    button->setFocusPolicy(Qt::TabFocus); // a click leaves the keys with the page
    button->setStyleSheet(QStringLiteral("QPushButton { padding: 2px 6px; }"
                                         "QPushButton:focus { padding: 1px 5px; }"));
    if (text.size() == 1) {
        button->setFixedWidth(26);
    }
    return button;
}

void EdgesBar::show(int grid, int columns, int rows) {
    m_grid->setText(
        grid == 0
            ? tr("No grid is chosen")
            : tr("Grid %1, %2 × %3. One line more or less:").arg(grid).arg(columns).arg(rows));
    for (QPushButton* button : m_buttons) {
        button->setEnabled(grid != 0);
    }
}

} // namespace otherskein::app
