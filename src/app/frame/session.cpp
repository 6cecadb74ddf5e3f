#include "app/frame/session.h"

#include "base/whole_file.h"
#include "chart/lines_csv.h"
#include "chart/picture.h"
#include "colourway/key_threads.h"
#include "thread/ground_csv.h"

#include <QFileInfo>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>

namespace otherskein::app {

namespace {

const QString kGroundSetting = QStringLiteral("ground");
const QString kKeySetting = QStringLiteral("key");
const QString kKeyNameSetting = QStringLiteral("key_name");
const QString kKeyChartSetting = QStringLiteral("key_chart");
const QString kChartSetting = QStringLiteral("chart");
const QString kWantedCardSetting = QStringLiteral("wanted_card");
const QString kWantedCodeSetting = QStringLiteral("wanted_code");
const QString kPlyWidthsSetting = QStringLiteral("ply_widths_mm");
const QString kWasteSetting = QStringLiteral("waste");
constexpr double kLeastWaste = -0.9; // a calibrated one may be negative: a thrifty hand
constexpr double kMostWaste = 2;

QByteArray demoFile(const QString& name) {
    return base::readWholeFile(QStringLiteral(":/demo/") + name, thread::limits::kMostCardBytes);
}

bool hasChart(const workbox::Document& document, workbox::ChartId id) {
    const auto charts = document.charts();
    return std::ranges::find(charts, id, &workbox::ChartFacts::id) != charts.end();
}

/// A chart that the program brings along: picture, key and, where there are some, lines.
chart::Chart demoChart(const QString& stem, const QString& name, bool hasLines) {
    const QString picture = stem + QStringLiteral(".png");
    const QString key = stem + QStringLiteral(".key.csv");
    const QString lines = stem + QStringLiteral(".lines.csv");
    chart::Chart chart = chart::chartFromPicture(demoFile(picture), picture,
                                                 chart::parseKey(demoFile(key), key), key);
    if (hasLines) {
        chart.lines = chart::parseLines(demoFile(lines), lines, chart.grid, chart.key);
    }
    chart.name = name;
    return chart;
}

} // namespace

Session::Session(workbox::Document& document, QObject* parent)
    : QObject(parent), m_document(document) {
    const auto forget = [this] {
        m_cards.reset();
        Q_EMIT cardsChanged();
    };
    connect(&document, &workbox::Document::cardsChanged, this, forget);
    connect(&document, &workbox::Document::threadsChanged, this, forget);
    connect(&document, &workbox::Document::groundsChanged, this, &Session::groundChanged);

    followCharts();
    readMeasures();
    workbox::Store& store = document.store();
    if (const workbox::ChartId chart{store.setting(kKeyChartSetting).toLongLong()};
        hasChart(document, chart)) {
        m_keyChart = chart;
        refreshKey();
    } else if (const QString key = store.setting(kKeySetting); !key.isEmpty()) {
        m_keyName = store.setting(kKeyNameSetting);
        m_key = chart::parseKey(key.toUtf8(), m_keyName);
    }
    if (const auto wanted =
            wantedThread(store.setting(kWantedCardSetting), store.setting(kWantedCodeSetting))) {
        m_wanted = *wanted;
    }
}

void Session::followCharts() {
    connect(&m_document, &workbox::Document::chartChanged, this, [this](workbox::ChartId id) {
        if (m_keyChart == id) {
            refreshKey();
        }
    });
    connect(&m_document, &workbox::Document::chartsChanged, this, [this] {
        if (m_keyChart && !hasChart(m_document, *m_keyChart)) {
            m_keyChart.reset();
            m_key.clear();
            m_touching.clear();
            Q_EMIT keyChanged();
        }
        Q_EMIT chartChosen(); // the chart in use may be another now, or have another name
    });
}

std::optional<workbox::ChartId> Session::chartId() const {
    const workbox::ChartId chosen{m_document.store().setting(kChartSetting).toLongLong()};
    if (hasChart(m_document, chosen)) {
        return chosen;
    }
    const auto charts = m_document.charts();
    return charts.empty() ? std::nullopt : std::optional(charts.front().id);
}

void Session::chooseChart(workbox::ChartId id) {
    if (chartId() == id) {
        return;
    }
    m_document.store().setSetting(kChartSetting, QString::number(static_cast<qint64>(id)));
    Q_EMIT chartChosen();
}

void Session::judgeIn(workbox::ChartId id) {
    m_keyChart = id;
    m_document.store().setSetting(kKeyChartSetting, QString::number(static_cast<qint64>(id)));
    refreshKey();
}

void Session::refreshKey() {
    const auto chart = m_document.chart(*m_keyChart);
    std::vector<const thread::ShadeCard*> known;
    for (const thread::ShadeCard& card : *cards()) {
        known.push_back(&card);
    }
    m_key = colourway::withThreadColours(chart->key, known);
    m_keyName = chart->name;
    m_touching = chart::neighboursOf(chart->grid, chart->key.size());
    Q_EMIT keyChanged();
}

thread::Ground Session::ground() const {
    if (const auto id = groundId()) {
        return m_document.ground(*id)->ground;
    }
    return thread::groundOfSrgb(tr("White evenweave"), {0xf4, 0xf3, 0xef});
}

std::optional<workbox::GroundId> Session::groundId() const {
    const auto chosen = workbox::GroundId{m_document.store().setting(kGroundSetting).toLongLong()};
    if (m_document.ground(chosen) != nullptr) {
        return chosen;
    }
    if (!m_document.grounds().empty()) {
        return m_document.grounds().front().id;
    }
    return std::nullopt;
}

void Session::chooseGround(workbox::GroundId id) {
    m_document.store().setSetting(kGroundSetting, QString::number(static_cast<qint64>(id)));
    Q_EMIT groundChanged();
}

void Session::openKey(const QString& path) {
    takeKey(base::readWholeFile(path, chart::kMostKeyBytes), path);
}

void Session::takeKey(const QByteArray& bytes, const QString& name) {
    m_key = chart::parseKey(bytes, name); // throws before anything is changed
    m_keyChart.reset();
    m_touching.clear();
    m_document.store().setSetting(kKeyChartSetting, {});
    m_keyName = QFileInfo(name).fileName();
    m_document.store().setSetting(kKeySetting, QString::fromUtf8(bytes));
    m_document.store().setSetting(kKeyNameSetting, m_keyName);
    Q_EMIT keyChanged();
}

void Session::clearKey() {
    m_key.clear();
    m_keyName.clear();
    m_touching.clear();
    m_keyChart.reset();
    m_document.store().setSetting(kKeyChartSetting, {});
    m_document.store().setSetting(kKeySetting, {});
    Q_EMIT keyChanged();
}

void Session::setWanted(const colourway::Wanted& wanted) {
    if (wanted == m_wanted) {
        return;
    }
    m_wanted = wanted;
    m_document.store().setSetting(kWantedCardSetting, wanted.card);
    m_document.store().setSetting(kWantedCodeSetting, wanted.code);
    Q_EMIT wantedChanged();
}

std::optional<colourway::Wanted> Session::wantedThread(const QString& card,
                                                       const QString& code) const {
    const workbox::StoredCard* stored = m_document.cardNamed(card);
    if (stored == nullptr) {
        return std::nullopt;
    }
    for (const workbox::StoredThread& one : stored->threads) {
        if (one.thread.code == code) {
            return colourway::Wanted{card, code, one.thread.name, one.thread.lab, one.thread};
        }
    }
    return std::nullopt;
}

const Session::Cards& Session::cards() {
    if (!m_cards) {
        auto cards = std::make_shared<std::vector<thread::ShadeCard>>();
        for (const workbox::StoredCard& card : m_document.cards()) {
            cards->push_back(m_document.shadeCard(card.id));
        }
        m_cards = std::move(cards);
    }
    return m_cards;
}

void Session::readMeasures() {
    const QString widths = m_document.store().setting(kPlyWidthsSetting);
    const QJsonObject object = QJsonDocument::fromJson(widths.toUtf8()).object();
    for (auto it = object.begin(); it != object.end(); ++it) {
        const double width = it.value().toDouble();
        if (width >= colourway::kLeastPlyWidthMm && width <= colourway::kMostPlyWidthMm) {
            m_plyWidths.measuredMm[it.key()] = width;
        }
    }
    if (const QString waste = m_document.store().setting(kWasteSetting); !waste.isEmpty()) {
        m_waste = std::clamp(waste.toDouble(), kLeastWaste, kMostWaste);
    }
}

void Session::setPlyWidths(const colourway::PlyWidths& widths) {
    if (widths == m_plyWidths) {
        return;
    }
    m_plyWidths = widths;
    QJsonObject object;
    for (const auto& [fibre, width] : widths.measuredMm) {
        object.insert(fibre, width);
    }
    m_document.store().setSetting(
        kPlyWidthsSetting, QString::fromUtf8(QJsonDocument(object).toJson(QJsonDocument::Compact)));
    Q_EMIT measuresChanged();
}

void Session::setWaste(double share) {
    m_waste = std::clamp(share, kLeastWaste, kMostWaste);
    m_document.store().setSetting(kWasteSetting, QString::number(m_waste));
    Q_EMIT measuresChanged();
}

void Session::openDemo() {
    std::vector<thread::ShadeCard> cards;
    for (const char* name : {"lanternfold-cotton", "mossip-silk", "tarrow-wool"}) {
        const QString file = QString::fromLatin1(name) + QStringLiteral(".csv");
        cards.push_back(thread::parseShadeCard(demoFile(file), file));
    }
    const QString grounds = QStringLiteral("grounds.csv");
    const QString key = QStringLiteral("harbour-row.key.csv");
    const std::vector<chart::Chart> charts{
        demoChart(QStringLiteral("boathouses"), tr("Boathouses"), false),
        demoChart(QStringLiteral("harbour-evening"), tr("Harbour evening"), true)};
    m_document.addAll(cards, thread::parseGrounds(demoFile(grounds), grounds), tr("Open the demo"),
                      charts);
    const auto known = m_document.charts();
    chooseChart(known[known.size() - charts.size()].id);
    // The row of boathouses is charted in slate, which a dark cloth would swallow.
    for (const workbox::StoredGround& one : m_document.grounds()) {
        if (one.ground.name == QStringLiteral("Oatmeal linen")) {
            chooseGround(one.id);
        }
    }
    takeKey(demoFile(key), key);
    if (const auto wanted = wantedThread(cards.front().name, QStringLiteral("LF-218"))) {
        setWanted(*wanted);
    }
}

} // namespace otherskein::app
