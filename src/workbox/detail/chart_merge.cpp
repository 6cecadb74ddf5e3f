#include "workbox/detail/chart_merge.h"

#include "workbox/detail/chart_contents.h"

#include <algorithm>
#include <cassert>
#include <map>

namespace otherskein::workbox::detail {

namespace {

bool onlyOnePatch(const Edit& edit) {
    return edit.patches.size() == 1 && edit.cards.empty() && edit.threads.empty() &&
           edit.grounds.empty() && edit.charts.empty() && edit.colourways.empty();
}

bool onlyOneColourway(const Edit& edit) {
    return edit.colourways.size() == 1 && edit.colourways.front().before &&
           edit.colourways.front().after && edit.cards.empty() && edit.threads.empty() &&
           edit.grounds.empty() && edit.charts.empty() && edit.patches.empty();
}

chart::Area united(const chart::Area& one, const chart::Area& other) {
    if (one.isEmpty() || other.isEmpty()) {
        return one.isEmpty() ? other : one;
    }
    const int left = std::min(one.left, other.left);
    const int top = std::min(one.top, other.top);
    const int right = std::max(one.left + one.columns, other.left + other.columns);
    const int bottom = std::max(one.top + one.rows, other.top + other.rows);
    return {left, top, right - left, bottom - top};
}

/// Lays the cells of `area` over those of `onto`, which holds it.
void layOver(std::vector<chart::KeyIndex>& onto, const chart::Area& ontoArea,
             const std::vector<chart::KeyIndex>& cells, const chart::Area& area) {
    auto cell = cells.begin();
    for (int y = 0; y < area.rows; ++y) {
        const auto at =
            static_cast<std::ptrdiff_t>(area.top - ontoArea.top + y) * ontoArea.columns +
            (area.left - ontoArea.left);
        std::copy_n(cell, area.columns, onto.begin() + at);
        cell += area.columns;
    }
}

template <typename Value>
void joinFacts(std::optional<Value>& firstBefore, std::optional<Value>& firstAfter,
               const std::optional<Value>& thenBefore, const std::optional<Value>& thenAfter) {
    if (thenAfter) {
        if (!firstBefore) {
            firstBefore = thenBefore;
        }
        firstAfter = thenAfter;
    }
    if (firstBefore == firstAfter) {
        firstBefore.reset();
        firstAfter.reset();
    }
}

/// The rest: cells are many, and joined by themselves.
ChartSide withoutCells(const ChartSide& side) {
    return {{}, side.name, side.key, side.lines, side.plan, {}};
}

void joinCells(ChartPatch& both, const ChartPatch& once, const ChartPatch& then,
               const Contents& contents) {
    const chart::Area area = united(once.cells, then.cells);
    if (area.isEmpty()) {
        return;
    }
    const StoredChart* stored = find(contents.charts, once.id);
    assert(stored && stored->chart);
    both.after.cells = cellsOf(stored->chart->grid, area);
    both.before.cells = both.after.cells;
    layOver(both.before.cells, area, then.before.cells, then.cells);
    layOver(both.before.cells, area, once.before.cells, once.cells);
    if (both.before.cells == both.after.cells) {
        both.before.cells.clear();
        both.after.cells.clear();
    } else {
        both.cells = area;
    }
}

/// Each marked cell with what it was before and is after; one that is as it was is left out.
void joinMarks(ChartPatch& both, const ChartPatch& once, const ChartPatch& then) {
    std::map<std::uint32_t, std::pair<std::uint8_t, std::uint8_t>> marks;
    for (const ChartPatch* patch : {&once, &then}) {
        for (std::size_t i = 0; i < patch->marked.size(); ++i) {
            marks.try_emplace(patch->marked[i], patch->before.seen[i], std::uint8_t{})
                .first->second.second = patch->after.seen[i];
        }
    }
    for (const auto& [cell, mark] : marks) {
        if (mark.first != mark.second) {
            both.marked.push_back(cell);
            both.before.seen.push_back(mark.first);
            both.after.seen.push_back(mark.second);
        }
    }
}

} // namespace

std::optional<Edit> patchedTwice(const Edit& first, const Edit& second, const Contents& contents) {
    if (onlyOneColourway(first) && onlyOneColourway(second) &&
        first.colourways.front().after->id == second.colourways.front().after->id) {
        Edit both = first;
        both.colourways.front().after = second.colourways.front().after;
        if (both.colourways.front().before == both.colourways.front().after) {
            both.colourways.clear();
        }
        return both;
    }
    if (!onlyOnePatch(first) || !onlyOnePatch(second) ||
        first.patches.front().id != second.patches.front().id) {
        return std::nullopt;
    }
    const ChartPatch& once = first.patches.front();
    const ChartPatch& then = second.patches.front();
    ChartPatch both{once.id, {}, withoutCells(once.before), withoutCells(once.after), {}};
    joinCells(both, once, then, contents);
    joinMarks(both, once, then);
    joinFacts(both.before.name, both.after.name, then.before.name, then.after.name);
    joinFacts(both.before.key, both.after.key, then.before.key, then.after.key);
    joinFacts(both.before.lines, both.after.lines, then.before.lines, then.after.lines);
    joinFacts(both.before.plan, both.after.plan, then.before.plan, then.after.plan);
    Edit edit;
    if (both.before != both.after) {
        edit.patches.push_back(std::move(both));
    }
    return edit;
}

} // namespace otherskein::workbox::detail
