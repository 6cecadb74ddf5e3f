// The jobs of recolouring from end to end, on charts of the sizes that the goals name.
#include "colour/conversion.h"
#include "colourway/recolour.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <functional>
#include <random>

using namespace otherskein;
using namespace otherskein::colourway;

namespace {

thread::ShadeCard randomCard(std::size_t size, unsigned seed) {
    std::mt19937 random(seed);
    const auto between = [&](double least, double most) {
        return least + (most - least) * (static_cast<double>(random()) / 4294967296.0);
    };
    thread::ShadeCard card;
    card.name = QStringLiteral("random");
    for (std::size_t i = 0; i < size; ++i) {
        thread::Thread one;
        one.code = QString::number(i);
        const double L = between(14, 95);
        const double C = 70 * std::sqrt(between(0, 1)) * (1 - std::pow(std::abs(L - 58) / 46, 2));
        const double h = between(-3.14159, 3.14159);
        one.lab = {L, C * std::cos(h), C * std::sin(h)};
        card.threads.push_back(one);
    }
    return card;
}

/// Patches of 5 × 5 stitches in `rows` colours of a key.
chart::Chart patchwork(int side, std::size_t rows, unsigned seed) {
    const thread::ShadeCard card = randomCard(rows, seed);
    std::mt19937 random(seed);
    chart::Chart chart;
    for (std::size_t i = 0; i < rows; ++i) {
        chart::KeyRow row;
        row.lab = card.threads[i].lab;
        row.pixel = colour::srgbFromLab(row.lab);
        row.code = QStringLiteral("c%1").arg(i);
        chart.key.push_back(row);
    }
    chart.grid = chart::Grid(side, side);
    std::vector<chart::KeyIndex> patch(static_cast<std::size_t>((side / 5 + 1) * (side / 5 + 1)));
    for (chart::KeyIndex& key : patch) {
        key = static_cast<chart::KeyIndex>(random() % rows);
    }
    for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
            chart.grid.set({x, y},
                           patch[static_cast<std::size_t>((y / 5) * (side / 5 + 1) + x / 5)]);
        }
    }
    chart::recount(chart);
    return chart;
}

/// `across` × `down` houses of 9 × 9 stitches, three bare ones apart.
chart::Chart houses(int across, int down) {
    chart::Chart chart;
    chart.key.resize(1);
    chart.grid = chart::Grid(12 * across, 12 * down);
    for (int y = 0; y < chart.grid.rows(); ++y) {
        for (int x = 0; x < chart.grid.columns(); ++x) {
            if (x % 12 < 9 && y % 12 < 9) {
                chart.grid.set({x, y}, 0);
            }
        }
    }
    chart::recount(chart);
    return chart;
}

double milliseconds(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
        .count();
}

} // namespace

TEST_CASE("recolour: 40 key rows from 500 threads") {
    const thread::ShadeCard card = randomCard(500, 3);
    const std::vector<const thread::ShadeCard*> cards{&card};
    const auto pool = poolOf(cards, {});
    const auto subject = subjectOf(patchwork(200, 40, 5), By::Colour, {}, {});
    for (const Theme& theme : {Theme(AsCharted{}), Theme(HueFamily{150, false})}) {
        RecolourQuestion question;
        question.by = By::Colour;
        question.theme = theme;
        std::optional<Colourway> answer;
        const double ms = milliseconds([&] { answer = recolour(*subject, question, *pool); });
        std::printf("recolour 40 rows from 500 threads, %s: %.0f ms (goal 100), cost %.3f\n",
                    theme.index() == 0 ? "as charted" : "a hue", ms, answer->cost);
    }
}

TEST_CASE("recolour: 300 motifs into 12 colours") {
    const thread::ShadeCard card = randomCard(500, 3);
    const std::vector<const thread::ShadeCard*> cards{&card};
    const auto pool = poolOf(cards, {});
    std::shared_ptr<const Subject> subject;
    const double cutting =
        milliseconds([&] { subject = subjectOf(houses(20, 15), By::Motif, {}, {}); });
    RecolourQuestion question;
    question.colours = 12;
    std::optional<Colourway> answer;
    const double ms = milliseconds([&] { answer = recolour(*subject, question, *pool); });
    std::printf("recolour %zu motifs into %d colours: %.0f ms (goal 1000), motifs %.1f ms, least "
                "between neighbours %.1f\n",
                subject->parts.parts.size(), answer->figures.threads, ms, cutting,
                *answer->figures.leastBetweenNeighbours);
    std::vector<Colourway> wall;
    const double all = milliseconds([&] { wall = alternatives(*subject, question, *pool, 8); });
    std::printf("a wall of %zu for it: %.0f ms\n", wall.size(), all);
}
