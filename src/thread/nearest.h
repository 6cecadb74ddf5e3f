#pragma once

#include "colour/difference.h"
#include "thread/thread_pool.h"

#include <compare>
#include <vector>

namespace otherskein::thread {

/// A thread of a pool and its difference from the wanted colour.
struct Match {
    double de00 = 0;
    std::size_t rank = 0;  ///< tie order: card, then code
    std::size_t index = 0; ///< into the pool

    auto operator<=>(const Match&) const = default;
};

/// The `most` threads nearest to `wanted` by ΔE00, nearest first, ties by card, then code: the same
/// answer as asking `colour::deltaE00` of every thread, which tests hold it to.
/// `without` is the index of a thread to leave out (the wanted one itself), or kNoThread.
/// Walks the pool's tree, nearest group first, and passes over groups that DifferenceBound::leastIn
/// proves too far; threads that mayBeWithin cannot exclude are asked.
[[nodiscard]] std::vector<Match> nearestThreads(const ThreadPool& pool, const colour::Lab& wanted,
                                                std::size_t most,
                                                const colour::Weights& weights = {},
                                                std::size_t without = kNoThread);

} // namespace otherskein::thread
