#include "app/recolour/recolour_state.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>

namespace otherskein::app {

namespace {

const QString kChart = QStringLiteral("chart");
const QString kColourway = QStringLiteral("colourway");
const QString kJob = QStringLiteral("job");
const QString kSource = QStringLiteral("source");
const QString kHue = QStringLiteral("hue");
const QString kNeutrals = QStringLiteral("neutrals_too");
const QString kPicture = QStringLiteral("picture");
const QString kPictureColours = QStringLiteral("picture_colours");
const QString kColours = QStringLiteral("colours");
const QString kFloor = QStringLiteral("floor");
const QString kStash = QStringLiteral("only_stash");
const QString kBlends = QStringLiteral("blends");
const QString kSeed = QStringLiteral("seed");
const QString kLeftOut = QStringLiteral("cards_left_out");
const QString kMore = QStringLiteral("more");
const QString kDivider = QStringLiteral("divider");

constexpr int kJobs = 3;
constexpr int kSources = 4;
constexpr int kMostColours = 300;
constexpr double kMostFloor = 60;

template <typename Id>
std::optional<Id> idIn(const QJsonObject& object, const QString& name) {
    const qint64 id = object.value(name).toInteger();
    return id > 0 ? std::optional(Id{id}) : std::nullopt;
}

} // namespace

QString rememberedText(const RecolourState& state) {
    QJsonArray picture;
    for (const colour::Lab& lab : state.pictureColours) {
        picture.append(QJsonArray{lab.L, lab.a, lab.b});
    }
    QJsonObject object{{kJob, static_cast<int>(state.job)},
                       {kSource, static_cast<int>(state.source)},
                       {kHue, state.hue},
                       {kNeutrals, state.neutralsToo},
                       {kPicture, state.pictureName},
                       {kPictureColours, picture},
                       {kColours, state.colours},
                       {kFloor, state.floor},
                       {kStash, state.onlyStash},
                       {kBlends, state.blends},
                       {kSeed, QString::number(state.seed)},
                       {kLeftOut, QJsonArray::fromStringList(state.cardsLeftOut)},
                       {kMore, state.more},
                       {kDivider, state.divider}};
    if (state.chart) {
        object.insert(kChart, static_cast<qint64>(*state.chart));
    }
    if (state.colourway) {
        object.insert(kColourway, static_cast<qint64>(*state.colourway));
    }
    return QString::fromUtf8(QJsonDocument(object).toJson(QJsonDocument::Compact));
}

RecolourState rememberedState(const QString& text, const RecolourState& otherwise) {
    RecolourState state = otherwise;
    const QJsonObject object = QJsonDocument::fromJson(text.toUtf8()).object();
    if (object.isEmpty()) {
        return state;
    }
    state.chart = idIn<workbox::ChartId>(object, kChart);
    state.colourway = idIn<workbox::ColourwayId>(object, kColourway);
    state.job = static_cast<RecolourJob>(
        std::clamp(object.value(kJob).toInt(int(state.job)), 0, kJobs - 1));
    state.source = static_cast<ColourSource>(
        std::clamp(object.value(kSource).toInt(int(state.source)), 0, kSources - 1));
    state.hue = std::clamp(object.value(kHue).toDouble(state.hue), 0.0, 360.0);
    state.neutralsToo = object.value(kNeutrals).toBool();
    state.pictureName = object.value(kPicture).toString();
    state.pictureColours.clear();
    for (const QJsonValue& value : object.value(kPictureColours).toArray()) {
        const QJsonArray lab = value.toArray();
        state.pictureColours.push_back({std::clamp(lab.at(0).toDouble(), 0.0, 100.0),
                                        lab.at(1).toDouble(), lab.at(2).toDouble()});
    }
    state.colours = std::clamp(object.value(kColours).toInt(state.colours), 0, kMostColours);
    state.floor = std::clamp(object.value(kFloor).toDouble(state.floor), 0.0, kMostFloor);
    state.onlyStash = object.value(kStash).toBool();
    state.blends = object.value(kBlends).toBool();
    state.seed = std::max<std::uint64_t>(1, object.value(kSeed).toString().toULongLong());
    state.cardsLeftOut.clear();
    for (const QJsonValue& card : object.value(kLeftOut).toArray()) {
        state.cardsLeftOut.push_back(card.toString());
    }
    state.more = object.value(kMore).toBool();
    state.divider = std::clamp(object.value(kDivider).toDouble(state.divider), 0.0, 1.0);
    return state;
}

} // namespace otherskein::app
