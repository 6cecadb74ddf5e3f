#include "thread/colour_tree.h"

#include "colour/mixing.h"
#include "random_pools.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::thread;

namespace {

constexpr unsigned kTreeSeed = 20240303;
using LabBox = colour::DifferenceBound::LabBox;

bool holds(const LabBox& box, const colour::Lab& lab) {
    return box.leastL <= lab.L && lab.L <= box.mostL && box.leastA <= lab.a && lab.a <= box.mostA &&
           box.leastB <= lab.b && lab.b <= box.mostB;
}

} // namespace

TEST_CASE("a tree of any pool is consistent") {
    CAPTURE(kTreeSeed);
    RandomPools random(kTreeSeed);
    for (const PoolKind kind : kPoolKinds) {
        for (const std::size_t size : {0U, 1U, 2U, 8U, 9U, 17U, 50U, 300U, 3000U}) {
            CAPTURE(static_cast<int>(kind), size);
            const ThreadPool pool = random.pool(kind, size);
            CHECK(pool.isConsistent());
            CHECK(pool.tree().isConsistent(pool.xyzs()));
            CHECK(pool.tree().nodes().empty() == (size == 0));
        }
    }
}

TEST_CASE("a tree of other colours is not consistent") {
    RandomPools random(kTreeSeed);
    const ThreadPool pool = random.pool(PoolKind::Anywhere, 50);
    std::vector<colour::Xyz> moved = pool.xyzs();
    moved[30].Y += 2;
    CHECK_FALSE(pool.tree().isConsistent(moved));
}

TEST_CASE("every group's box holds its threads") {
    CAPTURE(kTreeSeed);
    RandomPools random(kTreeSeed);
    for (const PoolKind kind : kPoolKinds) {
        const ThreadPool pool = random.pool(kind, 300);
        for (const ColourTree::Node& node : pool.tree().nodes()) {
            for (std::uint32_t i = node.begin; i < node.end; ++i) {
                CAPTURE(static_cast<int>(kind), i);
                REQUIRE(holds(node.lab, pool.labs()[pool.tree().members()[i]]));
            }
        }
    }
}

TEST_CASE("the box of two groups holds every blend between them") {
    CAPTURE(kTreeSeed);
    RandomPools random(kTreeSeed);
    std::size_t blends = 0;
    double narrowest = 1e9;
    for (const PoolKind kind : kPoolKinds) {
        const ThreadPool pool = random.pool(kind, 100);
        const auto& nodes = pool.tree().nodes();
        for (const auto& [p, q] : {std::pair{1, 1}, {2, 1}, {1, 2}, {5, 1}, {4, 2}}) {
            for (const ColourTree::Node& one : nodes) {
                const ColourTree::Node& other =
                    nodes[static_cast<std::size_t>(random.whole(0, int(nodes.size()) - 1))];
                const LabBox box = ColourTree::blendBox(one, p, other, q);
                narrowest = std::min(narrowest, box.mostA - box.leastA);
                for (std::uint32_t i = one.begin; i < one.end; ++i) {
                    for (std::uint32_t j = other.begin; j < other.end; ++j) {
                        const colour::Lab lab = colour::labFromXyz(
                            colour::mixedXyz(pool.xyzs()[pool.tree().members()[i]], p,
                                             pool.xyzs()[pool.tree().members()[j]], q));
                        CAPTURE(static_cast<int>(kind), p, q, i, j, lab.L, lab.a, lab.b);
                        REQUIRE(holds(box, lab));
                        ++blends;
                    }
                }
            }
        }
    }
    CHECK(blends > 200'000);
    // A box that holds everything would be right and useless: one of equal colours is a point.
    CHECK(narrowest < 1e-6);
}
