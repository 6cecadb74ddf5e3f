#include "thread/nearest.h"

#include "brute_force.h"
#include "random_pools.h"

#include <catch2/catch.hpp>

#include <lcms2.h>

using namespace otherskein;
using namespace otherskein::thread;
using Catch::Matchers::WithinAbs;

namespace {

constexpr unsigned kNearestSeed = 20240301;
constexpr std::array<std::size_t, 6> kSizes{0, 1, 2, 9, 50, 300};
constexpr std::array<std::size_t, 4> kNearestMosts{0, 1, 10, 1000};

/// The rule of tests/colour/difference_oracle_test.cpp: within 0.001° of opposite hues littleCMS
/// 2.14 depends on the order of its arguments.
bool nearlyOpposite(const colour::Lab& one, const colour::Lab& other) {
    const double cross = one.a * other.b - one.b * other.a;
    const double dot = one.a * other.a + one.b * other.b;
    constexpr double kTangent = 1.7453e-5; // of 0.001°
    return dot < 0 && std::abs(cross) <= -dot * kTangent;
}

} // namespace

TEST_CASE("the nearest threads are those that asking every thread finds") {
    CAPTURE(kNearestSeed);
    RandomPools random(kNearestSeed);
    int listed = 0;
    for (const PoolKind kind : kPoolKinds) {
        for (const std::size_t size : kSizes) {
            const ThreadPool pool = random.pool(kind, size);
            REQUIRE(pool.isConsistent());
            for (int i = 0; i < 60; ++i) {
                const colour::Lab wanted = random.wantedFor(pool, i);
                const colour::Weights weights =
                    i % 2 == 0 ? colour::kReferenceWeights : colour::kTextileWeights;
                const std::size_t without =
                    i % 3 == 0 && size > 0 ? static_cast<std::size_t>(i) % size : kNoThread;
                for (const std::size_t most : kNearestMosts) {
                    CAPTURE(static_cast<int>(kind), size, i, most, wanted.L, wanted.a, wanted.b);
                    const auto found = nearestThreads(pool, wanted, most, weights, without);
                    // Equal to the bit, order and ties included.
                    REQUIRE((found == everyThread(pool, wanted, most, weights, without)));
                    listed += static_cast<int>(found.size());
                }
            }
        }
    }
    CHECK(listed > 100'000);
}

TEST_CASE("the nearest differences are those of littleCMS") {
    CAPTURE(kNearestSeed);
    RandomPools random(kNearestSeed);
    int compared = 0;
    for (const PoolKind kind : {PoolKind::Anywhere, PoolKind::Clustered, PoolKind::Blues}) {
        const ThreadPool pool = random.pool(kind, 300);
        for (int i = 0; i < 60; ++i) {
            const colour::Lab wanted = random.wantedFor(pool, i);
            const cmsCIELab target{wanted.L, wanted.a, wanted.b};
            std::vector<double> plain;
            for (const colour::Lab& lab : pool.labs()) {
                const cmsCIELab other{lab.L, lab.a, lab.b};
                plain.push_back(nearlyOpposite(wanted, lab)
                                    ? colour::deltaE00(wanted, lab)
                                    : cmsCIE2000DeltaE(&target, &other, 1, 1, 1));
            }
            std::ranges::sort(plain);
            const auto found = nearestThreads(pool, wanted, 10);
            for (std::size_t n = 0; n < found.size(); ++n) {
                CAPTURE(static_cast<int>(kind), i, n);
                REQUIRE_THAT(found[n].de00, WithinAbs(plain[n], 1e-9));
                ++compared;
            }
        }
    }
    CHECK(compared == 3 * 60 * 10);
}

TEST_CASE("equal colours come by card then code") {
    std::vector<PooledThread> threads;
    for (const auto& [card, code] : {std::pair{"b", "1"}, {"a", "2"}, {"b", "0"}, {"a", "10"}}) {
        Thread one;
        one.code = QString::fromLatin1(code);
        one.lab = {50, 20, 10};
        threads.push_back({QString::fromLatin1(card), one, colour::xyzFromLab(one.lab)});
    }
    const ThreadPool pool(std::move(threads));
    std::string order;
    for (const Match& match : nearestThreads(pool, {50, 20, 12}, 3)) {
        order += (pool[match.index].card + pool[match.index].thread.code).toStdString() + ' ';
    }
    // Codes are text, so 10 comes before 2; the worst of the four is cut off.
    CHECK(order == "a10 a2 b0 ");
}

TEST_CASE("a thread left out is not found and the next one takes its place") {
    RandomPools random(kNearestSeed);
    const ThreadPool pool = random.pool(PoolKind::Anywhere, 50);
    const colour::Lab wanted = pool.labs()[17];
    const auto all = nearestThreads(pool, wanted, 3);
    REQUIRE(all.size() == 3);
    CHECK(all[0].index == 17);
    CHECK_THAT(all[0].de00, WithinAbs(0, 0));
    const auto others = nearestThreads(pool, wanted, 2, {}, 17);
    REQUIRE(others.size() == 2);
    CHECK((others[0] == all[1]));
    CHECK((others[1] == all[2]));
}

TEST_CASE("a pool finds a thread by card and code") {
    RandomPools random(kNearestSeed);
    const ThreadPool pool = random.pool(PoolKind::Anywhere, 50);
    const std::size_t at = pool.find(pool[20].card, pool[20].thread.code);
    CHECK(at == 20);
    CHECK(pool.find(QStringLiteral("three"), pool[20].thread.code) == kNoThread);
    CHECK(pool.find(pool[20].card, QStringLiteral("no such")) == kNoThread);
}
