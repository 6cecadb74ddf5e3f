#pragma once

#include "chart/chart.h"
#include "colour/conversion.h"

#include <QStringList>

#include <random>
#include <set>

namespace otherskein::chart::samples {

struct ChartShape {
    int columns = 1;
    int rows = 1;
    int keyRows = 1;
    int lines = 0;
    double bareShare = 0.3;
};

/// Texts that a CSV file has to be careful with.
inline QString awkwardText(std::mt19937& random) {
    static const QStringList all{
        QStringLiteral("S"),      QStringLiteral("a,b"),       QStringLiteral("\"quoted\""),
        QStringLiteral("=1+1"),   QStringLiteral("'=1"),       QStringLiteral("@x"),
        QStringLiteral("-"),      QStringLiteral("+5"),        QStringLiteral("two\nlines"),
        QStringLiteral("🧵"),   QStringLiteral("ים"),        QStringLiteral("''"),
        QStringLiteral("\ufeff"), QStringLiteral("#aabbcc"),   QStringLiteral(";"),
        QStringLiteral("0.5"),    QStringLiteral("=A1,\"b\"'")};
    return all[static_cast<qsizetype>(random() % static_cast<unsigned>(all.size()))];
}

/// A consistent chart; the same for the same seed. Symbols tell its rows apart.
inline Chart randomChart(const ChartShape& shape, unsigned seed) {
    std::mt19937 random(seed);
    const auto below = [&](int most) {
        return static_cast<int>(random() % static_cast<unsigned>(most));
    };
    Chart chart;
    std::set<int> pixels;
    while (static_cast<int>(pixels.size()) < shape.keyRows) {
        pixels.insert(below(1 << 24));
    }
    for (const int pixel : pixels) {
        KeyRow row;
        row.pixel = {static_cast<std::uint8_t>(pixel >> 16), static_cast<std::uint8_t>(pixel >> 8),
                     static_cast<std::uint8_t>(pixel)};
        row.lab = colour::labFromSrgb(row.pixel);
        row.symbol = awkwardText(random) + QString::number(chart.key.size());
        row.card = awkwardText(random).trimmed();
        row.code = awkwardText(random).trimmed();
        row.name = awkwardText(random);
        row.strands = 1 + below(6);
        chart.key.push_back(row);
    }
    chart.grid = Grid(shape.columns, shape.rows);
    std::bernoulli_distribution isBare(shape.bareShare);
    for (KeyIndex& cell : chart.grid.cells()) {
        cell = isBare(random) ? kBare : static_cast<KeyIndex>(below(shape.keyRows));
    }
    while (static_cast<int>(chart.lines.size()) < shape.lines) {
        const Line line{below(2 * shape.columns + 1), below(2 * shape.rows + 1),
                        below(2 * shape.columns + 1), below(2 * shape.rows + 1),
                        static_cast<KeyIndex>(below(shape.keyRows))};
        if (line.x1 != line.x2 || line.y1 != line.y2) {
            chart.lines.push_back(line);
        }
    }
    recount(chart);
    return chart;
}

/// Shapes at the limits and between.
inline std::vector<ChartShape> chartShapes() {
    return {{1, 1, 1, 0, 0},     {1, 1, 1, 3, 1},       {2000, 1, 5, 20, 0.5},
            {1, 2000, 5, 20, 0}, {30, 20, 300, 0, 0},   {40, 40, 300, 200, 0.2},
            {7, 5, 3, 10, 1},    {123, 77, 41, 50, 0.9}};
}

} // namespace otherskein::chart::samples
