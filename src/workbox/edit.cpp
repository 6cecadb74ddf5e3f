#include "workbox/store.h"

#include <algorithm>

namespace otherskein::workbox {

namespace {

template <typename Change>
std::vector<Change> reversed(const std::vector<Change>& changes) {
    std::vector<Change> result(changes.rbegin(), changes.rend());
    for (Change& change : result) {
        std::swap(change.before, change.after);
    }
    return result;
}

std::size_t byteSize(const QString& text) {
    // The text with its terminator, and what the allocator and the shared header add.
    constexpr std::size_t kHeader = 48;
    return text.isEmpty() ? 0
                          : kHeader + sizeof(QChar) * (static_cast<std::size_t>(text.size()) + 1);
}

std::size_t byteSize(const std::vector<QString>& texts) {
    std::size_t sum = 0;
    for (const QString& text : texts) {
        sum += sizeof(QString) + byteSize(text);
    }
    return sum;
}

// What lies outside the value's own sizeof.
std::size_t byteSize(const thread::Thread& thread) {
    return byteSize(thread.code) + byteSize(thread.name) + byteSize(thread.fibre) +
           byteSize(thread.lot) + byteSize(thread.note) + byteSize(thread.extra);
}

std::size_t byteSize(const StoredCard& card) {
    std::size_t sum = byteSize(card.name) + byteSize(card.columns);
    for (const StoredThread& one : card.threads) {
        sum += sizeof(StoredThread) + byteSize(one.thread);
    }
    return sum;
}

std::size_t byteSize(const chart::Key& key) {
    std::size_t sum = sizeof(chart::KeyRow) * key.size();
    for (const chart::KeyRow& row : key) {
        sum += byteSize(row.symbol) + byteSize(row.card) + byteSize(row.code) + byteSize(row.name);
    }
    return sum;
}

std::size_t byteSize(const chart::MotifPlan& plan) {
    std::size_t sum = 0;
    for (const chart::MotifEdit& edit : plan.edits) {
        sum += sizeof(chart::MotifEdit);
        if (const auto* cut = std::get_if<chart::CutMotif>(&edit)) {
            sum += sizeof(chart::CutMotif::Point) * cut->path.size();
        } else if (const auto* name = std::get_if<chart::NameMotif>(&edit)) {
            sum += byteSize(name->name);
        }
    }
    return sum;
}

std::size_t byteSize(const TracedPage& page) {
    return sizeof(TracedPage) + static_cast<std::size_t>(page.picture.size()) +
           page.confidence.size() + page.seen.size();
}

std::size_t byteSize(const StoredChart& stored) {
    std::size_t sum = byteSize(stored.facts.name) + byteSize(stored.plan) +
                      (stored.page ? byteSize(*stored.page) : 0);
    if (stored.chart) {
        sum += sizeof(chart::Chart) + byteSize(stored.chart->name) + byteSize(stored.chart->key) +
               sizeof(chart::KeyIndex) * stored.chart->grid.cells().size() +
               sizeof(chart::Line) * stored.chart->lines.size();
    }
    return sum;
}

std::size_t byteSize(const ChartSide& side) {
    return sizeof(chart::KeyIndex) * side.cells.size() + (side.name ? byteSize(*side.name) : 0) +
           (side.key ? byteSize(*side.key) : 0) +
           (side.lines ? sizeof(chart::Line) * side.lines->size() : 0) +
           (side.plan ? byteSize(*side.plan) : 0) + side.seen.size();
}

std::size_t byteSize(const std::vector<ChartPatch>& patches) {
    std::size_t sum = 0;
    for (const ChartPatch& patch : patches) {
        sum += sizeof(ChartPatch) + sizeof(std::uint32_t) * patch.marked.size() +
               byteSize(patch.before) + byteSize(patch.after);
    }
    return sum;
}

std::size_t byteSize(const StoredColourway& colourway) {
    return byteSize(colourway.name) + static_cast<std::size_t>(colourway.content.size());
}

std::size_t byteSize(const thread::Ground& ground) {
    return byteSize(ground.name) + byteSize(ground.weave) +
           static_cast<std::size_t>(ground.photo.size());
}

template <typename Change>
std::size_t byteSize(const std::vector<Change>& changes) {
    std::size_t sum = 0;
    for (const Change& change : changes) {
        sum += sizeof(Change) + (change.before ? byteSize(*change.before) : 0) +
               (change.after ? byteSize(*change.after) : 0);
    }
    return sum;
}

} // namespace

bool StoredChart::operator==(const StoredChart& other) const {
    if (facts != other.facts || !chart || !other.chart) {
        return facts == other.facts;
    }
    const bool samePage = page == other.page || (page && other.page && *page == *other.page);
    return plan == other.plan && samePage && (chart == other.chart || *chart == *other.chart);
}

ChartFacts factsOf(ChartId id, const chart::Chart& chart) {
    int stitches = 0;
    for (const chart::KeyRow& row : chart.key) {
        stitches += row.stitches;
    }
    return {id,
            chart.name,
            chart.grid.columns(),
            chart.grid.rows(),
            stitches,
            static_cast<int>(chart.key.size())};
}

bool Edit::isEmpty() const {
    return cards.empty() && threads.empty() && grounds.empty() && charts.empty() &&
           patches.empty() && colourways.empty();
}

Edit inverse(const Edit& edit) {
    return {reversed(edit.cards),  reversed(edit.threads), reversed(edit.grounds),
            reversed(edit.charts), reversed(edit.patches), reversed(edit.colourways)};
}

std::size_t byteSize(const Edit& edit) {
    return sizeof(Edit) + byteSize(edit.cards) + byteSize(edit.threads) + byteSize(edit.grounds) +
           byteSize(edit.charts) + byteSize(edit.patches) + byteSize(edit.colourways);
}

} // namespace otherskein::workbox
