#include "colourway/detail/saved_question.h"

#include "base/input_error.h"

#include <cmath>

namespace otherskein::colourway::json {

namespace {

QString text(const char* name) {
    return QString::fromLatin1(name);
}

QJsonArray labArray(const colour::Lab& lab) {
    return {lab.L, lab.a, lab.b};
}

QJsonObject themeObject(const Theme& theme) {
    QJsonObject object;
    const QString kind = QStringLiteral("kind");
    if (const auto* threads = std::get_if<FromThreads>(&theme)) {
        QJsonArray wanted;
        for (const auto& [card, code] : threads->wanted) {
            wanted.append(QJsonArray{card, code});
        }
        object = {{kind, QStringLiteral("threads")}, {QStringLiteral("wanted"), wanted}};
    } else if (const auto* family = std::get_if<HueFamily>(&theme)) {
        object = {{kind, QStringLiteral("hue")},
                  {QStringLiteral("hue"), family->hue},
                  {QStringLiteral("neutrals_too"), family->neutralsToo}};
    } else if (const auto* picture = std::get_if<FromPicture>(&theme)) {
        QJsonArray colours;
        for (const colour::Lab& lab : picture->colours) {
            colours.append(labArray(lab));
        }
        object = {{kind, QStringLiteral("picture")}, {QStringLiteral("colours"), colours}};
    } else {
        object[kind] = std::holds_alternative<Surprise>(theme) ? QStringLiteral("surprise")
                                                               : QStringLiteral("as_charted");
    }
    return object;
}

QJsonObject filterObject(const PoolFilter& filter) {
    QJsonObject object{{QStringLiteral("only_stash"), filter.onlyStash},
                       {QStringLiteral("only_in_stock"), filter.onlyInStock},
                       {QStringLiteral("fibre"), filter.fibre}};
    if (filter.finish) {
        object[QStringLiteral("finish")] = thread::wordOf(*filter.finish);
    }
    return object;
}

} // namespace

QJsonObject choiceObject(const Choice& choice) {
    QJsonArray portions;
    for (const Choice::Portion& portion : choice.portions) {
        QJsonObject object{{QStringLiteral("card"), portion.card},
                           {QStringLiteral("code"), portion.thread.code},
                           {QStringLiteral("name"), portion.thread.name},
                           {QStringLiteral("strands"), portion.strands},
                           {QStringLiteral("lab"), labArray(portion.thread.lab)}};
        if (portion.thread.entered) {
            object[QStringLiteral("srgb")] = colour::toHex(*portion.thread.entered);
        }
        portions.append(object);
    }
    return {{QStringLiteral("threads"), portions}, {QStringLiteral("lab"), labArray(choice.lab)}};
}

QJsonObject questionObject(const RecolourQuestion& question) {
    const thread::Ground& ground = question.ground;
    return {{QStringLiteral("by"),
             question.by == By::Motif ? QStringLiteral("motif") : QStringLiteral("colour")},
            {QStringLiteral("theme"), themeObject(question.theme)},
            {QStringLiteral("colours"), question.colours},
            {QStringLiteral("floor"), question.floor},
            {QStringLiteral("on_ground"), question.onGround},
            {QStringLiteral("ground"),
             QJsonObject{{QStringLiteral("name"), ground.name},
                         {QStringLiteral("lab"), labArray(ground.lab)},
                         {QStringLiteral("srgb"), colour::toHex(ground.shown)},
                         {QStringLiteral("count"), ground.count},
                         {QStringLiteral("over"), ground.over},
                         {QStringLiteral("weave"), ground.weave}}},
            {QStringLiteral("strands"), question.strands},
            {QStringLiteral("filter"), filterObject(question.filter)},
            {QStringLiteral("blends"), question.blends},
            {QStringLiteral("stash_first"), question.stashFirst},
            {QStringLiteral("seed"), QString::number(question.seed)}};
}

void Reader::refuse(const QString& expected, const QString& found) const {
    throw base::InputError({m_source, std::nullopt, {}, expected, found});
}

QJsonObject Reader::object(const QJsonObject& from, const char* name) const {
    const QJsonValue value = from[text(name)];
    if (!value.isObject()) {
        refuse(QStringLiteral("an object named %1").arg(text(name)), QStringLiteral("none"));
    }
    return value.toObject();
}

QJsonArray Reader::array(const QJsonObject& from, const char* name) const {
    const QJsonValue value = from[text(name)];
    if (!value.isArray()) {
        refuse(QStringLiteral("a list named %1").arg(text(name)), QStringLiteral("none"));
    }
    return value.toArray();
}

double Reader::number(const QJsonObject& from, const char* name, double least, double most) const {
    const QJsonValue value = from[text(name)];
    const double found = value.toDouble(std::nan(""));
    if (!(found >= least && found <= most)) {
        refuse(QStringLiteral("%1 from %2 to %3").arg(text(name)).arg(least).arg(most),
               value.isDouble() ? QString::number(found) : QStringLiteral("no number"));
    }
    return found;
}

int Reader::wholeNumber(const QJsonObject& from, const char* name, int least, int most) const {
    return static_cast<int>(std::lround(number(from, name, least, most)));
}

colour::Lab Reader::lab(const QJsonObject& from, const char* name) const {
    const QJsonArray values = array(from, name);
    if (values.size() != 3) {
        refuse(QStringLiteral("three numbers in %1").arg(text(name)),
               QString::number(values.size()));
    }
    const colour::Lab found{values[0].toDouble(-1), values[1].toDouble(), values[2].toDouble()};
    if (!(found.L >= 0 && found.L <= 100)) {
        refuse(QStringLiteral("a lightness from 0 to 100"), QString::number(found.L));
    }
    return found;
}

Choice Reader::choice(const QJsonObject& from) const {
    Choice choice;
    choice.lab = lab(from, "lab");
    for (const QJsonValue& value : array(from, "threads")) {
        const QJsonObject object = value.toObject();
        Choice::Portion portion;
        portion.card = object[QStringLiteral("card")].toString();
        portion.thread.code = object[QStringLiteral("code")].toString();
        portion.thread.name = object[QStringLiteral("name")].toString();
        portion.thread.lab = lab(object, "lab");
        portion.thread.entered = colour::parseHex(object[QStringLiteral("srgb")].toString());
        portion.strands = wholeNumber(object, "strands", 1, thread::limits::kMostStrands);
        choice.portions.push_back(std::move(portion));
    }
    return choice;
}

Theme Reader::theme(const QJsonObject& from) const {
    const QString kind = from[QStringLiteral("kind")].toString();
    if (kind == QStringLiteral("threads")) {
        FromThreads threads;
        for (const QJsonValue& value : array(from, "wanted")) {
            const QJsonArray pair = value.toArray();
            threads.wanted.emplace_back(pair.at(0).toString(), pair.at(1).toString());
        }
        return threads;
    }
    if (kind == QStringLiteral("hue")) {
        return HueFamily{number(from, "hue", -360, 720),
                         from[QStringLiteral("neutrals_too")].toBool()};
    }
    if (kind == QStringLiteral("picture")) {
        FromPicture picture;
        for (const QJsonValue& value : array(from, "colours")) {
            picture.colours.push_back(lab(QJsonObject{{QStringLiteral("lab"), value}}, "lab"));
        }
        return picture;
    }
    if (kind == QStringLiteral("surprise")) {
        return Surprise{};
    }
    if (kind != QStringLiteral("as_charted")) {
        refuse(QStringLiteral("a theme that this version knows"), base::quotedForMessage(kind));
    }
    return AsCharted{};
}

RecolourQuestion Reader::question(const QJsonObject& from) const {
    constexpr double kMostDifference = 200;
    RecolourQuestion question;
    question.by =
        from[QStringLiteral("by")].toString() == QStringLiteral("colour") ? By::Colour : By::Motif;
    question.theme = theme(object(from, "theme"));
    question.colours = wholeNumber(from, "colours", 0, static_cast<int>(chart::kMostKeyRows));
    question.floor = number(from, "floor", 0, kMostDifference);
    question.onGround = number(from, "on_ground", 0, kMostDifference);
    const QJsonObject cloth = object(from, "ground");
    question.ground.name = cloth[QStringLiteral("name")].toString();
    question.ground.lab = lab(cloth, "lab");
    question.ground.shown =
        colour::parseHex(cloth[QStringLiteral("srgb")].toString()).value_or(colour::Srgb8{});
    question.ground.count =
        wholeNumber(cloth, "count", thread::limits::kLeastCount, thread::limits::kMostCount);
    question.ground.over = wholeNumber(cloth, "over", 1, thread::limits::kMostOver);
    question.ground.weave = cloth[QStringLiteral("weave")].toString();
    question.strands = wholeNumber(from, "strands", 1, thread::limits::kMostStrands);
    const QJsonObject filter = object(from, "filter");
    question.filter.onlyStash = filter[QStringLiteral("only_stash")].toBool();
    question.filter.onlyInStock = filter[QStringLiteral("only_in_stock")].toBool();
    question.filter.fibre = filter[QStringLiteral("fibre")].toString();
    question.filter.finish = thread::finishOf(filter[QStringLiteral("finish")].toString());
    if (filter[QStringLiteral("finish")].isUndefined()) {
        question.filter.finish.reset();
    }
    question.blends = from[QStringLiteral("blends")].toBool();
    question.stashFirst = from[QStringLiteral("stash_first")].toBool();
    question.seed = from[QStringLiteral("seed")].toString().toULongLong();
    return question;
}

} // namespace otherskein::colourway::json
