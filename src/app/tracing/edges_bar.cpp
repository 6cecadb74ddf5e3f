#include "app/tracing/edges_bar.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

namespace otherskein::app {

EdgesBar::EdgesBar(QWidget* parent) : QWidget(parent), m_grid(noteLabel({}, this)) {
    m_grid->setWordWrap(false);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(4);
    row->addWidget(m_grid);
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
        row->addSpacing(10);
        row->addWidget(noteLabel(edge.name, this));
        QPushButton* less = addButton(QStringLiteral("−"), edge.less,
                                      tr("%1 (Ctrl+Shift+%2)").arg(edge.less, edge.arrow));
        QPushButton* more = addButton(QStringLiteral("+"), edge.more,
                                      tr("%1 (Ctrl+%2)").arg(edge.more, edge.arrow));
        connect(less, &QPushButton::clicked, this,
                [this, side = edge.side] { Q_EMIT moved(side, -1); });
        connect(more, &QPushButton::clicked, this,
                [this, side = edge.side] { Q_EMIT moved(side, 1); });
        m_buttons.insert(m_buttons.end(), {less, more});
    }
    row->addStretch(1);
    constexpr double kStep = 1.5;
    connect(addButton(QStringLiteral("−"), tr("Zoom out"), tr("Zoom out (−)")),
            &QPushButton::clicked, this, [this] { Q_EMIT zoomAsked(1 / kStep); });
    connect(addButton(QStringLiteral("+"), tr("Zoom in"), tr("Zoom in (+, or the wheel)")),
            &QPushButton::clicked, this, [this] { Q_EMIT zoomAsked(kStep); });
    connect(addButton(tr("Whole"), tr("Whole page"), tr("Show the whole page (0)")),
            &QPushButton::clicked, this, [this] { Q_EMIT zoomAsked(0); });
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
        button->setFixedWidth(28);
    }
    layout()->addWidget(button);
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
