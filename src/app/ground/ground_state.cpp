#include "app/ground/ground_state.h"

#include "thread/ground.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kSights = 5;
constexpr double kMostMarginMm = 500;

template <typename Id>
QJsonValue idValue(const std::optional<Id>& id) {
    return id ? QJsonValue(static_cast<qint64>(*id)) : QJsonValue();
}

std::optional<int> within(const QJsonValue& value, int least, int most) {
    return value.isDouble() ? std::optional(std::clamp(value.toInt(), least, most)) : std::nullopt;
}

} // namespace

QString rememberedText(const GroundState& state) {
    QJsonArray hidden;
    for (const workbox::GroundId id : state.hidden) {
        hidden.append(static_cast<qint64>(id));
    }
    const QJsonObject object{
        {QStringLiteral("of"), static_cast<int>(state.of)},
        {QStringLiteral("card"), state.card},
        {QStringLiteral("colourway"), idValue(state.colourway)},
        {QStringLiteral("hidden"), hidden},
        {QStringLiteral("strands"), state.strands ? QJsonValue(*state.strands) : QJsonValue()},
        {QStringLiteral("count"), state.count ? QJsonValue(*state.count) : QJsonValue()},
        {QStringLiteral("over"), state.over},
        {QStringLiteral("least_first"), state.leastFirst},
        {QStringLiteral("page"), static_cast<int>(state.page)},
        {QStringLiteral("sight"), static_cast<int>(state.sight.kind)},
        {QStringLiteral("severity"), state.sight.severity},
        {QStringLiteral("margin_mm"), state.marginMm},
        {QStringLiteral("inches"), state.inches},
        {QStringLiteral("divider"), state.divider}};
    return QString::fromUtf8(QJsonDocument(object).toJson(QJsonDocument::Compact));
}

GroundState rememberedGround(const QString& text, const GroundState& otherwise) {
    GroundState state = otherwise;
    const QJsonObject object = QJsonDocument::fromJson(text.toUtf8()).object();
    if (object.isEmpty()) {
        return state;
    }
    const auto at = [&](const char* name) { return object.value(QLatin1String(name)); };
    state.of = static_cast<ThreadsOf>(std::clamp(at("of").toInt(), 0, 2));
    state.card = at("card").toString();
    if (const qint64 id = at("colourway").toInteger(); id > 0) {
        state.colourway = workbox::ColourwayId{id};
    }
    state.hidden.clear();
    for (const QJsonValue& id : at("hidden").toArray()) {
        state.hidden.push_back(workbox::GroundId{id.toInteger()});
    }
    state.strands = within(at("strands"), 1, kMostStrandsOffered);
    state.count = within(at("count"), thread::limits::kLeastCount, thread::limits::kMostCount);
    state.over = std::clamp(at("over").toInt(state.over), 1, thread::limits::kMostOver);
    state.leastFirst = at("least_first").toBool(state.leastFirst);
    state.page = static_cast<GroundPage>(std::clamp(at("page").toInt(), 0, 1));
    state.sight.kind =
        static_cast<colour::Sight::Kind>(std::clamp(at("sight").toInt(), 0, kSights - 1));
    state.sight.severity = std::clamp(at("severity").toDouble(1), 0.0, 1.0);
    state.marginMm = std::clamp(at("margin_mm").toDouble(state.marginMm), 0.0, kMostMarginMm);
    state.inches = at("inches").toBool(state.inches);
    state.divider = std::clamp(at("divider").toDouble(state.divider), 0.0, 1.0);
    return state;
}

} // namespace otherskein::app
