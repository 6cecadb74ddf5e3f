#include "workbox/detail/chart_contents.h"

#include <algorithm>
#include <cassert>

namespace otherskein::workbox::detail {

namespace {

template <typename Value>
bool sideFits(const std::optional<Value>& before, const Value& now) {
    return !before || *before == now;
}

/// Whether the marked cells are as `side` has them.
bool marksFit(const StoredChart& stored, const ChartPatch& patch) {
    if (patch.marked.empty()) {
        return true;
    }
    if (!stored.page || patch.before.seen.size() != patch.marked.size() ||
        patch.marked.back() >= stored.page->seen.size()) {
        return false;
    }
    return std::ranges::equal(
        patch.marked, patch.before.seen,
        [&](std::uint32_t cell, std::uint8_t seen) { return stored.page->seen[cell] == seen; });
}

bool patchFits(const Contents& contents, const ChartPatch& patch) {
    const StoredChart* stored = find(contents.charts, patch.id);
    if (!stored || !stored->chart) {
        return false;
    }
    const chart::Chart& chart = *stored->chart;
    const chart::Area& area = patch.cells;
    const bool inside = area.isEmpty() || (area.left >= 0 && area.top >= 0 &&
                                           area.left + area.columns <= chart.grid.columns() &&
                                           area.top + area.rows <= chart.grid.rows());
    return inside && marksFit(*stored, patch) &&
           (area.isEmpty() || cellsOf(chart.grid, area) == patch.before.cells) &&
           sideFits(patch.before.name, chart.name) &&
           (!patch.before.key || *patch.before.key == withoutStitches(chart.key)) &&
           sideFits(patch.before.lines, chart.lines) && sideFits(patch.before.plan, stored->plan);
}

bool chartFits(const Contents& contents, const ChartChange& change) {
    const StoredChart* stored =
        find(contents.charts, (change.before ? change.before : change.after)->facts.id);
    return change.before ? stored && *stored == *change.before : !stored;
}

bool colourwayFits(const Contents& contents, const ColourwayChange& change) {
    const StoredColourway* stored =
        find(contents.colourways, (change.before ? change.before : change.after)->id);
    return change.before ? stored && *stored == *change.before : !stored;
}

/// How many stitches each row has after the patch: what it changes, not all cells, is counted.
std::vector<int> countsAfter(const chart::Key& keyBefore, const ChartPatch& patch) {
    const std::size_t rows =
        std::max(keyBefore.size(), patch.after.key ? patch.after.key->size() : 0);
    std::vector<int> counts(rows, 0);
    std::ranges::transform(keyBefore, counts.begin(), &chart::KeyRow::stitches);
    for (const chart::KeyIndex key : patch.before.cells) {
        if (key != chart::kBare) {
            --counts[key];
        }
    }
    for (const chart::KeyIndex key : patch.after.cells) {
        if (key != chart::kBare) {
            ++counts[key];
        }
    }
    return counts;
}

void carryOutMarks(StoredChart& stored, const ChartPatch& patch) {
    if (patch.marked.empty()) {
        return;
    }
    TracedPage page = *stored.page;
    for (std::size_t i = 0; i < patch.marked.size(); ++i) {
        page.seen[patch.marked[i]] = patch.after.seen[i];
    }
    stored.page = std::make_shared<const TracedPage>(std::move(page));
}

void carryOut(StoredChart& stored, const ChartPatch& patch) {
    carryOutMarks(stored, patch);
    if (patch.after.plan) {
        stored.plan = *patch.after.plan;
    }
    if (patch.cells.isEmpty() && !patch.after.name && !patch.after.key && !patch.after.lines) {
        return; // the chart itself stays
    }
    chart::Chart chart = *stored.chart;
    const std::vector<int> counts = countsAfter(chart.key, patch);
    if (patch.after.name) {
        chart.name = *patch.after.name;
    }
    if (patch.after.key) {
        chart.key = *patch.after.key;
    }
    if (patch.after.lines) {
        chart.lines = *patch.after.lines;
    }
    for (std::size_t i = 0; i < chart.key.size(); ++i) {
        chart.key[i].stitches = counts[i];
    }
    auto cell = patch.after.cells.begin();
    for (int y = patch.cells.top; y < patch.cells.top + patch.cells.rows; ++y) {
        const auto row = chart.grid.cells().subspan(chart.grid.indexOf({patch.cells.left, y}),
                                                    static_cast<std::size_t>(patch.cells.columns));
        std::copy_n(cell, patch.cells.columns, row.begin());
        cell += patch.cells.columns;
    }
    stored.facts = factsOf(stored.facts.id, chart);
    stored.chart = std::make_shared<const chart::Chart>(std::move(chart));
}

} // namespace

void mark(ChartPatch& patch, const StoredChart& stored, std::span<const chart::Cell> cells,
          bool seen) {
    assert(stored.page && stored.chart);
    const auto value = static_cast<std::uint8_t>(seen ? 1 : 0);
    for (const chart::Cell& cell : cells) {
        if (stored.chart->grid.contains(cell) &&
            stored.page->seen[stored.chart->grid.indexOf(cell)] != value) {
            patch.marked.push_back(static_cast<std::uint32_t>(stored.chart->grid.indexOf(cell)));
        }
    }
    std::ranges::sort(patch.marked);
    const auto [doubled, end] = std::ranges::unique(patch.marked);
    patch.marked.erase(doubled, end);
    patch.before.seen.assign(patch.marked.size(), seen ? 0 : 1);
    patch.after.seen.assign(patch.marked.size(), value);
}

chart::Key withoutStitches(chart::Key key) {
    for (chart::KeyRow& row : key) {
        row.stitches = 0;
    }
    return key;
}

std::vector<chart::KeyIndex> cellsOf(const chart::Grid& grid, const chart::Area& area) {
    std::vector<chart::KeyIndex> cells;
    if (area.isEmpty()) {
        return cells;
    }
    cells.reserve(static_cast<std::size_t>(area.columns) * static_cast<std::size_t>(area.rows));
    for (int y = area.top; y < area.top + area.rows; ++y) {
        const auto row = grid.cells().subspan(grid.indexOf({area.left, y}),
                                              static_cast<std::size_t>(area.columns));
        cells.insert(cells.end(), row.begin(), row.end());
    }
    return cells;
}

bool chartsFit(const Contents& contents, const Edit& edit) {
    return std::ranges::all_of(edit.charts,
                               [&](const auto& change) { return chartFits(contents, change); }) &&
           std::ranges::all_of(edit.patches,
                               [&](const auto& patch) { return patchFits(contents, patch); }) &&
           std::ranges::all_of(edit.colourways,
                               [&](const auto& change) { return colourwayFits(contents, change); });
}

void carryOutCharts(Contents& contents, const Edit& edit) {
    for (const ChartPatch& patch : edit.patches) {
        StoredChart* stored = find(contents.charts, patch.id);
        assert(stored && stored->chart);
        carryOut(*stored, patch);
    }
    for (const ChartChange& change : edit.charts) {
        if (change.before) {
            std::erase_if(contents.charts, [&](const StoredChart& one) {
                return one.facts.id == change.before->facts.id;
            });
        } else {
            const auto at =
                std::ranges::lower_bound(contents.charts, change.after->facts.id, {},
                                         [](const StoredChart& one) { return one.facts.id; });
            contents.charts.insert(at, *change.after);
        }
    }
    for (const ColourwayChange& change : edit.colourways) {
        const ColourwayId id = (change.before ? change.before : change.after)->id;
        std::erase_if(contents.colourways,
                      [&](const StoredColourway& one) { return one.id == id; });
        if (change.after) {
            const auto at =
                std::ranges::lower_bound(contents.colourways, id, {}, &StoredColourway::id);
            contents.colourways.insert(at, *change.after);
        }
    }
}

StoredChart* find(std::vector<StoredChart>& charts, ChartId id) {
    const auto found =
        std::ranges::find(charts, id, [](const StoredChart& one) { return one.facts.id; });
    return found == charts.end() ? nullptr : &*found;
}

const StoredChart* find(const std::vector<StoredChart>& charts, ChartId id) {
    const auto found =
        std::ranges::find(charts, id, [](const StoredChart& one) { return one.facts.id; });
    return found == charts.end() ? nullptr : &*found;
}

const StoredColourway* find(const std::vector<StoredColourway>& colourways, ColourwayId id) {
    const auto found = std::ranges::find(colourways, id, &StoredColourway::id);
    return found == colourways.end() ? nullptr : &*found;
}

} // namespace otherskein::workbox::detail
