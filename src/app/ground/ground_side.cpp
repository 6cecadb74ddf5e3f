#include "app/ground/ground_side.h"

#include "app/frame/look.h"
#include "app/frame/segmented.h"
#include "app/ground/ground_words.h"
#include "app/ground/piece_figures.h"
#include "app/ground/ways_panel.h"
#include "colourway/fabric_fit.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSlider>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kLeastCountOffered = 8;
constexpr int kMostCountOffered = 45;

QSlider* slider(int least, int most, const QString& name, QWidget* parent) {
    auto* one = new QSlider(Qt::Horizontal, parent);
    one->setRange(least, most);
    one->setPageStep(1);
    one->setAccessibleName(name);
    return one;
}

/// "chart:3", "stash", "card:Name": what an entry of the list stands for.
QString keyOf(ThreadsOf of, const QString& what) {
    switch (of) {
    case ThreadsOf::Chart:
        return QStringLiteral("chart:") + what;
    case ThreadsOf::Stash:
        return QStringLiteral("stash");
    case ThreadsOf::Card:
        break;
    }
    return QStringLiteral("card:") + what;
}

} // namespace

template <typename Change>
void GroundSide::askWith(Change change) {
    GroundState next = m_state;
    change(next);
    if (!(next == m_state)) {
        Q_EMIT asked(next);
    }
}

GroundSide::GroundSide(Session& session, QWidget* parent)
    : Panel(PanelEdge::Trailing, parent), m_session(session), m_of(new QComboBox(this)),
      m_colourway(new QComboBox(this)), m_ownCount(new QCheckBox(tr("Each fabric's own"), this)),
      m_count(slider(kLeastCountOffered, kMostCountOffered, tr("Count"), this)),
      m_countText(new QLabel(this)),
      m_over(new Segmented(tr("Over"), {tr("over 1"), tr("over 2")}, this)),
      m_keyStrands(new QCheckBox(tr("As the key says"), this)),
      m_strands(slider(1, kMostStrandsOffered, tr("Strands"), this)),
      m_strandsText(new QLabel(this)), m_coverText(noteLabel({}, this)),
      m_piece(new PieceFigures(session, this)), m_ways(new WaysPanel(this)) {
    build();
    connectAll();
}

void GroundSide::build() {
    column()->setSpacing(6);
    addTitle(tr("Ground"));
    addHeading(tr("Threads of"));
    m_of->setAccessibleName(tr("Threads of"));
    m_of->setMinimumContentsLength(10);
    m_of->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    column()->addWidget(m_of);
    m_colourway->setAccessibleName(tr("Colourway"));
    m_colourway->setMinimumContentsLength(10);
    m_colourway->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    column()->addWidget(m_colourway);

    const auto line = [this](QWidget* left, QWidget* right) {
        auto* row = new QHBoxLayout;
        row->setSpacing(10);
        row->addWidget(left, 1);
        row->addWidget(right);
        column()->addLayout(row);
    };
    m_countText->setFont(scaledFont(1.0, 600));
    m_strandsText->setFont(scaledFont(1.0, 600));
    line(headingLabel(tr("Count"), this), m_ownCount);
    line(m_count, m_countText);
    column()->addWidget(m_over);
    line(headingLabel(tr("Strands"), this), m_keyStrands);
    line(m_strands, m_strandsText);
    column()->addWidget(m_coverText);

    auto* grounds = new QPushButton(tr("My grounds…"), this);
    grounds->setToolTip(tr("Enter fabrics and change them; choose which are shown"));
    auto* measures = new QPushButton(tr("Measure…"), this);
    measures->setToolTip(tr("How wide your strands lie, how far your skeins go"));
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(6);
    buttons->addWidget(grounds, 1);
    buttons->addWidget(measures, 1);
    column()->addSpacing(2);
    column()->addLayout(buttons);
    column()->addSpacing(4);
    column()->addWidget(m_ways);
    column()->addSpacing(4);
    column()->addWidget(m_piece);
    column()->addStretch();
    connect(grounds, &QPushButton::clicked, this, &GroundSide::groundsAsked);
    connect(measures, &QPushButton::clicked, this, &GroundSide::measuresAsked);
}

void GroundSide::connectAll() {
    connect(m_of, &QComboBox::activated, this, [this](int index) {
        const QString key = m_of->itemData(index).toString();
        const QString what = key.section(QLatin1Char(':'), 1);
        if (key.startsWith(QLatin1String("chart:"))) {
            Q_EMIT chartChosen(workbox::ChartId{what.toLongLong()});
            askWith([](GroundState& state) { state.of = ThreadsOf::Chart; });
            return;
        }
        askWith([&](GroundState& state) {
            state.of = key == QLatin1String("stash") ? ThreadsOf::Stash : ThreadsOf::Card;
            state.card = what;
            state.page = GroundPage::Threads;
        });
    });
    connect(m_colourway, &QComboBox::activated, this, [this](int index) {
        askWith([&](GroundState& state) {
            const qlonglong id = m_colourway->itemData(index).toLongLong();
            state.colourway = id > 0 ? std::optional(workbox::ColourwayId{id}) : std::nullopt;
        });
    });
    connect(m_ownCount, &QCheckBox::toggled, this, [this](bool own) {
        askWith([&](GroundState& state) {
            state.count = own ? std::nullopt : std::optional(m_count->value());
            state.over = m_over->current() + 1;
        });
    });
    connect(m_count, &QSlider::valueChanged, this,
            [this](int count) { askWith([&](GroundState& state) { state.count = count; }); });
    connect(m_over, &Segmented::chosen, this, [this](int index) {
        askWith([&](GroundState& state) {
            state.over = index + 1;
            state.count = state.count.value_or(m_count->value());
        });
    });
    connect(m_keyStrands, &QCheckBox::toggled, this, [this](bool key) {
        askWith([&](GroundState& state) {
            state.strands = key ? std::nullopt : std::optional(m_strands->value());
        });
    });
    connect(m_strands, &QSlider::valueChanged, this,
            [this](int strands) { askWith([&](GroundState& state) { state.strands = strands; }); });
}

