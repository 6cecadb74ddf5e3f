#include "app/charts/key_edits.h"

#include "chart/mending.h"
#include "colour/conversion.h"
#include "drawing/symbols.h"

#include <algorithm>
#include <cassert>

namespace otherskein::app {

namespace {

constexpr colour::Srgb8 kNewRow{0x80, 0x80, 0x80};

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

chart::Chart withNewRow(const chart::Chart& chart) {
    assert(chart.key.size() < chart::kMostKeyRows);
    chart::Chart after = chart;
    chart::KeyRow row;
    row.pixel = chart::freePixel(chart.key, kNewRow);
    row.lab = colour::labFromSrgb(row.pixel);
    row.symbol = freeSymbol(chart.key);
    after.key.push_back(row);
    return after;
}

} // namespace otherskein::app
