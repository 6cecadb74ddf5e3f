#include "app/substitute/remembered_state.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>

namespace otherskein::app {

namespace {

const QString kStrands = QStringLiteral("strands");
const QString kNearest = QStringLiteral("nearest");
const QString kInChart = QStringLiteral("best_in_chart");
const QString kTextile = QStringLiteral("textile_weights");
const QString kBlendsKey = QStringLiteral("blends");
const QString kCalm = QStringLiteral("calm_blends");
const QString kStashKey = QStringLiteral("only_stash");
const QString kStock = QStringLiteral("only_in_stock");
const QString kFibre = QStringLiteral("fibre");
const QString kFinish = QStringLiteral("finish");
const QString kLeftOutKey = QStringLiteral("cards_left_out");

} // namespace

QString rememberedText(const SubstituteState& state) {
    QJsonObject object{{kStrands, state.question.strands},
                       {kNearest, state.question.order == colourway::Order::Nearest},
                       {kInChart, state.question.order == colourway::Order::InChart},
                       {kTextile, state.question.weights == colour::kTextileWeights},
                       {kBlendsKey, state.question.blends},
                       {kCalm, state.question.calmBlends},
                       {kStashKey, state.filter.onlyStash},
                       {kStock, state.filter.onlyInStock},
                       {kFibre, state.filter.fibre},
                       {kLeftOutKey, QJsonArray::fromStringList(state.cardsLeftOut)}};
    if (state.filter.finish) {
        object.insert(kFinish, thread::wordOf(*state.filter.finish));
    }
    return QString::fromUtf8(QJsonDocument(object).toJson(QJsonDocument::Compact));
}

SubstituteState rememberedState(const QString& text, const SubstituteState& otherwise) {
    SubstituteState state = otherwise;
    const QJsonObject object = QJsonDocument::fromJson(text.toUtf8()).object();
    if (object.isEmpty()) {
        return state;
    }
    constexpr int kMostStrands = 6;
    state.question.strands =
        std::clamp(object.value(kStrands).toInt(state.question.strands), 1, kMostStrands);
    state.question.order = object.value(kInChart).toBool()   ? colourway::Order::InChart
                           : object.value(kNearest).toBool() ? colourway::Order::Nearest
                                                             : colourway::Order::StashFirst;
    state.question.weights =
        object.value(kTextile).toBool() ? colour::kTextileWeights : colour::kReferenceWeights;
    state.question.blends = object.value(kBlendsKey).toBool(state.question.blends);
    state.question.calmBlends = object.value(kCalm).toBool(state.question.calmBlends);
    state.filter.onlyStash = object.value(kStashKey).toBool();
    state.filter.onlyInStock = object.value(kStock).toBool();
    state.filter.fibre = object.value(kFibre).toString();
    if (object.contains(kFinish)) {
        state.filter.finish = thread::finishOf(object.value(kFinish).toString());
    }
    for (const QJsonValue& card : object.value(kLeftOutKey).toArray()) {
        state.cardsLeftOut.push_back(card.toString());
    }
    return state;
}

} // namespace otherskein::app
