#pragma once

#include <utility>
#include <vector>

namespace otherskein::workbox::detail {

/// `kept` with `additions` put in: each (position, item) comes to stand at its position in the
/// result, or at the end where that is shorter. Additions are in ascending order of position. Used
/// for the memory and for the file, so that both agree on the order of a card.
template <typename Item>
std::vector<Item> inserted(std::vector<Item> kept,
                           std::vector<std::pair<std::size_t, Item>> additions) {
    if (additions.empty()) {
        return kept;
    }
    if (additions.front().first >= kept.size()) { // all at the end: the common case
        for (auto& addition : additions) {
            kept.push_back(std::move(addition.second));
        }
        return kept;
    }
    std::vector<Item> result;
    result.reserve(kept.size() + additions.size());
    auto addition = additions.begin();
    for (Item& item : kept) {
        while (addition != additions.end() && addition->first <= result.size()) {
            result.push_back(std::move((addition++)->second));
        }
        result.push_back(std::move(item));
    }
    for (; addition != additions.end(); ++addition) {
        result.push_back(std::move(addition->second));
    }
    return result;
}

} // namespace otherskein::workbox::detail
