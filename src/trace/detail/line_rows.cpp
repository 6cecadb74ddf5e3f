#include "trace/detail/line_rows.h"

#include "chart/mending.h"
#include "colour/conversion.h"
#include "colour/difference.h"

#include <QCoreApplication>

#include <algorithm>

namespace otherskein::trace::detail {

namespace {

struct LineRowsTexts {
    Q_DECLARE_TR_FUNCTIONS(FoundRows)
};

constexpr double kSameThread = 10; // CIEDE2000 between prints of one colour on two pages

} // namespace

void addLineRows(std::span<const colour::Srgb8> colours, chart::Chart& chart) {
    std::vector<int> rowOf(colours.size(), -1);
    const std::size_t first = chart.key.size();
    for (chart::Line& line : chart.lines) {
        int& row = rowOf[line.key];
        if (row < 0) {
            const colour::Lab lab = colour::labFromSrgb(colours[line.key]);
            const auto same = std::find_if(chart.key.begin() + static_cast<std::ptrdiff_t>(first),
                                           chart.key.end(), [&](const chart::KeyRow& one) {
                                               return colour::deltaE00(one.lab, lab) < kSameThread;
                                           });
            row = static_cast<int>(same - chart.key.begin());
            if (same == chart.key.end()) {
                chart::KeyRow added;
                added.pixel = chart::freePixel(chart.key, colours[line.key]);
                added.lab = lab;
                added.symbol = chart::letterSymbol(chart.key.size());
                added.name = LineRowsTexts::tr("Backstitch");
                added.strands = 1;
                chart.key.push_back(added);
            }
        }
        line.key = static_cast<chart::KeyIndex>(row);
    }
}

} // namespace otherskein::trace::detail
