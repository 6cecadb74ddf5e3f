#pragma once

#include "thread/colour_tree.h"
#include "thread/shade_card.h"

#include <vector>

namespace otherskein::thread {

/// A thread with the name of the card that it is on.
struct PooledThread {
    QString card;
    Thread thread;
    colour::Xyz xyz; ///< of `thread.lab`, kept because blends need it millions of times
};

/// No thread: stands for an index where none is meant.
inline constexpr std::size_t kNoThread = static_cast<std::size_t>(-1);

/// The threads that a search looks among, sorted by lightness, so that a lightness window bounds
/// it. Never changes once built; share it between threads of execution freely.
class ThreadPool {
  public:
    /// Errors: none. The same code on cards of the same name is kept as it comes.
    explicit ThreadPool(std::vector<PooledThread> threads = {});

    [[nodiscard]] std::size_t size() const { return m_threads.size(); }
    [[nodiscard]] const PooledThread& operator[](std::size_t i) const { return m_threads[i]; }
    [[nodiscard]] const std::vector<PooledThread>& threads() const { return m_threads; }

    /// The place of thread `i` in the order by card, then code: what decides ties.
    [[nodiscard]] std::size_t rank(std::size_t i) const { return m_ranks[i]; }

    /// Columns of the pool, in its order, close together in memory; L does not fall.
    [[nodiscard]] const std::vector<colour::Lab>& labs() const { return m_labs; }
    [[nodiscard]] const std::vector<colour::Xyz>& xyzs() const { return m_xyzs; }

    [[nodiscard]] const ColourTree& tree() const { return m_tree; }

    /// The thread of that card and code, or kNoThread.
    [[nodiscard]] std::size_t find(const QString& card, const QString& code) const;

    /// For tests: sizes agree and the order holds.
    [[nodiscard]] bool isConsistent() const;

  private:
    std::vector<PooledThread> m_threads;
    std::vector<std::size_t> m_ranks;
    std::vector<colour::Lab> m_labs;
    std::vector<colour::Xyz> m_xyzs;
    ColourTree m_tree;
};

/// The threads of `card` as a pool takes them.
[[nodiscard]] std::vector<PooledThread> pooled(const ShadeCard& card);

} // namespace otherskein::thread
