#include "app/threads/thread_columns.h"

#include "base/number.h"
#include "colour/conversion.h"
#include "thread/field_checks.h"

#include <QStringList>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

using thread::Thread;

/// At most two digits behind the point, none where they are noughts.
QString entryOf(double value) {
    return base::formatNumber(std::round(value * 100) / 100);
}

QString asPlainNumber(const QString& text) {
    QString plain = text.trimmed();
    plain.replace(QChar(u'\u2212'), u'-');
    plain.replace(u',', u'.');
    return plain;
}

base::InputError badEntry(const thread::CellPlace& place, const QString& expected,
                          const QString& text) {
    return base::InputError(
        {place.source, {}, place.column, expected, base::quotedForMessage(text)});
}

double typedNumber(const thread::CellPlace& place, const QString& text, double least, double most) {
    const auto value = base::parseNumber(asPlainNumber(text));
    if (!value || *value < least || *value > most) {
        throw badEntry(place,
                       QStringLiteral("a number from %1 to %2")
                           .arg(base::formatNumber(least), base::formatNumber(most)),
                       text);
    }
    return *value;
}

template <typename Word, typename Parse>
Word typedWord(const thread::CellPlace& place, const QString& text, Parse parse, Word last) {
    const QString typed = text.trimmed();
    QStringList words;
    for (int i = 0; i <= static_cast<int>(last); ++i) {
        const auto word = static_cast<Word>(i);
        if (typed.compare(shownWord(word), Qt::CaseInsensitive) == 0) {
            return word;
        }
        words.push_back(shownWord(word));
    }
    if (const auto word = parse(typed.toLower())) {
        return *word;
    }
    throw badEntry(place, words.join(QStringLiteral(", ")), text);
}

} // namespace

colour::Srgb8 typedColour(const QString& text, const QString& card) {
    QString hex = text.trimmed();
    if (!hex.startsWith(u'#')) {
        hex.prepend(u'#');
    }
    const auto srgb = colour::parseHex(hex);
    if (!srgb) {
        throw badEntry({card, 0, columnTitle(Column::Colour)}, QStringLiteral("#rrggbb"), text);
    }
    return *srgb;
}

QString cellEntry(const Thread& thread, int column) {
    if (column >= kFixedColumns) {
        const auto extra = static_cast<std::size_t>(column - kFixedColumns);
        return extra < thread.extra.size() ? thread.extra[extra] : QString();
    }
    switch (static_cast<Column>(column)) {
    case Column::Colour:
        return colour::toHex(thread::shownColour(thread));
    case Column::Code:
        return thread.code;
    case Column::Name:
        return thread.name;
    case Column::L:
        return entryOf(thread.lab.L);
    case Column::A:
        return entryOf(thread.lab.a);
    case Column::B:
        return entryOf(thread.lab.b);
    case Column::Fibre:
        return thread.fibre;
    case Column::Finish:
        return shownWord(thread.finish);
    case Column::Plies:
        return QString::number(thread.strands);
    case Column::Length:
        return entryOf(thread.lengthM);
    case Column::Stash:
        return entryOf(thread.stash);
    case Column::Stock:
        return shownWord(thread.stock);
    case Column::Lot:
        return thread.lot;
    case Column::Spread:
        return thread.spread ? entryOf(*thread.spread) : QString();
    case Column::Note:
        return thread.note;
    case Column::Difference:
    case Column::Card:
        break;
    }
    return {};
}

Thread withCell(const Thread& thread, int column, const QString& text, const QString& card) {
    if (text == cellEntry(thread, column)) {
        return thread;
    }
    Thread after = thread;
    if (column >= kFixedColumns) {
        const auto extra = static_cast<std::size_t>(column - kFixedColumns);
        after.extra.resize(std::max(after.extra.size(), extra + 1));
        after.extra[extra] = text;
        return after;
    }
    const thread::CellPlace place{card, 0, columnTitle(static_cast<Column>(column))};
    const auto lab = [&](double& value, double least, double most) {
        value = typedNumber(place, text, least, most);
        after.entered.reset(); // what was measured or typed as Lab is no longer that sRGB value
    };
    switch (static_cast<Column>(column)) {
    case Column::Colour:
        after.entered = typedColour(text, card);
        after.lab = colour::labFromSrgb(*after.entered);
        break;
    case Column::Code:
        after.code = text.trimmed();
        break;
    case Column::Name:
        after.name = text;
        break;
    case Column::L:
        lab(after.lab.L, 0, thread::limits::kMostLightness);
        break;
    case Column::A:
        lab(after.lab.a, -thread::limits::kMostAb, thread::limits::kMostAb);
        break;
    case Column::B:
        lab(after.lab.b, -thread::limits::kMostAb, thread::limits::kMostAb);
        break;
    case Column::Fibre:
        after.fibre = text.trimmed();
        break;
    case Column::Finish:
        after.finish = typedWord(place, text, thread::finishOf, thread::Finish::Variegated);
        break;
    case Column::Plies: {
        const double plies = typedNumber(place, text, 1, thread::limits::kMostStrands);
        if (std::floor(plies) != plies) {
            throw badEntry(place, QStringLiteral("a whole number"), text);
        }
        after.strands = static_cast<int>(plies);
        break;
    }
    case Column::Length:
        after.lengthM = typedNumber(place, text, 0.01, thread::limits::kMostLengthM);
        break;
    case Column::Stash:
        after.stash = typedNumber(place, text, 0, thread::limits::kMostStash);
        break;
    case Column::Stock:
        after.stock = typedWord(place, text, thread::stockOf, thread::Stock::Discontinued);
        break;
    case Column::Lot:
        after.lot = text;
        break;
    case Column::Spread:
        after.spread =
            text.trimmed().isEmpty()
                ? std::nullopt
                : std::optional(typedNumber(place, text, 0, thread::limits::kMostSpread));
        break;
    case Column::Note:
        after.note = text;
        break;
    case Column::Difference:
    case Column::Card:
        break;
    }
    return after;
}

} // namespace otherskein::app
