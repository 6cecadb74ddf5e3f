#pragma once

#include "colour/conversion.h"
#include "colourway/recolour.h"
#include "samples.h"

#include <QStringList>

#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

namespace otherskein::colourway {

/// A chart drawn with letters: '.' is bare ground, 'A' the first row of the key, and so on.
inline chart::Chart drawn(const std::vector<std::string>& rows,
                          const std::vector<colour::Srgb8>& pixels) {
    chart::Chart chart;
    chart.name = QStringLiteral("drawn");
    for (std::size_t i = 0; i < pixels.size(); ++i) {
        chart::KeyRow row;
        row.pixel = pixels[i];
        row.lab = colour::labFromSrgb(pixels[i]);
        row.symbol = QString(QChar(static_cast<char16_t>(u'A' + i)));
        row.card = QStringLiteral("charted");
        row.code = QStringLiteral("C-") + QString::number(i + 1);
        chart.key.push_back(row);
    }
    chart.grid = chart::Grid(static_cast<int>(rows.front().size()), static_cast<int>(rows.size()));
    for (std::size_t y = 0; y < rows.size(); ++y) {
        for (std::size_t x = 0; x < rows[y].size(); ++x) {
            if (rows[y][x] != '.') {
                chart.grid.set({static_cast<int>(x), static_cast<int>(y)},
                               static_cast<chart::KeyIndex>(rows[y][x] - 'A'));
            }
        }
    }
    chart::recount(chart);
    return chart;
}

inline colour::Lab polar(double L, double chroma, double hue) {
    const double angle = hue * std::numbers::pi / 180;
    return {L, chroma * std::cos(angle), chroma * std::sin(angle)};
}

/// A card of every hue at several lightnesses and strengths, and greys: what a drawer might hold.
inline thread::ShadeCard wheelCard(const char* name, double step = 15) {
    std::vector<thread::Thread> threads;
    const auto add = [&](const colour::Lab& lab) {
        const std::string code = std::string(name) + "-" + std::to_string(threads.size() + 1);
        threads.push_back(threadOf(code.c_str(), lab));
    };
    for (double hue = 0; hue < 360; hue += step) {
        for (const double L : {25.0, 40.0, 55.0, 70.0, 85.0}) {
            const double chroma = 45 * (1 - std::pow((L - 58) / 60, 2));
            add(polar(L, chroma, hue));
            add(polar(L, chroma / 2, hue));
        }
    }
    for (double L = 10; L <= 95; L += 8.5) {
        add({L, 0, 0});
    }
    return cardOf(name, std::move(threads));
}

inline std::shared_ptr<const Subject> subjectBy(By by, const chart::Chart& chart,
                                                const std::vector<const thread::ShadeCard*>& cards,
                                                const chart::MotifPlan& plan = {}) {
    return subjectOf(chart, by, plan, cards);
}

/// A row of `count` square houses, three bare stitches apart.
inline chart::Chart houses(int count) {
    std::vector<std::string> rows(8);
    for (std::string& row : rows) {
        for (int i = 0; i < count; ++i) {
            row += "AAAAAA...";
        }
    }
    return drawn(rows, {{0x44, 0x5d, 0x76}});
}

} // namespace otherskein::colourway
