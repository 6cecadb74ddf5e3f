#include "colourway/saved_colourway.h"

#include "base/input_error.h"
#include "colour/mixing.h"
#include "colourway/detail/saved_question.h"
#include "thread/thread_pool.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>

namespace otherskein::colourway {

namespace {

constexpr int kVersion = 1;

const thread::Thread* threadOnCard(const Choice::Portion& portion,
                                   std::span<const thread::ShadeCard* const> cards) {
    for (const thread::ShadeCard* card : cards) {
        if (card->name == portion.card) {
            return thread::findThread(*card, portion.thread.code);
        }
    }
    return nullptr;
}

/// The choice with what the cards say of its threads today.
Choice refreshed(Choice choice, std::span<const thread::ShadeCard* const> cards) {
    std::vector<colour::Share> shares;
    for (Choice::Portion& portion : choice.portions) {
        if (const thread::Thread* known = threadOnCard(portion, cards)) {
            portion.thread = *known;
        }
        shares.push_back({portion.thread.lab, static_cast<double>(portion.strands)});
    }
    if (choice.portions.size() == 1) {
        choice.lab = choice.portions.front().thread.lab;
    } else if (!shares.empty()) {
        choice.lab = colour::mixed(shares);
    }
    return choice;
}

} // namespace

SavedColourway saved(const Subject& subject, const RecolourQuestion& question,
                     const Colourway& colourway) {
    SavedColourway result;
    result.question = question;
    result.question.locks.clear();
    for (std::size_t i = 0; i < colourway.now.size(); ++i) {
        const Part& part = subject.parts.parts[i];
        result.choices.push_back(
            {part.key, part.first, colourway.now[i], question.locks.contains(i)});
    }
    return result;
}

RestoredColourway restored(const SavedColourway& saved, const Subject& subject,
                           std::span<const thread::ShadeCard* const> cards) {
    RestoredColourway result;
    result.question = saved.question;
    result.colourway.by = subject.parts.by;
    result.colourway.now = subject.charted;
    for (std::size_t i = 0; i < subject.parts.parts.size(); ++i) {
        const Part& part = subject.parts.parts[i];
        const auto found =
            std::ranges::find_if(saved.choices, [&](const SavedColourway::PartChoice& one) {
                return one.key == part.key &&
                       (subject.parts.by == By::Colour || one.first == part.first);
            });
        if (found == saved.choices.end()) {
            continue;
        }
        result.colourway.now[i] = refreshed(found->choice, cards);
        if (found->locked) {
            result.question.locks[i] = result.colourway.now[i];
        }
    }
    result.colourway.figures = figuresOf(subject, result.question, result.colourway.now);
    return result;
}

QByteArray toJson(const SavedColourway& saved) {
    QJsonArray parts;
    for (const SavedColourway::PartChoice& part : saved.choices) {
        QJsonObject object = json::choiceObject(part.choice);
        object[QStringLiteral("key")] = part.key;
        object[QStringLiteral("cell")] = QJsonArray{part.first.column, part.first.row};
        if (part.locked) {
            object[QStringLiteral("locked")] = true;
        }
        parts.append(object);
    }
    const QJsonObject whole{{QStringLiteral("version"), kVersion},
                            {QStringLiteral("question"), json::questionObject(saved.question)},
                            {QStringLiteral("parts"), parts}};
    return QJsonDocument(whole).toJson(QJsonDocument::Compact);
}

SavedColourway fromJson(const QByteArray& bytes, const QString& source) {
    const QJsonDocument document = QJsonDocument::fromJson(bytes);
    const json::Reader reader(source);
    const QJsonObject whole = document.object();
    if (!document.isObject() || whole[QStringLiteral("version")].toInt() != kVersion) {
        reader.refuse(QStringLiteral("a saved colourway of version 1"),
                      document.isObject() ? QStringLiteral("another version")
                                          : QStringLiteral("no JSON object"));
    }
    SavedColourway result;
    result.question = reader.question(reader.object(whole, "question"));
    for (const QJsonValue& value : reader.array(whole, "parts")) {
        const QJsonObject object = value.toObject();
        SavedColourway::PartChoice part;
        part.key = static_cast<chart::KeyIndex>(
            reader.wholeNumber(object, "key", 0, static_cast<int>(chart::kMostKeyRows)));
        const QJsonArray cell = reader.array(object, "cell");
        part.first = {cell.at(0).toInt(), cell.at(1).toInt()};
        part.choice = reader.choice(object);
        part.locked = object[QStringLiteral("locked")].toBool();
        result.choices.push_back(std::move(part));
    }
    return result;
}

} // namespace otherskein::colourway
