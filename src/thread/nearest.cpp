#include "thread/nearest.h"

#include "colour/difference_bound.h"
#include "thread/best_few.h"

#include <algorithm>
#include <array>

namespace otherskein::thread {

namespace {

class NearestSearch {
  public:
    NearestSearch(const ThreadPool& pool, const colour::DifferenceBound& bound, std::size_t most,
                  std::size_t without)
        : m_pool(pool), m_nodes(pool.tree().nodes()), m_bound(bound), m_without(without),
          m_best(most) {
        if (!m_nodes.empty()) {
            visit(groupOf(0));
        }
    }

    [[nodiscard]] std::vector<Match> take() { return m_best.take(); }

  private:
    struct Group {
        std::uint32_t node;
        double least; ///< no thread of this group is nearer than this
    };

    const ThreadPool& m_pool;
    const std::vector<ColourTree::Node>& m_nodes;
    const colour::DifferenceBound& m_bound;
    std::size_t m_without;
    BestFew<Match> m_best;

    [[nodiscard]] Group groupOf(std::uint32_t node) const {
        return {node, m_bound.leastIn(m_nodes[node].lab)};
    }

    void visit(const Group& group) {
        if (group.least > m_best.limit()) {
            return;
        }
        const ColourTree::Node& node = m_nodes[group.node];
        if (node.isLeaf()) {
            scan(node);
            return;
        }
        std::array children{groupOf(node.left), groupOf(node.right)};
        std::ranges::sort(children, {}, &Group::least);
        for (const Group& child : children) {
            visit(child);
        }
    }

    void scan(const ColourTree::Node& node) {
        for (std::uint32_t member = node.begin; member < node.end; ++member) {
            const std::size_t i = m_pool.tree().members()[member];
            const colour::Lab& lab = m_pool.labs()[i];
            if (i != m_without && m_bound.mayBeWithin(lab, m_best.limit())) {
                m_best.offer({colour::deltaE00(m_bound.wanted(), lab, m_bound.weights()),
                              m_pool.rank(i), i});
            }
        }
    }
};

} // namespace

std::vector<Match> nearestThreads(const ThreadPool& pool, const colour::Lab& wanted,
                                  std::size_t most, const colour::Weights& weights,
                                  std::size_t without) {
    const colour::DifferenceBound bound(wanted, weights);
    return NearestSearch(pool, bound, most, without).take();
}

} // namespace otherskein::thread
