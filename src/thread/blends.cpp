#include "thread/blends.h"

#include "colour/conversion.h"
#include "colour/difference_bound.h"
#include "colour/mixing.h"
#include "thread/best_few.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::thread {

namespace {

struct Range {
    double least = 0;
    double most = 0;
};

/// The XYZ values that a colour within reach can have.
struct XyzBox {
    Range X;
    Range Y;
    Range Z;

    [[nodiscard]] bool holds(const colour::Xyz& xyz) const {
        return xyz.Y >= Y.least && xyz.Y <= Y.most && xyz.X >= X.least && xyz.X <= X.most &&
               xyz.Z >= Z.least && xyz.Z <= Z.most;
    }
};

constexpr double kLargestLimit =
    64; // beyond every ΔE00 between real colours of use; then all pairs are looked at
constexpr double kRounding = 1e-12; // XYZ of white is 1

/// X grows with L and a; Y with L; Z with L and falls with b: so the corners of the Lab box bound
/// them.
XyzBox boxWithin(const colour::DifferenceBound& bound, double limit) {
    constexpr double kAny = std::numeric_limits<double>::infinity();
    const auto reach = bound.reach(limit);
    const colour::Lab& wanted = bound.wanted();
    const double r = reach.radiusAb;
    XyzBox box{{-kAny, kAny}, {-kAny, kAny}, {-kAny, kAny}};
    if (limit < kLargestLimit) {
        const auto low = colour::xyzFromLab({reach.leastL, 0, 0});
        const auto high = colour::xyzFromLab({reach.mostL, 0, 0});
        box.Y = {low.Y - kRounding, high.Y + kRounding};
        if (std::isfinite(r)) {
            const auto least = colour::xyzFromLab({reach.leastL, wanted.a - r, wanted.b + r});
            const auto most = colour::xyzFromLab({reach.mostL, wanted.a + r, wanted.b - r});
            box.X = {least.X - kRounding, most.X + kRounding};
            box.Z = {least.Z - kRounding, most.Z + kRounding};
        }
    }
    return box;
}

/// Walks pairs of groups, nearest first, and passes over those that cannot hold a better blend.
class PairSearch {
  public:
    PairSearch(const ThreadPool& pool, const colour::DifferenceBound& bound,
               const BlendSearch& search, double within, const StopAsked& stop)
        : m_pool(pool), m_nodes(pool.tree().nodes()), m_bound(bound), m_without(search.without),
          m_mostApart(search.mostApart), m_stop(stop), m_best(search.most, within) {
        narrow();
    }

    /// All blends of p strands of one thread and q of another.
    void run(int p, int q) {
        m_p = p;
        m_q = q;
        visit({0, 0, 0});
    }

    [[nodiscard]] bool isStopped() const { return m_stopped; }
    [[nodiscard]] std::size_t found() const { return m_best.size(); }
    [[nodiscard]] std::vector<BlendMatch> take() { return m_best.take(); }

  private:
    struct Pair {
        std::uint32_t one;
        std::uint32_t other;
        double least; ///< no blend of this pair is nearer than this
    };

    const ThreadPool& m_pool;
    const std::vector<ColourTree::Node>& m_nodes;
    const colour::DifferenceBound& m_bound;
    std::size_t m_without;
    double m_mostApart;
    const StopAsked& m_stop;
    BestFew<BlendMatch> m_best;
    int m_p = 1;
    int m_q = 1;
    XyzBox m_box;
    double m_boxLimit = 0;
    bool m_stopped = false;
    unsigned m_visits = 0;

    void narrow() {
        m_boxLimit = m_best.limit();
        m_box = boxWithin(m_bound, m_boxLimit);
    }

    [[nodiscard]] Pair pairOf(std::uint32_t one, std::uint32_t other) const {
        return {one, other,
                m_bound.leastIn(ColourTree::blendBox(m_nodes[one], m_p, m_nodes[other], m_q))};
    }

