// Search speed as a ratio to a plain littleCMS loop in the same run. Started by scripts/bench only;
// the test run never times anything.
#include <catch2/catch.hpp>

#include "colour/conversion.h"
#include "thread/blends.h"
#include "thread/nearest.h"

#include <lcms2.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <random>

using namespace otherskein;

namespace {

/// Random threads in about the gamut of dyed fibre (ours: chroma shrinks towards black and white).
thread::ThreadPool randomPool(std::size_t size, unsigned seed) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> lightness(14, 95);
    std::uniform_real_distribution<double> hue(-3.14159, 3.14159);
    std::uniform_real_distribution<double> part(0, 1);
    std::vector<thread::PooledThread> threads;
    for (std::size_t i = 0; i < size; ++i) {
        thread::Thread one;
        one.code = QString::number(i);
        const double L = lightness(random);
        const double C = 70 * std::sqrt(part(random)) * (1 - std::pow(std::abs(L - 58) / 46, 2));
        const double h = hue(random);
        one.lab = {L, C * std::cos(h), C * std::sin(h)};
        threads.push_back({QStringLiteral("random"), one, colour::xyzFromLab(one.lab)});
    }
    return thread::ThreadPool(std::move(threads));
}

cmsCIELab cms(const colour::Lab& lab) {
    return {lab.L, lab.a, lab.b};
}

template <typename Work>
double milliseconds(int rounds, Work work) {
    using Clock = std::chrono::steady_clock;
    double best = 1e300;
    for (int i = 0; i < rounds; ++i) {
        const auto start = Clock::now();
        work();
        best =
            std::min(best, std::chrono::duration<double, std::milli>(Clock::now() - start).count());
    }
    return best;
}

struct Found {
    double de00;
    std::size_t one;
    std::size_t other;
    bool operator<(const Found& f) const { return de00 < f.de00; }
};

void keep(std::vector<Found>& best, const Found& found, std::size_t most) {
    if (best.size() == most && !(found < best.back())) {
        return;
    }
    best.insert(std::upper_bound(best.begin(), best.end(), found), found);
    best.resize(std::min(best.size(), most));
}

std::vector<Found> plainNearest(const thread::ThreadPool& pool, const colour::Lab& wanted) {
    const cmsCIELab target = cms(wanted);
    std::vector<Found> best;
    for (std::size_t i = 0; i < pool.size(); ++i) {
        const cmsCIELab lab = cms(pool[i].thread.lab);
        keep(best, {cmsCIE2000DeltaE(&target, &lab, 1, 1, 1), i, i}, 10);
    }
    return best;
}

std::vector<Found> plainBlends(const thread::ThreadPool& pool, const colour::Lab& wanted) {
    const cmsCIELab target = cms(wanted);
    std::vector<Found> best;
    for (std::size_t i = 0; i < pool.size(); ++i) {
        for (std::size_t j = i + 1; j < pool.size(); ++j) {
            const colour::Xyz& one = pool.xyzs()[i];
            const colour::Xyz& other = pool.xyzs()[j];
            const cmsCIEXYZ mean{(one.X + other.X) / 2, (one.Y + other.Y) / 2,
                                 (one.Z + other.Z) / 2};
            cmsCIELab lab;
            cmsXYZ2Lab(nullptr, &lab, &mean);
            keep(best, {cmsCIE2000DeltaE(&target, &lab, 1, 1, 1), i, j}, 10);
        }
    }
    return best;
}

struct NamedColour {
    const char* name;
    colour::Lab lab;
};

const std::array<NamedColour, 6> kWanted{{{"slate", {38.2, -4.1, -17.6}},
                                          {"brick", {42, 45, 30}},
                                          {"pale grey", {80, 0.5, 2}},
                                          {"black", {15, 0, 0}},
                                          {"neon green, far outside", {88, -80, 80}},
                                          {"screen blue, far outside", {30, 68, -112}}}};

constexpr std::size_t kInside = 4; // the first of them lie inside the gamut of the random threads

} // namespace

TEST_CASE("top 10 of 30000 threads") {
    const auto pool = randomPool(30'000, 1);
    std::puts("\nTop 10 of 30,000 threads, one core (goal: 20 x)");
    double plainSum = 0;
    double oursSum = 0;
    for (const NamedColour& wanted : kWanted) {
        std::vector<Found> expected;
        std::vector<thread::Match> found;
        const double plain = milliseconds(3, [&] { expected = plainNearest(pool, wanted.lab); });
        const double ours =
            milliseconds(20, [&] { found = thread::nearestThreads(pool, wanted.lab, 10); });
        for (std::size_t i = 0; i < 10; ++i) {
            REQUIRE(std::abs(found[i].de00 - expected[i].de00) < 1e-6);
        }
        std::printf("  %-26s plain littleCMS loop %8.3f ms   ours %8.4f ms   %7.0f x\n",
                    wanted.name, plain, ours, plain / ours);
        plainSum += plain;
        oursSum += ours;
        if (&wanted == &kWanted[kInside - 1]) {
            std::printf("  %-26s %50s %7.0f x\n", "the four inside the gamut", "",
                        plainSum / oursSum);
        }
    }
    std::printf("  %-26s %50s %7.0f x\n", "all six", "", plainSum / oursSum);
    const double build = milliseconds(3, [&] { const thread::ThreadPool again(pool.threads()); });
    std::printf("  building the pool once: %.1f ms\n", build);
}

TEST_CASE("best blends of 5000 threads") {
    const auto pool = randomPool(5'000, 2);
    std::puts("\nBest 10 of all 12.5 million 1+1 blends of 5,000 threads, one core (goal: 200 x)");
    double plainSum = 0;
    double oursSum = 0;
    for (const NamedColour& wanted : kWanted) {
        std::vector<Found> expected;
        std::vector<thread::BlendMatch> found;
        const double plain = milliseconds(1, [&] { expected = plainBlends(pool, wanted.lab); });
        const double ours =
            milliseconds(3, [&] { found = thread::bestBlends(pool, wanted.lab, {}); });
        for (std::size_t i = 0; i < 10; ++i) {
            REQUIRE(std::abs(found[i].de00 - expected[i].de00) < 1e-6);
        }
        std::printf("  %-26s plain littleCMS loop %8.0f ms   ours %8.3f ms   %7.0f x\n",
                    wanted.name, plain, ours, plain / ours);
        plainSum += plain;
        oursSum += ours;
        if (&wanted == &kWanted[kInside - 1]) {
            std::printf("  %-26s %50s %7.0f x\n", "the four inside the gamut", "",
                        plainSum / oursSum);
        }
    }
    std::printf("  %-26s %50s %7.0f x\n", "all six", "", plainSum / oursSum);
}
