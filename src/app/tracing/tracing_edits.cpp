#include "app/tracing/tracing_edits.h"

#include "app/charts/chart_desk.h"
#include "app/charts/key_edits.h"
#include "base/input_error.h"
#include "chart/mending.h"

#include <QBuffer>
#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <utility>

namespace otherskein::app {

namespace {

static_assert(trace::kDoubtful == 0.5F, "kDoubtfulByte is half of what a byte holds");

} // namespace

chart::Chart withCells(const chart::Chart& chart, std::span<const chart::Cell> cells,
                       chart::KeyIndex row) {
    chart::Chart after = chart;
    chart::setCells(after.grid, cells, row);
    chart::recount(after);
    return after;
}

chart::Chart withRowsJoined(const chart::Chart& chart, chart::KeyIndex from, chart::KeyIndex to) {
    if (to != chart::kBare) {
        chart::Chart after = chart::withRowReplaced(chart, from, to);
        const chart::KeyRow& gone = chart.key[from];
        if (chart::KeyRow& stays = after.key[to]; stays.code.isEmpty() && !gone.code.isEmpty()) {
            // What the page or a hand named is not lost with the row.
            stays.card = gone.card;
            stays.code = gone.code;
            stays.name = gone.name;
            stays.strands = gone.strands;
            stays.lab = gone.lab;
            std::swap(stays.pixel, after.key[from].pixel); // no two rows share one
        }
        return chart::withoutRow(after, from);
    }
    std::vector<chart::Cell> cells;
    const auto all = std::as_const(chart.grid).cells();
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i] == from) {
            cells.push_back(chart.grid.cellAt(i));
        }
    }
    const chart::Chart after = withCells(chart, cells, chart::kBare);
    // Lines cannot be bare: a row that has some stays.
    return chart::lineCounts(after)[from] == 0 ? chart::withoutRow(after, from) : after;
}

std::optional<chart::KeyIndex> rowOfLetter(const chart::Key& key, const QString& letter) {
    if (letter.trimmed().isEmpty()) {
        return std::nullopt;
    }
    for (const auto how : {Qt::CaseSensitive, Qt::CaseInsensitive}) {
        const auto found = std::ranges::find_if(
            key, [&](const chart::KeyRow& row) { return row.symbol.compare(letter, how) == 0; });
        if (found != key.end()) {
            return static_cast<chart::KeyIndex>(found - key.begin());
        }
    }
    return std::nullopt;
}

chart::Chart withThreadsOfCodes(const chart::Chart& chart, const Session& session) {
    chart::Chart after = chart;
    for (std::size_t i = 0; i < chart.key.size(); ++i) {
        const QString code = chart.key[i].code.trimmed();
        std::vector<colourway::Wanted> found;
        for (const workbox::StoredCard& card : session.document().cards()) {
            if (const auto thread = session.wantedThread(card.name, code);
                thread && !code.isEmpty()) {
                found.push_back(*thread);
            }
        }
        if (found.size() == 1) {
            after = withThread(after, static_cast<chart::KeyIndex>(i), found.front());
        }
    }
    return after;
}

bool isInWorkbox(const chart::KeyRow& row, const Session& session) {
    return std::ranges::any_of(session.document().cards(), [&](const workbox::StoredCard& card) {
        return (row.card.isEmpty() || row.card == card.name) &&
               session.wantedThread(card.name, row.code).has_value();
    });
}

workbox::TracedPage pageOf(const trace::Tracing& tracing) {
    // Print in few flat colours packs well without loss; a large page is a scan or a photo, which
    // does not.
    constexpr qint64 kMostLossless = 12'000'000; // pixels: an A4 page at 300 dpi has 8.7 million
    constexpr int kQuality = 90;
    const bool lossless =
        qint64{1} * tracing.straight.width() * tracing.straight.height() <= kMostLossless;
    workbox::TracedPage page;
    QBuffer buffer(&page.picture);
    buffer.open(QIODevice::WriteOnly);
    if (!tracing.straight.save(&buffer, lossless ? "PNG" : "JPEG", lossless ? -1 : kQuality)) {
        throw base::InputError(
            {QCoreApplication::translate("Charts", "the page"),
             std::nullopt,
             {},
             QCoreApplication::translate("Charts", "a picture to keep"),
             QCoreApplication::translate("Charts", "one that cannot be written")});
    }
    page.cell = tracing.cell;
    constexpr float kSure = 255;
    for (const float one : tracing.confidence) {
        page.confidence.push_back(
            static_cast<std::uint8_t>(std::lround(std::clamp(one, 0.0F, 1.0F) * kSure)));
    }
    return page;
}

} // namespace otherskein::app