    void visit(const Pair& pair) {
        constexpr unsigned kVisitsBetweenQuestions = 4096;
        if (m_stop && ++m_visits % kVisitsBetweenQuestions == 0 && m_stop()) {
            m_stopped = true;
        }
        if (m_stopped || pair.least > m_best.limit()) {
            return;
        }
        const ColourTree::Node& one = m_nodes[pair.one];
        const ColourTree::Node& other = m_nodes[pair.other];
        if (one.isLeaf() && other.isLeaf()) {
            scan(one, other);
            return;
        }
        // With equal strands a pair is the same either way round, so a group paired with itself
        // parts into three, not four.
        if (pair.one == pair.other && m_p == m_q) {
            visitNearestFirst(std::array{pairOf(one.left, one.left), pairOf(one.left, one.right),
                                         pairOf(one.right, one.right)});
        } else if (!one.isLeaf() && (other.isLeaf() || one.size() >= other.size())) {
            visitNearestFirst(
                std::array{pairOf(one.left, pair.other), pairOf(one.right, pair.other)});
        } else {
            visitNearestFirst(
                std::array{pairOf(pair.one, other.left), pairOf(pair.one, other.right)});
        }
    }

    template <std::size_t count>
    void visitNearestFirst(std::array<Pair, count> pairs) {
        std::ranges::sort(pairs, {}, &Pair::least);
        for (const Pair& pair : pairs) {
            visit(pair);
        }
    }

    void scan(const ColourTree::Node& one, const ColourTree::Node& other) {
        const auto& members = m_pool.tree().members();
        const bool halves = &one == &other && m_p == m_q;
        for (std::uint32_t i = one.begin; i < one.end; ++i) {
            for (std::uint32_t j = halves ? i + 1 : other.begin; j < other.end; ++j) {
                ask(members[i], members[j]);
            }
        }
    }

    [[nodiscard]] bool tooFarApart(std::size_t i, std::size_t j) const {
        return std::isfinite(m_mostApart) &&
               colour::deltaE00(m_pool.labs()[i], m_pool.labs()[j]) > m_mostApart;
    }

    void ask(std::size_t i, std::size_t j) {
        const colour::Xyz xyz = colour::mixedXyz(m_pool.xyzs()[i], m_p, m_pool.xyzs()[j], m_q);
        if (!m_box.holds(xyz) || i == j || i == m_without || j == m_without) {
            return;
        }
        const colour::Lab lab = colour::labFromXyz(xyz);
        if (!m_bound.mayBeWithin(lab, m_best.limit())) {
            return;
        }
        const double de00 = colour::deltaE00(m_bound.wanted(), lab, m_bound.weights());
        if (de00 > m_best.limit() || tooFarApart(i, j)) {
            return;
        }
        const bool swap = m_p == m_q && m_pool.rank(j) < m_pool.rank(i);
        const std::size_t first = swap ? j : i;
        const std::size_t second = swap ? i : j;
        m_best.offer({de00, m_pool.rank(first), m_pool.rank(second), m_p, first, second, m_q});
        if (m_best.limit() < 0.8 * m_boxLimit) {
            narrow();
        }
    }
};

} // namespace

std::vector<BlendMatch> bestBlends(const ThreadPool& pool, const colour::Lab& wanted,
                                   const BlendSearch& search, const StopAsked& stop) {
    if (search.strands < 2 || pool.size() < 2 || search.most == 0) {
        return {};
    }
    const colour::DifferenceBound bound(wanted, search.weights);
    // Without a good answer in hand a walk strays far, so guess a limit, and double it until it
    // holds enough.
    constexpr double kFirstLimit = 0.25;
    for (double limit = kFirstLimit;; limit *= 2) {
        const bool lastRound = limit >= search.within || limit >= kLargestLimit;
        PairSearch pairs(pool, bound, search, lastRound ? search.within : limit, stop);
        for (int q = 1; q <= search.strands / 2; ++q) {
            pairs.run(search.strands - q, q);
        }
        if (pairs.isStopped()) {
            return {};
        }
        if (lastRound || pairs.found() == search.most) {
            return pairs.take();
        }
    }
}

} // namespace otherskein::thread
