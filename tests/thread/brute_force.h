#pragma once

// What the searches are held to: every thread and every pair asked, then sorted.

#include "colour/conversion.h"
#include "colour/mixing.h"
#include "thread/blends.h"
#include "thread/nearest.h"

#include <algorithm>
#include <vector>

namespace otherskein::thread {

inline std::vector<Match> everyThread(const ThreadPool& pool, const colour::Lab& wanted,
                                      std::size_t most, const colour::Weights& weights,
                                      std::size_t without) {
    std::vector<Match> all;
    for (std::size_t i = 0; i < pool.size(); ++i) {
        if (i != without) {
            all.push_back({colour::deltaE00(wanted, pool[i].thread.lab, weights), pool.rank(i), i});
        }
    }
    std::ranges::sort(all);
    all.resize(std::min(all.size(), most));
    return all;
}

inline std::vector<BlendMatch> everyBlend(const ThreadPool& pool, const colour::Lab& wanted,
                                          const BlendSearch& search) {
    std::vector<BlendMatch> all;
    for (int q = 1; q <= search.strands / 2; ++q) {
        const int p = search.strands - q;
        for (std::size_t i = 0; i < pool.size(); ++i) {
            for (std::size_t j = 0; j < pool.size(); ++j) {
                const bool twice = p == q && pool.rank(j) < pool.rank(i);
                const bool apart =
                    colour::deltaE00(pool[i].thread.lab, pool[j].thread.lab) > search.mostApart;
                if (i == j || twice || apart || i == search.without || j == search.without) {
                    continue;
                }
                const colour::Lab lab =
                    colour::labFromXyz(colour::mixedXyz(pool[i].xyz, p, pool[j].xyz, q));
                const double de00 = colour::deltaE00(wanted, lab, search.weights);
                if (de00 <= search.within) {
                    all.push_back({de00, pool.rank(i), pool.rank(j), p, i, j, q});
                }
            }
        }
    }
    std::ranges::sort(all);
    all.resize(std::min(all.size(), search.most));
    return all;
}

} // namespace otherskein::thread
