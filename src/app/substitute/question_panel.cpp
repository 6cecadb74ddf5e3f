#include "app/substitute/question_panel.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/substitute/chart_choice.h"
#include "app/substitute/wanted_chip.h"
#include "app/substitute/wanted_field.h"
#include "base/input_error.h"
#include "colour/conversion.h"
#include "colourway/wanted_search.h"

#include <QCheckBox>
#include <QColorDialog>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLocale>
#include <QPushButton>
#include <QSpinBox>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kPanelWidth = 272;
constexpr int kMostNeedleStrands = 6;

QString number(double value) {
    return QLocale().toString(value, 'f', 1).replace(QLatin1Char('-'), QChar(0x2212));
}

QString stockText(const thread::Thread& thread) {
    switch (thread.stock) {
    case thread::Stock::Out:
        return QuestionPanel::tr("out of stock");
    case thread::Stock::Discontinued:
        return QuestionPanel::tr("discontinued");
    case thread::Stock::In:
        return QuestionPanel::tr("in stock");
    case thread::Stock::Unstated:
        break;
    }
    return {};
}

QString factsOf(const thread::Thread& thread) {
    QStringList facts;
    if (!thread.fibre.isEmpty()) {
        facts.push_back(thread.fibre);
    }
    facts.push_back(QuestionPanel::tr("%n plies", nullptr, thread.strands));
    if (const QString stock = stockText(thread); !stock.isEmpty()) {
        facts.push_back(stock);
    }
    facts.push_back(
        thread.stash > 0
            ? QuestionPanel::tr("%1 skeins in stash").arg(QLocale().toString(thread.stash, 'g', 4))
            : QuestionPanel::tr("none in stash"));
    return facts.join(QStringLiteral(" · "));
}

QIcon groundIcon(const thread::Ground& ground) {
    QPixmap pixmap(18, 14);
    pixmap.fill(toQColor(ground.shown));
    return {pixmap};
}

} // namespace

template <typename Change>
void QuestionPanel::askWith(Change change) {
    SubstituteState next = m_state;
    change(next);
    if (!(next == m_state)) {
        Q_EMIT asked(next);
    }
}

QuestionPanel::QuestionPanel(Session& session, QWidget* parent)
    : Panel(PanelEdge::Trailing, parent), m_session(session) {
    setFixedWidth(kPanelWidth);
    column()->setSpacing(6);
    addTitle(tr("Substitute"));
    buildWanted();
    buildKey();
    buildGround();
    buildAmong();
    column()->addStretch();
    connect(&session, &Session::cardsChanged, this, [this] {
        showCards();
        showFibres();
    });
    connect(&session, &Session::groundChanged, this, [this] {
        showGrounds();
        showWanted();
    });
    showCards();
    showFibres();
    showGrounds();
}

void QuestionPanel::buildWanted() {
    m_wanted = new WantedField(m_session, this);
    m_chip = new WantedChip(this);
    auto* row = new QHBoxLayout;
    row->setSpacing(6);
    row->addWidget(m_wanted, 1);
    auto* pick = new QPushButton(tr("Colour…"), this);
    pick->setAccessibleName(tr("Enter a colour instead of a thread"));
    row->addWidget(pick);
    column()->addLayout(row);
    column()->addWidget(m_chip);
    m_reading = addNote({});
    m_facts = new QLabel(this);
    m_facts->setWordWrap(true);
    column()->addWidget(m_facts);

    connect(m_wanted, &WantedField::meant, this, [this](const colourway::Wanted& wanted) {
        askWith([&](SubstituteState& state) { state.question.wanted = wanted; });
    });
    connect(m_wanted, &WantedField::nothingMeant, this, [this](const QString& text) {
        m_facts->setText(tr("No thread is called \"%1\".").arg(text));
    });
    connect(pick, &QPushButton::clicked, this, [this] {
        const QColor before = toQColor(colour::srgbFromLab(m_state.question.wanted.lab));
        const QColor chosen = QColorDialog::getColor(before, this, tr("The wanted colour"));
        if (chosen.isValid()) {
            askWith([&](SubstituteState& state) {
                state.question.wanted = colourway::wantedColour(toSrgb8(chosen));
            });
        }
    });
}

void QuestionPanel::buildKey() {
    addHeading(tr("In the chart"));
    auto* chart = new ChartChoice(m_session, this);
    column()->addWidget(chart);
    m_keyStrip = new KeyStrip(this);
    column()->addWidget(m_keyStrip);
    m_keyText = addNote({});
    connect(chart, &ChartChoice::keyAsked, this, &QuestionPanel::keyAsked);
    connect(m_keyStrip, &KeyStrip::chosen, this, [this](const QString& card, const QString& code) {
        if (const auto wanted = m_session.wantedThread(card, code)) {
            askWith([&](SubstituteState& state) { state.question.wanted = *wanted; });
        } else {
            Q_EMIT told(tr("%1 is in the chart's key, but on no shade card here.").arg(code));
        }
    });
}

