#include "app/charts/key_edits.h"

#include "chart/mending.h"
#include "colour/conversion.h"
#include "drawing/symbols.h"

#include <algorithm>
#include <cassert>

namespace otherskein::app {

namespace {

/// The first of A … Z, a … z, A1 … that no row has and that can be typed: N goes to the next cell.
QString freeLetter(const chart::Key& key) {
    const auto taken = [&](const QString& symbol) {
        return symbol.compare(QStringLiteral("N"), Qt::CaseInsensitive) == 0 ||
               std::ranges::any_of(key,
                                   [&](const chart::KeyRow& row) { return row.symbol == symbol; });
    };
    constexpr int kLetters = 26;
    for (int number = 0;; ++number) {
        for (const char first : {'A', 'a'}) {
            for (int letter = 0; letter < kLetters; ++letter) {
                const QString symbol = QString(QLatin1Char(static_cast<char>(first + letter))) +
                                       (number == 0 ? QString() : QString::number(number));
                if (!taken(symbol)) {
                    return symbol;
                }
            }
        }
    }
}

/// Whether most rows have a letter, with a number or without.
bool hasLetters(const chart::Key& key) {
    const auto count = std::ranges::count_if(key, [](const chart::KeyRow& row) {
        return !row.symbol.isEmpty() && row.symbol.front().isLetter() &&
               std::all_of(row.symbol.begin() + 1, row.symbol.end(),
                           [](QChar c) { return c.isDigit(); });
    });
    return 2 * static_cast<std::size_t>(count) > key.size();
}

QString freeSymbol(const chart::Key& key) {
    const std::vector<drawing::Mark> marks = drawing::marksOf(key);
    for (int symbol = 0; symbol < drawing::symbolCount(); ++symbol) {
        const bool taken = std::ranges::any_of(
            marks, [symbol](const drawing::Mark& mark) { return mark.symbol == symbol; });
        if (!taken) {
            return drawing::symbolName(symbol);
        }
    }
    return QString::number(key.size() + 1);
}

} // namespace

chart::Chart withThread(const chart::Chart& chart, chart::KeyIndex row,
                        const colourway::Wanted& thread) {
    chart::Chart after = chart;
    chart::KeyRow& changed = after.key[row];
    changed.card = thread.card;
    changed.code = thread.code;
    changed.name = thread.name;
    changed.lab = thread.lab;
    const colour::Srgb8 shown =
        thread.thread ? thread::shownColour(*thread.thread) : colour::srgbFromLab(thread.lab);
    changed.pixel = chart::freePixel(chart.key, shown, row);
    return after;
}

chart::Chart withSymbol(const chart::Chart& chart, chart::KeyIndex row, const QString& symbol) {
    chart::Chart after = chart;
    after.key[row].symbol = symbol;
    return after;
}

chart::Chart withStrands(const chart::Chart& chart, chart::KeyIndex row, int strands) {
    chart::Chart after = chart;
    after.key[row].strands = strands;
    return after;
}

chart::Chart withNewRow(const chart::Chart& chart, const colour::Srgb8& colour) {
    assert(chart.key.size() < chart::kMostKeyRows);
    chart::Chart after = chart;
    chart::KeyRow row;
    row.pixel = chart::freePixel(chart.key, colour);
    row.lab = colour::labFromSrgb(row.pixel);
    row.symbol = hasLetters(chart.key) ? freeLetter(chart.key) : freeSymbol(chart.key);
    after.key.push_back(row);
    return after;
}

} // namespace otherskein::app
