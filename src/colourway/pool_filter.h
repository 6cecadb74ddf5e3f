#pragma once

#include "thread/shade_card.h"
#include "thread/thread_pool.h"

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace otherskein::colourway {

/// Which threads come into question. An empty text lets all pass.
struct PoolFilter {
    bool onlyStash = false;
    bool onlyInStock =
        false; ///< leaves out threads known to be out or discontinued that the user does not own
    QString fibre;
    std::optional<thread::Finish> finish;

    bool operator==(const PoolFilter&) const = default;
};

/// The threads of these cards that pass, ready to search. Built when the cards or the filter
/// change, kept while the user types.
[[nodiscard]] std::shared_ptr<const thread::ThreadPool>
poolOf(std::span<const thread::ShadeCard* const> cards, const PoolFilter& filter);
[[nodiscard]] std::shared_ptr<const thread::ThreadPool>
poolOf(const std::vector<thread::ShadeCard>& cards, const PoolFilter& filter);

} // namespace otherskein::colourway