void QuestionPanel::buildGround() {
    addHeading(tr("On the ground"));
    m_ground = new QComboBox(this);
    m_ground->setAccessibleName(tr("Ground"));
    m_ground->setMinimumContentsLength(12);
    m_ground->setMaxVisibleItems(16);
    m_ground->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    column()->addWidget(m_ground);
    connect(m_ground, &QComboBox::activated, this, &QuestionPanel::pickGround);
}

void QuestionPanel::buildAmong() {
    addHeading(tr("Look among"));
    m_cards = new QWidget(this);
    auto* cards = new QVBoxLayout(m_cards);
    cards->setContentsMargins(0, 0, 0, 0);
    cards->setSpacing(2);
    column()->addWidget(m_cards);

    m_blends = new QCheckBox(tr("Blends of two threads"), this);
    m_calm = new QCheckBox(tr("No speckled blends"), this);
    m_calm->setToolTip(tr(
        "Leaves out blends whose two threads differ so much that they do not read as one colour"));
    m_onlyStash = new QCheckBox(tr("Only what I own"), this);
    m_onlyStock = new QCheckBox(tr("Leave out what shops lack"), this);
    m_fibre = new QComboBox(this);
    m_fibre->setAccessibleName(tr("Fibre"));
    m_finish = new QComboBox(this);
    m_finish->setAccessibleName(tr("Finish"));
    m_finish->addItem(tr("Any finish"));
    for (const auto& [finish, name] : {std::pair(thread::Finish::Matt, tr("matt")),
                                       std::pair(thread::Finish::Satin, tr("satin")),
                                       std::pair(thread::Finish::Metallic, tr("metallic")),
                                       std::pair(thread::Finish::Variegated, tr("variegated"))}) {
        m_finish->addItem(name, static_cast<int>(finish));
    }
    addHeading(tr("Also"));
    m_strands = new QSpinBox(this);
    m_strands->setAccessibleName(tr("Strands in the needle"));
    m_strands->setRange(1, kMostNeedleStrands);
    auto* needle = new QHBoxLayout;
    needle->addWidget(new QLabel(tr("Strands in the needle"), this), 1);
    needle->addWidget(m_strands);
    column()->addLayout(needle);
    connect(m_strands, &QSpinBox::valueChanged, this, [this](int strands) {
        askWith([&](SubstituteState& state) { state.question.strands = strands; });
    });
    column()->addWidget(m_blends);
    column()->addWidget(m_calm);
    column()->addWidget(m_onlyStash);
    column()->addWidget(m_onlyStock);
    auto* row = new QHBoxLayout;
    row->setSpacing(6);
    row->addWidget(m_fibre, 1);
    row->addWidget(m_finish, 1);
    column()->addLayout(row);

    connect(m_blends, &QCheckBox::toggled, this, [this](bool on) {
        askWith([on](SubstituteState& state) { state.question.blends = on; });
    });
    connect(m_calm, &QCheckBox::toggled, this, [this](bool on) {
        askWith([on](SubstituteState& state) { state.question.calmBlends = on; });
    });
    connect(m_onlyStash, &QCheckBox::toggled, this, [this](bool on) {
        askWith([on](SubstituteState& state) { state.filter.onlyStash = on; });
    });
    connect(m_onlyStock, &QCheckBox::toggled, this, [this](bool on) {
        askWith([on](SubstituteState& state) { state.filter.onlyInStock = on; });
    });
    connect(m_fibre, &QComboBox::activated, this, [this](int index) {
        askWith([&](SubstituteState& state) {
            state.filter.fibre = index == 0 ? QString() : m_fibre->itemText(index);
        });
    });
    connect(m_finish, &QComboBox::activated, this, [this](int index) {
        askWith([&](SubstituteState& state) {
            state.filter.finish.reset();
            if (index > 0) {
                state.filter.finish =
                    static_cast<thread::Finish>(m_finish->itemData(index).toInt());
            }
        });
    });
}

void QuestionPanel::focusWanted() {
    m_wanted->setFocus(Qt::ShortcutFocusReason);
    m_wanted->selectAll();
}

