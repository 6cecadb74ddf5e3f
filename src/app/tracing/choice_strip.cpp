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

constexpr int kMarkSide = 20;
constexpr int kPrintSide = 26;
constexpr int kSpace = 6;

QPixmap blank(const QSize& size, double pixelRatio) {
    QPixmap pixmap(size * pixelRatio);
    pixmap.setDevicePixelRatio(pixelRatio);
    pixmap.fill(Qt::transparent);
    return pixmap;
}

void paintRow(QPainter& painter, const QRectF& place, const chart::KeyRow& row,
              const drawing::Mark& mark) {
    const QColor colour = toQColor(row.pixel);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(place, colour);
    drawing::paintMark(painter, mark, place.adjusted(2, 2, -2, -2), drawing::inkOn(colour.rgb()));
}

/// What is printed on the page beside what is charted for it; nothing beside bare ground.
QPixmap printAndMark(const TracedDesk& traced, chart::KeyIndex row,
                     const std::vector<drawing::Mark>& marks, double pixelRatio) {
    QPixmap pixmap = blank({kPrintSide + 3 + kMarkSide, kPrintSide}, pixelRatio);
    QPainter painter(&pixmap);
    const QRect place(0, 0, kPrintSide, kPrintSide);
    const QImage print = traced.printOf(row, qRound(kPrintSide * pixelRatio));
    if (!print.isNull()) {
        painter.drawImage(place, print);
    }
    painter.setPen(QPen(greys().edge, 1));
    painter.drawRect(place.adjusted(0, 0, -1, -1));
    if (row != chart::kBare) {
        paintRow(painter,
                 QRectF(kPrintSide + 3, (kPrintSide - kMarkSide) / 2.0, kMarkSide, kMarkSide),
                 traced.desk().chart()->key[row], marks[row]);
    }
    return pixmap;
}

} // namespace

QIcon markIcon(const chart::KeyRow& row, const drawing::Mark& mark, double pixelRatio) {
    QPixmap pixmap = blank({kMarkSide, kMarkSide}, pixelRatio);
    QPainter painter(&pixmap);
    paintRow(painter, QRectF(0, 0, kMarkSide, kMarkSide), row, mark);
    painter.end();
    return {pixmap};
}

ChoiceStrip::ChoiceStrip(TracedDesk& traced, QWidget* parent)
    : Panel(PanelEdge::None, parent), m_traced(traced), m_bare(new QPushButton(tr("Bare"), this)),
      m_label(noteLabel({}, this)), m_own(new QLabel(this)), m_keys(noteLabel({}, this)) {
    setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    setMinimumWidth(1);
    layOut();
    connectParts();
    showChoices();
}

void ChoiceStrip::layOut() {
    column()->setContentsMargins(16, 10, 16, 10);
    column()->setSpacing(6);
    auto* row = new QHBoxLayout;
    row->setSpacing(kSpace);
    m_label->setWordWrap(false);
    row->addWidget(m_label);
    row->addWidget(m_own);
    for (std::size_t i = 0; i < kMost; ++i) {
        auto* button = new QPushButton(QString::number(i + 1), this);
        button->setAccessibleName(tr("Choice %1: none").arg(i + 1));
        button->setIconSize({kPrintSide + 3 + kMarkSide, kPrintSide});
        button->setIcon(QIcon(blank(button->iconSize(), 1)));
        connect(button, &QPushButton::clicked, this, [this, i] {
            if (i < m_rows.size()) {
                Q_EMIT chosen(m_rows[i]);
            }
        });
        m_buttons.push_back(button);
        row->addWidget(button);
    }
    m_bare->setAccessibleName(tr("Change to bare ground"));
    row->addWidget(m_bare);
    row->addStretch(1);
    connect(m_bare, &QPushButton::clicked, this, [this] { Q_EMIT chosen(chart::kBare); });
    for (QPushButton* button : findChildren<QPushButton*>()) {
        button->setAutoDefault(false);
        button->setFocusPolicy(Qt::TabFocus); // a click leaves the keys with the page
        button->setStyleSheet(QStringLiteral("QPushButton { padding: 3px 5px; }"
                                             "QPushButton:focus { padding: 2px 4px; }"));
    }
    column()->addLayout(row);
    column()->addWidget(m_keys);
    m_keys->setText(tr("Enter: right as it is. Shift+Enter: all like it. N: next. 1 to 9, or the "
                       "letter of a row: change. Delete: bare."));
}

void ChoiceStrip::connectParts() {
    connect(&m_traced.desk(), &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        const ChartsState& now = m_traced.desk().state();
        if (before.current != now.current || before.pageView != now.pageView ||
            before.row != now.row || before.bare != now.bare) {
            showChoices();
        }
    });
    connect(&m_traced.desk(), &ChartDesk::chartChanged, this, &ChoiceStrip::showChoices);
    connect(&m_traced, &TracedDesk::pictureReplaced, this, [this] {
        m_selected.clear(); // of another chart
        showChoices();
    });
}

