#pragma once

#include "chart/chart.h"
#include "colour/conversion.h"

namespace otherskein::workbox {

/// A chart with a slanting pattern of `rows` key rows, bare cells and one line.
inline chart::Chart sampleChart(int columns = 150, int rows = 140, int keyRows = 4) {
    chart::Chart chart;
    chart.name = QStringLiteral("Slope");
    for (int i = 0; i < keyRows; ++i) {
        chart::KeyRow row;
        row.pixel = {static_cast<std::uint8_t>(20 * i), 90, static_cast<std::uint8_t>(200 - i)};
        row.lab = colour::labFromSrgb(row.pixel);
        row.symbol = QString::number(i);
        row.code = QStringLiteral("S-%1").arg(i);
        row.name = QStringLiteral("shade \"%1\", pale").arg(i);
        row.strands = 1 + i % 3;
        chart.key.push_back(row);
    }
    chart.grid = chart::Grid(columns, rows);
    for (int y = 0; y < rows; ++y) {
        for (int x = 0; x < columns; ++x) {
            const int slope = (x + y / 2) % (keyRows + 1);
            if (slope < keyRows) {
                chart.grid.set({x, y}, static_cast<chart::KeyIndex>(slope));
            }
        }
    }
    chart.lines = {{0, 0, 3, 5, 1}};
    chart::recount(chart);
    return chart;
}

} // namespace otherskein::workbox
