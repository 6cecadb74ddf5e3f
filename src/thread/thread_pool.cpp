#include "thread/thread_pool.h"

#include "colour/conversion.h"

#include <algorithm>
#include <numeric>
#include <tuple>
#include <utility>

namespace otherskein::thread {

ThreadPool::ThreadPool(std::vector<PooledThread> threads) : m_threads(std::move(threads)) {
    std::ranges::stable_sort(m_threads, {},
                             [](const PooledThread& one) { return one.thread.lab.L; });

    std::vector<std::size_t> byName(m_threads.size());
    std::iota(byName.begin(), byName.end(), std::size_t{0});
    std::ranges::stable_sort(byName, [this](std::size_t i, std::size_t j) {
        const PooledThread& one = m_threads[i];
        const PooledThread& other = m_threads[j];
        return std::tie(one.card, one.thread.code) < std::tie(other.card, other.thread.code);
    });
    m_ranks.resize(m_threads.size());
    for (std::size_t place = 0; place < byName.size(); ++place) {
        m_ranks[byName[place]] = place;
    }

    m_labs.reserve(size());
    m_xyzs.reserve(size());
    for (const PooledThread& one : m_threads) {
        m_labs.push_back(one.thread.lab);
        m_xyzs.push_back(one.xyz);
    }
    m_tree = ColourTree(m_xyzs, m_labs);
}

std::size_t ThreadPool::find(const QString& card, const QString& code) const {
    const auto found = std::ranges::find_if(m_threads, [&](const PooledThread& one) {
        return one.thread.code == code && one.card == card;
    });
    return found == m_threads.end() ? kNoThread
                                    : static_cast<std::size_t>(found - m_threads.begin());
}

bool ThreadPool::isConsistent() const {
    std::vector<std::size_t> ranks = m_ranks;
    std::ranges::sort(ranks);
    for (std::size_t i = 0; i < ranks.size(); ++i) {
        if (ranks[i] != i) {
            return false;
        }
    }
    return m_labs.size() == size() && m_xyzs.size() == size() && ranks.size() == size() &&
           std::ranges::is_sorted(m_labs, {}, &colour::Lab::L) && m_tree.isConsistent(m_xyzs);
}

std::vector<PooledThread> pooled(const ShadeCard& card) {
    std::vector<PooledThread> threads;
    threads.reserve(card.threads.size());
    for (const Thread& thread : card.threads) {
        threads.push_back({card.name, thread, colour::xyzFromLab(thread.lab)});
    }
    return threads;
}

} // namespace otherskein::thread
