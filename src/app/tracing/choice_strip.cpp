#include "app/tracing/choice_strip.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "drawing/symbols.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kIconSide = 20;

} // namespace

QIcon markIcon(const chart::KeyRow& row, const drawing::Mark& mark, double pixelRatio) {
    QPixmap pixmap(QSize(kIconSide, kIconSide) * pixelRatio);
    pixmap.setDevicePixelRatio(pixelRatio);
    const QColor colour = toQColor(row.pixel);
    pixmap.fill(colour);
    QPainter painter(&pixmap);
    painter.setRenderHint(QPainter::Antialiasing);
    drawing::paintMark(painter, mark, QRectF(2, 2, kIconSide - 4, kIconSide - 4),
                       drawing::inkOn(colour.rgb()));
    painter.end();
    return {pixmap};
}

ChoiceStrip::ChoiceStrip(TracedDesk& traced, QWidget* parent)
    : Panel(PanelEdge::None, parent), m_traced(traced), m_bare(new QPushButton(tr("Bare"), this)),
      m_label(noteLabel(tr("Change to"), this)) {
    setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    setMinimumWidth(1);
    column()->setContentsMargins(16, 10, 16, 10);
    auto* row = new QHBoxLayout;
    row->setSpacing(6);
    m_label->setWordWrap(false);
    row->addWidget(m_label);
    for (std::size_t i = 0; i < kMost; ++i) {
        auto* button = new QPushButton(QString::number(i + 1), this);
        button->setIconSize({kIconSide, kIconSide});
        connect(button, &QPushButton::clicked, this, [this, i] {
            if (i < m_rows.size()) {
                Q_EMIT chosen(m_rows[i]);
            }
        });
        m_buttons.push_back(button);
        row->addWidget(button);
    }
    row->addWidget(m_bare);
    row->addStretch(1);
    m_bare->setAccessibleName(tr("Change to bare ground"));
    m_bare->setToolTip(tr("No stitch here (Delete)"));
    connect(m_bare, &QPushButton::clicked, this, [this] { Q_EMIT chosen(chart::kBare); });
    for (QPushButton* button : findChildren<QPushButton*>()) {
        button->setAutoDefault(false);
        button->setFocusPolicy(Qt::TabFocus); // a click leaves the keys with the page
        button->setStyleSheet(QStringLiteral("QPushButton { padding: 3px 5px; }"
                                             "QPushButton:focus { padding: 2px 4px; }"));
    }
    column()->addLayout(row);
    connect(&traced.desk(), &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        const ChartsState& now = m_traced.desk().state();
        if (before.current != now.current || before.pageView != now.pageView) {
            showChoices();
        }
    });
    connect(&traced.desk(), &ChartDesk::chartChanged, this, &ChoiceStrip::showChoices);
    connect(&traced, &TracedDesk::pictureReplaced, this, &ChoiceStrip::showChoices);
    showChoices();
}

std::optional<chart::KeyIndex> ChoiceStrip::choice(int number) const {
    const auto at = static_cast<std::size_t>(number - 1);
    return number >= 1 && at < m_rows.size() ? std::optional(m_rows[at]) : std::nullopt;
}

void ChoiceStrip::resizeEvent(QResizeEvent* event) {
    Panel::resizeEvent(event);
    constexpr int kSpace = 6;
    const QMargins margins = column()->contentsMargins();
    const int rest = width() - margins.left() - margins.right() - m_label->sizeHint().width() -
                     m_bare->sizeHint().width() - 2 * kSpace;
    QPushButton& last = *m_buttons.back();
    last.ensurePolished();
    const int each = last.sizeHint().width() + kSpace;
    const auto room = static_cast<std::size_t>(std::clamp(rest / each, 1, int{kMost}));
    if (room != m_room) {
        m_room = room;
        showChoices();
    }
}

void ChoiceStrip::showChoices() {
    const ChartDesk& desk = m_traced.desk();
    const auto& cell = desk.state().current;
    m_rows.clear();
    std::vector<drawing::Mark> marks;
    if (cell && desk.state().pageView == PageView::Cells) {
        m_rows = m_traced.nearestTo(*cell, m_room);
        marks = drawing::marksOf(desk.chart()->key);
    }
    for (std::size_t i = 0; i < kMost; ++i) {
        QPushButton& button = *m_buttons[i];
        const bool has = i < m_rows.size();
        // Buttons keep their places, so that nothing jumps from cell to cell.
        const bool could = desk.chart() && i < m_room && i + 1 < desk.chart()->key.size();
        button.setVisible(has || could);
        button.setEnabled(has);
        button.setIcon(
            has ? markIcon(desk.chart()->key[m_rows[i]], marks[m_rows[i]], devicePixelRatioF())
                : QIcon());
        const QString name = has ? tr("Change to %1").arg(signOf(desk.chart()->key[m_rows[i]]))
                                 : tr("Choice %1: none").arg(i + 1);
        button.setAccessibleName(name);
        button.setToolTip(has ? tr("%1 (%2)").arg(name, QString::number(i + 1)) : QString());
    }
    m_bare->setEnabled(cell && desk.chart()->grid.at(*cell) != chart::kBare);
}

} // namespace otherskein::app