void QuestionPanel::show(const SubstituteState& state) {
    m_state = state;
    const QSignalBlocker a(m_strands);
    const QSignalBlocker b(m_blends);
    const QSignalBlocker c(m_onlyStash);
    const QSignalBlocker d(m_onlyStock);
    const QSignalBlocker e(m_calm);
    m_strands->setValue(state.question.strands);
    m_blends->setChecked(state.question.blends);
    m_blends->setEnabled(state.question.strands > 1);
    m_blends->setToolTip(
        state.question.strands > 1 ? QString() : tr("A blend needs two strands in the needle"));
    m_calm->setChecked(state.question.calmBlends);
    m_calm->setEnabled(state.question.strands > 1 && state.question.blends);
    m_onlyStash->setChecked(state.filter.onlyStash);
    m_onlyStock->setChecked(state.filter.onlyInStock);
    for (auto* box : m_cards->findChildren<QCheckBox*>()) {
        const QSignalBlocker quiet(box);
        box->setChecked(!state.cardsLeftOut.contains(box->property("card").toString()));
    }
    showWanted();
    showKey();
}

void QuestionPanel::showWanted() {
    const colourway::Wanted& wanted = m_state.question.wanted;
    m_wanted->showWanted(wanted);
    m_chip->show(wanted, m_session.ground());
    m_reading->setText(QStringLiteral("L* %1   a* %2   b* %3   ·   %4")
                           .arg(number(wanted.lab.L), number(wanted.lab.a), number(wanted.lab.b),
                                colour::toHex(colour::srgbFromLab(wanted.lab))));
    m_facts->setText(wanted.thread ? factsOf(*wanted.thread)
                                   : tr("A bare colour: fibre and finish are not compared."));
}

void QuestionPanel::showKey() {
    const chart::Key& key = m_state.question.key;
    m_keyStrip->show(key, m_state.question.wanted.code);
    const auto row = std::ranges::find(key, m_state.question.wanted.code, &chart::KeyRow::code);
    if (key.empty()) {
        m_keyText->setText(
            tr("With a chart, candidates are also judged beside the threads that they touch."));
    } else if (row == key.end() || row->code.isEmpty()) {
        m_keyText->setText(tr("%1: the wanted colour is not in it.").arg(m_session.keyName()));
    } else {
        m_keyText->setText(tr("%1 of %2: %n stitches", nullptr, row->stitches)
                               .arg(row->code, m_session.keyName()));
    }
}

void QuestionPanel::showCards() {
    qDeleteAll(m_cards->findChildren<QWidget*>(QString(), Qt::FindDirectChildrenOnly));
    for (const workbox::StoredCard& card : m_session.document().cards()) {
        auto* box = new QCheckBox(m_cards);
        box->setText(
            tr("%1  (%2)").arg(card.name, QLocale().toString(qlonglong(card.threads.size()))));
        box->setAccessibleName(box->text());
        box->setProperty("card", card.name);
        box->setChecked(!m_state.cardsLeftOut.contains(card.name));
        connect(box, &QCheckBox::toggled, this, [this, name = card.name](bool on) {
            askWith([&](SubstituteState& state) {
                state.cardsLeftOut.removeAll(name);
                if (!on) {
                    state.cardsLeftOut.push_back(name);
                }
            });
        });
        m_cards->layout()->addWidget(box);
    }
}

void QuestionPanel::showFibres() {
    QStringList fibres;
    for (const workbox::StoredCard& card : m_session.document().cards()) {
        for (const workbox::StoredThread& one : card.threads) {
            if (!one.thread.fibre.isEmpty() && !fibres.contains(one.thread.fibre)) {
                fibres.push_back(one.thread.fibre);
            }
        }
    }
    fibres.sort();
    m_fibre->clear();
    m_fibre->addItem(tr("Any fibre"));
    m_fibre->addItems(fibres);
    m_fibre->setCurrentIndex(std::max(0, m_fibre->findText(m_state.filter.fibre)));
}

void QuestionPanel::showGrounds() {
    m_ground->clear();
    const auto current = m_session.groundId();
    for (const workbox::StoredGround& one : m_session.document().grounds()) {
        m_ground->addItem(groundIcon(one.ground), one.ground.name, static_cast<qlonglong>(one.id));
        if (current == one.id) {
            m_ground->setCurrentIndex(m_ground->count() - 1);
        }
    }
    if (!current) {
        m_ground->addItem(groundIcon(m_session.ground()), m_session.ground().name);
    }
    m_ground->addItem(tr("Another colour…"));
}

void QuestionPanel::pickGround(int index) {
    try {
        if (index + 1 < m_ground->count()) {
            if (m_ground->itemData(index).isValid()) {
                m_session.chooseGround(workbox::GroundId{m_ground->itemData(index).toLongLong()});
            }
            return;
        }
        const QColor chosen = QColorDialog::getColor(toQColor(m_session.ground().shown), this,
                                                     tr("The ground's colour"));
        if (chosen.isValid()) {
            const thread::Ground ground = thread::groundOfSrgb(
                tr("Ground %1").arg(colour::toHex(toSrgb8(chosen))), toSrgb8(chosen));
            m_session.chooseGround(m_session.document().addGround(ground));
        }
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
    showGrounds();
}

} // namespace otherskein::app
