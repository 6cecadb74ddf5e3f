#include "app/threads/thread_order.h"

#include "app/threads/thread_columns.h"
#include "app/threads/thread_filter.h"
#include "base/natural_order.h"
#include "colour/conversion.h"
#include "colour/difference.h"

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

// How a wall by hue is cut. Chosen by eye on walls of 140 to 760 threads; nothing else hangs on it.
constexpr double kNeutralChroma = 6; ///< below this C*ab a colour counts as a grey
constexpr double kMutedChroma = 24;  ///< below this a colour goes with the muted ones of its hue
constexpr double kHueStep = 24;      ///< degrees of CIELAB hue in one step
constexpr double kFirstHue = 10;     ///< where the steps begin, so that reds are not cut in two

/// Sorts `rows` by a key that is worked out once for each.
template <typename KeyOf>
void sortBy(std::vector<int>& rows, const KeyOf& keyOf, bool descending = false) {
    using Key = decltype(keyOf(0));
    std::vector<std::pair<Key, int>> keyed;
    keyed.reserve(rows.size());
    for (const int row : rows) {
        keyed.emplace_back(keyOf(row), row);
    }
    std::ranges::stable_sort(keyed, [descending](const auto& one, const auto& other) {
        return descending ? other.first < one.first : one.first < other.first;
    });
    std::ranges::transform(keyed, rows.begin(), [](const auto& one) { return one.second; });
}

void sortByColumn(std::vector<int>& rows, const std::vector<ThreadItem>& items,
                  const HeaderSort& sort) {
    const auto item = [&](int row) -> const ThreadItem& {
        return items[static_cast<std::size_t>(row)];
    };
    if (columnIs(sort.column, Column::Colour)) {
        sortBy(
            rows, [&](int row) { return hueKey(item(row).thread.lab); }, sort.descending);
    } else if (isNumberColumn(sort.column)) {
        sortBy(
            rows, [&](int row) { return cellNumber(item(row), sort.column); }, sort.descending);
    } else {
        sortBy(
            rows, [&](int row) { return base::naturalKey(cellText(item(row), sort.column)); },
            sort.descending);
    }
}

} // namespace

double hueKey(const colour::Lab& lab) {
    constexpr double kRun = 1000; // longer than any run through lightness
    const double fromLight = thread::limits::kMostLightness - lab.L;
    const double chroma = colour::chroma(lab);
    if (chroma < kNeutralChroma) {
        return fromLight;
    }
    const double turned = std::fmod(colour::hueDegrees(lab) - kFirstHue + 360, 360);
    const double step = std::floor(turned / kHueStep);
    const bool muted = chroma < kMutedChroma;
    return (2 * step + (muted ? 1 : 2)) * kRun + (muted ? lab.L : fromLight);
}

std::vector<int> arranged(std::vector<ThreadItem>& items, const ThreadsState& state) {
    const Search search = parsedSearch(state.search);
    std::vector<int> rows;
    rows.reserve(items.size());
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (items[i].kept || passes(items[i], state, search)) {
            rows.push_back(static_cast<int>(i));
        }
    }
    const auto item = [&](int row) -> ThreadItem& { return items[static_cast<std::size_t>(row)]; };
    const bool byHeader = state.view == ThreadsView::Table && state.headerSort;
    if (search.near) {
        const colour::Lab wanted = colour::labFromSrgb(*search.near);
        for (const int row : rows) {
            item(row).distance = colour::deltaE00(wanted, item(row).thread.lab);
        }
        if (!byHeader) {
            sortBy(rows, [&](int row) { return item(row).distance; });
            return rows;
        }
    }
    if (byHeader) {
        sortByColumn(rows, items, *state.headerSort);
        return rows;
    }
    switch (state.order) {
    case WallOrder::Hue:
        sortBy(rows, [&](int row) { return hueKey(item(row).thread.lab); });
        break;
    case WallOrder::Lightness:
        sortBy(rows, [&](int row) { return -item(row).thread.lab.L; });
        break;
    case WallOrder::Code:
        sortBy(rows, [&](int row) { return base::naturalKey(item(row).thread.code); });
        break;
    }
    return rows;
}

} // namespace otherskein::app
