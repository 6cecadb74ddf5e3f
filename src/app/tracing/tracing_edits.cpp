#include "app/tracing/tracing_edits.h"

#include "app/charts/key_edits.h"
#include "base/input_error.h"
#include "chart/mending.h"
#include "colour/conversion.h"

#include <QBuffer>
#include <QCoreApplication>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace otherskein::app {

namespace {

static_assert(trace::kDoubtful == 0.5F, "kDoubtfulByte is half of what a byte holds");

/// The first of A … Z, a … z, A1 … that no row has.
QString freeLetter(const chart::Key& key) {
    const auto taken = [&](const QString& symbol) {
        return std::ranges::any_of(key,
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

} // namespace

chart::Chart withCells(const chart::Chart& chart, std::span<const chart::Cell> cells,
                       chart::KeyIndex row) {
    chart::Chart after = chart;
    chart::setCells(after.grid, cells, row);
    chart::recount(after);
    return after;
}

chart::Chart withCellsInNewRow(const chart::Chart& chart, std::span<const chart::Cell> cells,
                               const colour::Srgb8& colour) {
    assert(chart.key.size() < chart::kMostKeyRows);
    chart::Chart after = chart;
    chart::KeyRow row;
    row.pixel = chart::freePixel(chart.key, colour);
    row.lab = colour::labFromSrgb(row.pixel);
    row.symbol = freeLetter(chart.key);
    after.key.push_back(row);
    return withCells(after, cells, static_cast<chart::KeyIndex>(chart.key.size()));
}

chart::Chart withRowsJoined(const chart::Chart& chart, chart::KeyIndex from, chart::KeyIndex to) {
    return chart::withoutRow(chart::withRowReplaced(chart, from, to), from);
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
