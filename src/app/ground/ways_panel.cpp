#include "app/ground/ways_panel.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/ground/ground_words.h"
#include "app/recolour/part_words.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr std::size_t kMostGroundsOffered = 2;
constexpr int kLostRow = 26;
constexpr int kMostLostRows = 4;

QIcon chipIcon(const colourway::Choice& choice) {
    QPixmap pixmap(18, 14);
    pixmap.fill(toQColor(colourway::shownColour(choice)));
    return {pixmap};
}

/// A button that says what it does and what that brings.
class WayButton : public QPushButton {
  public:
    WayButton(const QString& text, const QString& figure, const QString& more, QWidget* parent)
        : QPushButton(parent) {
        setAccessibleName(text + QStringLiteral(", ΔE00 ") + figure + QStringLiteral(", ") + more);
        setAutoDefault(false);
        setToolTip(more);
        auto* across = new QHBoxLayout(this);
        across->setContentsMargins(10, 5, 10, 5);
        auto* lines = new QVBoxLayout;
        lines->setSpacing(0);
        constexpr int kRoom = 182; // beside the figure
        auto* what = new QLabel(fontMetrics().elidedText(text, Qt::ElideRight, kRoom), this);
        auto* why = new QLabel(more, this);
        why->setFont(scaledFont(0.88));
        why->setForegroundRole(QPalette::WindowText);
        lines->addWidget(what);
        lines->addWidget(why);
        auto* value = new QLabel(figure, this);
        value->setFont(scaledFont(1.0, 600));
        for (QLabel* label : {what, why, value}) {
            label->setAttribute(Qt::WA_TransparentForMouseEvents);
        }
        across->addLayout(lines, 1);
        across->addWidget(value);
        setMinimumHeight(lines->sizeHint().height() + 14);
    }
    QSize sizeHint() const override { return {120, minimumHeight()}; }
};

} // namespace

WaysPanel::WaysPanel(QWidget* parent)
    : QWidget(parent), m_heading(headingLabel({}, this)), m_none(noteLabel({}, this)),
      m_list(new QListWidget(this)),
      m_push(new QPushButton(tr("Give all a thread that shows"), this)), m_ways(new QWidget(this)),
      m_wayColumn(new QVBoxLayout(m_ways)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(6);
    column->addWidget(m_heading);
    column->addWidget(m_none);
    column->addWidget(m_list);
    column->addWidget(m_ways);
    column->addWidget(m_push);
    m_wayColumn->setContentsMargins(0, 0, 0, 0);
    m_wayColumn->setSpacing(5);
    m_list->setAccessibleName(tr("Parts that vanish"));
    m_list->setIconSize({18, 14});
    m_push->setAutoDefault(false);
    connect(m_list, &QListWidget::currentRowChanged, this, [this](int row) {
        if (m_desk == nullptr || row < 0) {
            return;
        }
        m_chosen = m_desk->lost()[static_cast<std::size_t>(row)];
        showWays();
        Q_EMIT partChosen(*m_chosen);
    });
    connect(m_push, &QPushButton::clicked, this, &WaysPanel::pushAsked);
}

void WaysPanel::show(GroundDesk& desk, const QString& groundName) {
    m_desk = &desk;
    setVisible(desk.subject() != nullptr);
    if (!desk.subject()) {
        return;
    }
    m_heading->setText(tr("Vanishing on %1").arg(groundName));
    const auto& lost = desk.lost();
    m_none->setVisible(lost.empty());
    m_list->setVisible(!lost.empty());
    m_ways->setVisible(!lost.empty());
    m_push->setVisible(lost.size() > 1);
    m_push->setText(tr("Give all %1 a thread that shows").arg(lost.size()));
    if (lost.empty()) {
        m_none->setText(tr("No part of the chart vanishes here."));
        m_chosen.reset();
        m_list->clear();
        return;
    }
    if (!m_chosen || std::ranges::find(lost, *m_chosen) == lost.end()) {
        m_chosen = lost.front();
    }
    showList();
    showWays();
}

void WaysPanel::showList() {
    const QSignalBlocker quiet(m_list);
    m_list->clear();
    for (const std::size_t part : m_desk->lost()) {
        const colourway::Choice& choice = m_desk->now()[part];
        auto* item = new QListWidgetItem(
            chipIcon(choice), QStringLiteral("%1   ΔE %2")
                                  .arg(threadText(choice), figure(m_desk->contrasts()[part].de00)));
        item->setSizeHint({0, kLostRow});
        m_list->addItem(item);
        if (part == m_chosen) {
            m_list->setCurrentItem(item);
        }
    }
    const int rows = std::min<int>(kMostLostRows, m_list->count());
    m_list->setFixedHeight(rows * kLostRow + 2);
}

void WaysPanel::addWay(const QString& text, const QString& value, const QString& more, auto act) {
    auto* button = new WayButton(text, value, more, m_ways);
    m_wayColumn->addWidget(button);
    // The click may change what this panel shows, and with it this button.
    connect(button, &QPushButton::clicked, this, act, Qt::QueuedConnection);
}

void WaysPanel::showWays() {
    while (QLayoutItem* item = m_wayColumn->takeAt(0)) {
        if (QWidget* widget = item->widget()) {
            widget->hide();
            widget->deleteLater();
        }
        delete item;
    }
    if (!m_chosen) {
        return;
    }
    const std::size_t part = *m_chosen;
    const colourway::WaysOut ways = m_desk->waysOut(part);
    m_wayColumn->addWidget(
        headingLabel(tr("Ways out for %1").arg(codeText(m_desk->now()[part])), m_ways));
    if (ways.thread) {
        const colourway::Choice& choice = ways.thread->choice;
        addWay(tr("Take %1").arg(threadText(choice)), figure(ways.thread->contrast.de00),
               (choice.isInStash() ? tr("ΔE %1 from before, yours") : tr("ΔE %1 from before"))
                   .arg(figure(ways.thread->fromBefore)),
               [this, part, choice] { Q_EMIT threadAsked(part, choice); });
    }
    if (ways.strands) {
        const int strands = ways.strands->strands;
        addWay(tr("Stitch with %1 strands").arg(strands), figure(ways.strands->contrast.de00),
               tr("covers %1 %").arg(qRound(100 * ways.strands->contrast.coverage)),
               [this, part, strands] { Q_EMIT strandsAsked(part, strands); });
    }
    for (std::size_t i = 0; i < std::min(kMostGroundsOffered, ways.grounds.size()); ++i) {
        const auto& way = ways.grounds[i];
        const GroundColumn& ground = m_desk->otherGrounds()[way.ground];
        addWay(tr("Stitch on %1").arg(ground.ground.name), figure(way.contrast.de00),
               way.vanishing == 0   ? tr("nothing vanishes there")
               : way.vanishing == 1 ? tr("1 other thread vanishes there")
                                    : tr("%1 other threads vanish there").arg(way.vanishing),
               [this, id = ground.id] { Q_EMIT groundAsked(id); });
    }
    if (m_wayColumn->count() == 1) {
        m_wayColumn->addWidget(noteLabel(
            tr("None: no thread on your cards shows here, nor does another of your fabrics help."),
            m_ways));
    }
}

void WaysPanel::choosePart(std::size_t part) {
    if (m_desk == nullptr) {
        return;
    }
    const auto found = std::ranges::find(m_desk->lost(), part);
    if (found != m_desk->lost().end()) {
        m_list->setCurrentRow(static_cast<int>(found - m_desk->lost().begin()));
    }
}

} // namespace otherskein::app
