#include "app/recolour/more_options.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLocale>
#include <QMenu>
#include <QPushButton>
#include <QSpinBox>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

constexpr int kMostColours = 60;
constexpr int kMostFloor = 60; // ΔE00; beyond, hardly two dyed threads lie apart

} // namespace

template <typename Change>
void MoreOptions::askWith(Change change) {
    RecolourState next = m_state;
    change(next);
    if (!(next == m_state)) {
        Q_EMIT asked(next);
    }
}

MoreOptions::MoreOptions(QWidget* parent)
    : QWidget(parent), m_colours(new QSpinBox(this)),
      m_floorText(new QLabel(tr("Neighbours differ by at least"), this)),
      m_floor(new QSpinBox(this)), m_onlyStash(new QCheckBox(tr("Only what I own"), this)),
      m_blends(new QCheckBox(tr("Blends of two threads"), this)), m_cards(new QPushButton(this)),
      m_cardMenu(new QMenu(m_cards)) {
    m_colours->setRange(0, kMostColours);
    m_colours->setSpecialValueText(tr("as suits"));
    m_colours->setAccessibleName(tr("Colours"));
    m_colours->setKeyboardTracking(false);
    m_colours->setToolTip(tr("At most so many different threads"));
    m_floor->setRange(0, kMostFloor);
    m_floor->setPrefix(QStringLiteral("ΔE "));
    m_floor->setKeyboardTracking(false);
    m_floor->setAccessibleName(m_floorText->text());
    m_floor->setToolTip(
        tr("ΔE00 that motifs which touch or face each other should differ by; from 12 on, two "
           "threads are told apart at once"));
    m_cards->setMenu(m_cardMenu);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 4, 0, 0);
    column->setSpacing(6);
    auto* numbers = new QHBoxLayout;
    numbers->setSpacing(8);
    numbers->addWidget(new QLabel(tr("Colours"), this));
    numbers->addWidget(m_colours);
    numbers->addSpacing(8);
    numbers->addWidget(m_floorText);
    numbers->addWidget(m_floor);
    numbers->addStretch();
    auto* switches = new QHBoxLayout;
    switches->setSpacing(12);
    switches->addWidget(m_onlyStash);
    switches->addWidget(m_blends);
    switches->addWidget(m_cards);
    switches->addStretch();
    column->addLayout(numbers);
    column->addLayout(switches);

    connect(m_colours, &QSpinBox::valueChanged, this, [this](int colours) {
        askWith([&](RecolourState& state) { state.colours = colours; });
    });
    connect(m_floor, &QSpinBox::valueChanged, this,
            [this](int floor) { askWith([&](RecolourState& state) { state.floor = floor; }); });
    connect(m_onlyStash, &QCheckBox::toggled, this,
            [this](bool on) { askWith([&](RecolourState& state) { state.onlyStash = on; }); });
    connect(m_blends, &QCheckBox::toggled, this,
            [this](bool on) { askWith([&](RecolourState& state) { state.blends = on; }); });
}

void MoreOptions::show(const RecolourState& state) {
    m_state = state;
    const QSignalBlocker a(m_colours);
    const QSignalBlocker b(m_floor);
    const QSignalBlocker c(m_onlyStash);
    const QSignalBlocker d(m_blends);
    m_colours->setValue(state.colours);
    m_floor->setValue(static_cast<int>(std::lround(state.floor)));
    const bool byMotif = state.job == RecolourJob::Motifs;
    m_floor->setVisible(byMotif);
    m_floorText->setVisible(byMotif);
    const bool fromStash = byMotif && sourceInForce(state) == ColourSource::MyThreads;
    m_onlyStash->setEnabled(!fromStash);
    m_onlyStash->setChecked(fromStash || state.onlyStash);
    m_blends->setChecked(state.blends);
    for (QAction* action : m_cardMenu->actions()) {
        const QSignalBlocker quiet(action);
        action->setChecked(!state.cardsLeftOut.contains(action->data().toString()));
    }
    showCardCount();
}

void MoreOptions::showCards(const std::vector<std::pair<QString, std::size_t>>& cards) {
    if (cards == m_shownCards) {
        return; // the menu may be open
    }
    m_shownCards = cards;
    m_cardMenu->clear();
    for (const auto& [name, threads] : cards) {
        QAction* action = m_cardMenu->addAction(
            tr("%1  (%2)").arg(name, QLocale().toString(static_cast<qulonglong>(threads))));
        action->setData(name);
        action->setCheckable(true);
        action->setChecked(!m_state.cardsLeftOut.contains(name));
        connect(action, &QAction::toggled, this, [this, card = name](bool on) {
            askWith([&](RecolourState& state) {
                state.cardsLeftOut.removeAll(card);
                if (!on) {
                    state.cardsLeftOut.push_back(card);
                }
            });
        });
    }
    showCardCount();
}

void MoreOptions::showCardCount() {
    const auto actions = m_cardMenu->actions();
    const auto among = std::ranges::count_if(actions, &QAction::isChecked);
    m_cards->setText(
        among == actions.size()
            ? tr("Look among all cards")
            : tr("Look among %1 of %n cards", nullptr, int(actions.size())).arg(among));
    m_cards->setAccessibleName(m_cards->text());
}

} // namespace otherskein::app
