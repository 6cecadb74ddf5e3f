#include "thread/blends.h"

#include "brute_force.h"
#include "random_pools.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using namespace otherskein::thread;
using Catch::Matchers::WithinAbs;

namespace {

constexpr unsigned kBlendsSeed = 20240302;

struct Case {
    std::size_t size;
    int wanted; ///< how many colours are looked for
};
// Brute force over 300 threads is 90,000 pairs a question and strand share.
constexpr std::array<Case, 6> kCases{{{0, 10}, {1, 10}, {2, 30}, {9, 60}, {50, 60}, {300, 5}}};
constexpr std::array<std::size_t, 4> kBlendsMosts{10, 1, 1000, 0};

BlendSearch searchNumber(RandomPools& random, const ThreadPool& pool, int i) {
    BlendSearch search;
    search.most = kBlendsMosts[static_cast<std::size_t>(i) % kBlendsMosts.size()];
    search.strands = 1 + i % 6;
    search.weights = i % 2 == 0 ? colour::kReferenceWeights : colour::kTextileWeights;
    if (i % 3 == 0 && pool.size() > 0) {
        search.without =
            static_cast<std::size_t>(random.whole(0, static_cast<int>(pool.size()) - 1));
    }
    if (i % 7 == 5) {
        search.mostApart = random.between(0, 40);
    }
    if (i % 5 == 4) {
        search.within = random.between(0, 20);
    }
    return search;
}

} // namespace

TEST_CASE("the best blends are those that asking every pair finds") {
    CAPTURE(kBlendsSeed);
    RandomPools random(kBlendsSeed);
    int listed = 0;
    for (const PoolKind kind : kPoolKinds) {
        for (const auto& [size, count] : kCases) {
            const ThreadPool pool = random.pool(kind, size);
            for (int i = 0; i < count; ++i) {
                const colour::Lab wanted = random.wantedFor(pool, i);
                const BlendSearch search = searchNumber(random, pool, i);
                CAPTURE(static_cast<int>(kind), size, i, search.most, search.strands,
                        search.without, search.within, wanted.L, wanted.a, wanted.b);
                const auto found = bestBlends(pool, wanted, search);
                // Equal to the bit, order and ties included.
                REQUIRE((found == everyBlend(pool, wanted, search)));
                listed += static_cast<int>(found.size());
            }
        }
    }
    CHECK(listed > 30'000);
}

TEST_CASE("every number of strands is searched in the largest pools") {
    CAPTURE(kBlendsSeed);
    RandomPools random(kBlendsSeed + 1);
    for (int strands = 1; strands <= 6; ++strands) {
        const ThreadPool pool = random.pool(PoolKind::Anywhere, 300);
        BlendSearch search;
        search.strands = strands;
        const colour::Lab wanted = random.ofHue(0, 360);
        CAPTURE(strands, wanted.L, wanted.a, wanted.b);
        const auto found = bestBlends(pool, wanted, search);
        CHECK(found.size() == (strands == 1 ? 0U : 10U));
        REQUIRE((found == everyBlend(pool, wanted, search)));
    }
}

TEST_CASE("far outside wanted colours are searched exactly") {
    CAPTURE(kBlendsSeed);
    RandomPools random(kBlendsSeed + 2);
    const ThreadPool pool = random.pool(PoolKind::Clustered, 120);
    for (const colour::Lab& wanted : kNastyWanted) {
        for (const std::size_t most : {std::size_t{1}, std::size_t{1000}}) {
            BlendSearch search;
            search.most = most;
            CAPTURE(most, wanted.L, wanted.a, wanted.b);
            REQUIRE((bestBlends(pool, wanted, search) == everyBlend(pool, wanted, search)));
        }
    }
}

TEST_CASE("a blend as far as the limit is still wanted and one past it is not") {
    RandomPools random(kBlendsSeed);
    const ThreadPool pool = random.pool(PoolKind::Anywhere, 50);
    const colour::Lab wanted{50, 10, 10};
    BlendSearch search;
    search.most = 5;
    const auto all = bestBlends(pool, wanted, search);
    REQUIRE(all.size() == 5);
    search.within = all[2].de00;
    CHECK(bestBlends(pool, wanted, search).size() == 3);
    search.within = std::nextafter(all[2].de00, 0.0);
    CHECK(bestBlends(pool, wanted, search).size() == 2);
}

TEST_CASE("a blend of threads as far apart as allowed is found and one past it is not") {
    RandomPools random(kBlendsSeed);
    const ThreadPool pool = random.pool(PoolKind::Anywhere, 20);
    BlendSearch search;
    search.most = 1;
    const auto best = bestBlends(pool, {50, 10, 10}, search);
    REQUIRE(best.size() == 1);
    search.weights = colour::kTextileWeights; // has no say in how far apart the two are
    search.most = 1000;
    search.mostApart = colour::deltaE00(pool.labs()[best[0].one], pool.labs()[best[0].other]);
    const auto isBest = [&](const BlendMatch& match) {
        return match.one == best[0].one && match.other == best[0].other;
    };
    CHECK(std::ranges::count_if(bestBlends(pool, {50, 10, 10}, search), isBest) == 1);
    search.mostApart = std::nextafter(search.mostApart, 0.0);
    CHECK(std::ranges::count_if(bestBlends(pool, {50, 10, 10}, search), isBest) == 0);
}

TEST_CASE("the thread with more strands comes first") {
    std::vector<PooledThread> threads;
    for (const double L : {20.0, 80.0}) {
        Thread one;
        one.code = L < 50 ? QStringLiteral("dark") : QStringLiteral("light");
        one.lab = {L, 0, 0};
        threads.push_back({QStringLiteral("card"), one, colour::xyzFromLab(one.lab)});
    }
    const ThreadPool pool(std::move(threads));
    BlendSearch search;
    search.strands = 3;
    // Y of L* 20 is 0.02989, of L* 80 is 0.56681. 2 + 1 dark: Y 0.2089, L* 52.8; 1 + 2: 0.3878,
    // L* 68.6.
    const auto found = bestBlends(pool, {52.8, 0, 0}, search);
    REQUIRE(found.size() == 2);
    CHECK(pool[found[0].one].thread.code.toStdString() == "dark");
    CHECK(found[0].strandsOfOne == 2);
    CHECK(found[0].strandsOfOther == 1);
    CHECK_THAT(found[0].de00, WithinAbs(0, 0.05));
    CHECK(pool[found[1].one].thread.code.toStdString() == "light");
    CHECK(found[1].strandsOfOne == 2);
}

TEST_CASE("a search that is asked to stop gives nothing") {
    RandomPools random(kBlendsSeed);
    const ThreadPool pool = random.pool(PoolKind::Anywhere, 300);
    BlendSearch search;
    search.most = 1000;
    search.strands = 6;
    int asked = 0;
    const auto stopped = bestBlends(pool, {50, 0, 0}, search, [&asked] { return ++asked == 2; });
    CHECK(stopped.empty());
    CHECK(asked == 2); // and it was believed at once
    asked = 0;
    const auto whole = bestBlends(pool, {50, 0, 0}, search, [&asked] {
        ++asked;
        return false;
    });
    CHECK(whole.size() == 1000);
    CHECK(asked > 2);
}