void ChoiceStrip::setSelected(const std::vector<chart::Cell>& cells) {
    if (cells != m_selected) {
        m_selected = cells;
        showChoices();
    }
}

std::optional<chart::KeyIndex> ChoiceStrip::choice(int number) const {
    const auto at = static_cast<std::size_t>(number - 1);
    return number >= 1 && at < m_rows.size() ? std::optional(m_rows[at]) : std::nullopt;
}

void ChoiceStrip::resizeEvent(QResizeEvent* event) {
    Panel::resizeEvent(event);
    const QMargins margins = column()->contentsMargins();
    int rest = width() - margins.left() - margins.right() - m_label->sizeHint().width() -
               m_bare->sizeHint().width() - 2 * kSpace;
    if (!m_own->isHidden()) {
        rest -= m_own->sizeHint().width() + kSpace;
    }
    QPushButton& last = *m_buttons.back();
    last.ensurePolished();
    const int each = last.sizeHint().width() + kSpace;
    const auto room = static_cast<std::size_t>(std::clamp(rest / each, 1, int{kMost}));
    if (room != m_room) {
        m_room = room;
        showChoices();
    }
}

ChoiceStrip::Subject ChoiceStrip::subject() const {
    const ChartDesk& desk = m_traced.desk();
    const ChartsState& state = desk.state();
    if (desk.chart() == nullptr || desk.page() == nullptr || state.pageView == PageView::Off) {
        return Subject::None;
    }
    if (state.pageView == PageView::Cells) {
        return state.current ? Subject::Cell : Subject::None;
    }
    if (!m_selected.empty()) {
        return Subject::Selected;
    }
    return state.row ? Subject::Symbol : Subject::None;
}

void ChoiceStrip::findRows() {
    const ChartsState& state = m_traced.desk().state();
    m_rows.clear();
    switch (subject()) {
    case Subject::Cell:
        m_rows = m_traced.nearestTo(*state.current, m_room);
        break;
    case Subject::Selected:
        m_rows = m_traced.nearestTo(m_selected.front(), m_room);
        break;
    case Subject::Symbol:
        m_rows = m_traced.nearestToRow(*state.row, m_room);
        break;
    case Subject::None:
        break;
    }
}

void ChoiceStrip::showChoices() {
    if (m_traced.desk().state().pageView == PageView::Off) {
        return; // nobody looks, and there may be no page
    }
    findRows();
    showLabels();
    for (std::size_t i = 0; i < kMost; ++i) {
        showButton(i);
    }
}

void ChoiceStrip::showLabels() {
    const ChartDesk& desk = m_traced.desk();
    const Subject what = subject();
    const bool sheet = desk.state().pageView == PageView::Symbols;
    const bool bareCell =
        what == Subject::Cell && desk.chart()->grid.at(*desk.state().current) == chart::kBare;
    m_label->setText(!sheet                      ? tr("Change to")
                     : what == Subject::Selected ? tr("Move to")
                                                 : tr("Join with"));
    m_keys->setVisible(!sheet);
    m_own->setVisible(what == Subject::Symbol);
    if (what == Subject::Symbol) {
        m_own->setPixmap(printAndMark(m_traced, *desk.state().row,
                                      drawing::marksOf(desk.chart()->key), devicePixelRatioF()));
        m_own->setAccessibleName(tr("This symbol as it is printed"));
    }
    const QString bare = what == Subject::Selected ? tr("Move to bare ground")
                         : what == Subject::Symbol ? tr("All of this symbol is bare ground")
                                                   : tr("Change to bare ground");
    m_bare->setAccessibleName(bare);
    m_bare->setToolTip(what == Subject::Symbol ? bare : tr("No stitch here (Delete)"));
    m_bare->setEnabled(what != Subject::None && !bareCell &&
                       !(what == Subject::Selected && desk.state().bare));
}

void ChoiceStrip::showButton(std::size_t place) {
    const ChartDesk& desk = m_traced.desk();
    QPushButton& button = *m_buttons[place];
    const bool has = place < m_rows.size();
    // Buttons keep their places, so that nothing jumps from cell to cell.
    const bool could = desk.chart() && place < m_room && place + 1 < desk.chart()->key.size();
    button.setVisible(has || could);
    button.setEnabled(has);
    if (!has) {
        // As wide as any: what has room is told from its width.
        button.setIcon(QIcon(blank(button.iconSize(), 1)));
        button.setAccessibleName(tr("Choice %1: none").arg(place + 1));
        button.setToolTip({});
        return;
    }
    const chart::KeyRow& row = desk.chart()->key[m_rows[place]];
    const Subject what = subject();
    const QString name = (what == Subject::Cell       ? tr("Change to %1")
                          : what == Subject::Selected ? tr("Move to %1")
                                                      : tr("Join with %1"))
                             .arg(signOf(row));
    button.setIcon(QIcon(printAndMark(m_traced, m_rows[place], drawing::marksOf(desk.chart()->key),
                                      devicePixelRatioF())));
    button.setAccessibleName(name);
    button.setToolTip(tr("%1 (%2)").arg(name, QString::number(place + 1)));
}

} // namespace otherskein::app