void GroundSide::show(GroundDesk& desk) {
    m_state = desk.state();
    showSources();
    showColourways();
    showStitching(desk);
    m_piece->show(desk);
    m_ways->show(desk, m_session.ground().name);
}

void GroundSide::showSources() {
    const QSignalBlocker quiet(m_of);
    m_of->clear();
    for (const workbox::ChartFacts& chart : m_session.document().charts()) {
        m_of->addItem(tr("%1 (chart)").arg(chart.name),
                      keyOf(ThreadsOf::Chart, QString::number(qint64(chart.id))));
    }
    m_of->addItem(tr("My stash"), keyOf(ThreadsOf::Stash, {}));
    for (const workbox::StoredCard& card : m_session.document().cards()) {
        m_of->addItem(card.name, keyOf(ThreadsOf::Card, card.name));
    }
    const auto chart = m_session.chartId();
    const QString what = m_state.of == ThreadsOf::Card ? m_state.card
                         : chart                       ? QString::number(qint64(*chart))
                                                       : QString();
    m_of->setCurrentIndex(std::max(0, m_of->findData(keyOf(m_state.of, what))));
}

void GroundSide::showColourways() {
    const QSignalBlocker quiet(m_colourway);
    m_colourway->clear();
    const auto chart = m_session.chartId();
    if (m_state.of == ThreadsOf::Chart && chart) {
        m_colourway->addItem(tr("As charted"), 0);
        for (const workbox::StoredColourway& one : m_session.document().colourways(*chart)) {
            m_colourway->addItem(one.name, qint64(one.id));
        }
        const qint64 shown = m_state.colourway ? qint64(*m_state.colourway) : 0;
        m_colourway->setCurrentIndex(std::max(0, m_colourway->findData(shown)));
    }
    m_colourway->setVisible(m_colourway->count() > 1);
}

void GroundSide::showStitching(const GroundDesk& desk) {
    const QSignalBlocker a(m_ownCount);
    const QSignalBlocker b(m_count);
    const QSignalBlocker c(m_keyStrands);
    const QSignalBlocker d(m_strands);
    const thread::Ground ground = desk.chosenGround();
    m_ownCount->setChecked(!m_state.count);
    m_count->setValue(ground.count);
    m_countText->setText(countText(ground));
    m_over->setCurrent(ground.over - 1);

    const bool ofChart = desk.subject() != nullptr;
    m_keyStrands->setVisible(ofChart);
    m_keyStrands->setChecked(ofChart && !m_state.strands);
    constexpr int kUsual = 2;
    int least = m_state.strands.value_or(kUsual);
    int most = least;
    if (ofChart && !m_state.strands) {
        // Of crosses; backstitch has its own.
        bool first = true;
        for (const GroundRow& row : desk.rows()) {
            if (row.stitches > 0) {
                least = first ? row.strands : std::min(least, row.strands);
                most = first ? row.strands : std::max(most, row.strands);
                first = false;
            }
        }
    }
    m_strands->setValue(least);
    m_strandsText->setText(least == most ? QString::number(least)
                                         : tr("%1 to %2").arg(least).arg(most));
    const double width = colourway::kPlyWidthMm;
    const auto enough = colourway::strandsToCover(ground, width);
    const QString covers = (least == 1 ? tr("%1 strand of cotton covers %2 % of %3.")
                                       : tr("%1 strands of cotton cover %2 % of %3."))
                               .arg(least)
                               .arg(qRound(100 * colourway::coverage(ground, least, width)))
                               .arg(ground.name);
    const auto from = colourway::coarsestThatCovers(ground.over, least, width, colourway::kCovers);
    QStringList lines{covers};
    if (enough) {
        lines.push_back(tr("95 % takes %1 here.").arg(*enough));
    }
    if (from && *from != ground.count) {
        lines.push_back((least == 1 ? tr("%1 is enough from count %2 on.")
                                    : tr("%1 are enough from count %2 on."))
                            .arg(least)
                            .arg(*from));
    }
    m_coverText->setText(lines.join(QLatin1Char(' ')));
    const auto finest = colourway::finestUncrowded(ground.over, least, width);
    m_coverText->setToolTip(
        finest ? tr("From about count %1 on so many strands crowd each other.").arg(*finest + 1)
               : QString());
}

} // namespace otherskein::app
