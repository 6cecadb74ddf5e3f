#pragma once

#include "colour/conversion.h"
#include "thread/thread_pool.h"

#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace otherskein::thread {

/// Pools of threads where a search can go wrong. The seed is fixed; CAPTURE it.
enum class PoolKind {
    Anywhere,  ///< all of CIELAB, most of it outside sRGB
    Clustered, ///< a few shades, each many times nearly the same
    Doubled,   ///< a few colours, each many times exactly the same: all is decided by ties
    Neutral,   ///< a = b = 0 for half of them, the rest within a hair of it
    Opposite,  ///< pairs on one line through grey
    Blues,     ///< hue 230..320, where CIEDE2000's rotation term acts
    Dark       ///< black and next to black, where CIELAB has its straight foot
};

inline constexpr std::array kPoolKinds{PoolKind::Anywhere, PoolKind::Clustered, PoolKind::Doubled,
                                       PoolKind::Neutral,  PoolKind::Opposite,  PoolKind::Blues,
                                       PoolKind::Dark};

/// Colours that no dye reaches, the corners of CIELAB, and greys.
inline constexpr std::array<colour::Lab, 12> kNastyWanted{{{88, -80, 80},
                                                           {30, 68, -112},
                                                           {60, 95, -60},
                                                           {0, 0, 0},
                                                           {100, 0, 0},
                                                           {50, 0, 0},
                                                           {50, 1e-7, -1e-7},
                                                           {100, 128, 128},
                                                           {0, -128, -128},
                                                           {40, 3, -70},
                                                           {60, 112, -14},
                                                           {38.2, -4.1, -17.6}}};

class RandomPools {
  public:
    explicit RandomPools(unsigned seed) : m_engine(seed) {}

    double between(double least, double most) {
        return std::uniform_real_distribution<double>(least, most)(m_engine);
    }
    int whole(int least, int most) {
        return std::uniform_int_distribution<int>(least, most)(m_engine);
    }

    colour::Lab anywhere() { return {between(0, 100), between(-128, 128), between(-128, 128)}; }

    colour::Lab ofHue(double leastHue, double mostHue) {
        const double hue = between(leastHue, mostHue) * std::numbers::pi / 180;
        const double chroma = between(0, 125);
        return {between(0, 100), chroma * std::cos(hue), chroma * std::sin(hue)};
    }

    ThreadPool pool(PoolKind kind, std::size_t size) {
        std::vector<PooledThread> threads;
        const std::array<colour::Lab, 3> shades{anywhere(), ofHue(0, 360), ofHue(230, 320)};
        for (std::size_t i = 0; i < size; ++i) {
            Thread one;
            // Codes are not in the order of the threads, and both cards have some of them.
            one.code = QString::number(whole(0, 1'000'000));
            one.lab = colourOf(kind, shades, threads);
            const QString card = whole(0, 1) == 0 ? QStringLiteral("one") : QStringLiteral("two");
            threads.push_back({card, one, colour::xyzFromLab(one.lab)});
        }
        return ThreadPool(std::move(threads));
    }

    /// A colour to look for: nasty, next to a thread of the pool, exactly one of its threads, or
    /// any.
    colour::Lab wantedFor(const ThreadPool& pool, int i) {
        const auto count = static_cast<int>(pool.size());
        switch (count == 0 ? 3 + i % 2 : i % 5) {
        case 0:
            return pool.labs()[static_cast<std::size_t>(whole(0, count - 1))];
        case 1:
            return near(pool.labs()[static_cast<std::size_t>(whole(0, count - 1))], 4);
        case 2:
            return ofHue(230, 320);
        case 3:
            return kNastyWanted[static_cast<std::size_t>(i / 5) % kNastyWanted.size()];
        default:
            return anywhere();
        }
    }

    colour::Lab near(const colour::Lab& lab, double step) {
        return {std::min(100.0, std::max(0.0, lab.L + between(-step, step))),
                lab.a + between(-step, step), lab.b + between(-step, step)};
    }

  private:
    std::mt19937_64 m_engine;

    colour::Lab colourOf(PoolKind kind, const std::array<colour::Lab, 3>& shades,
                         const std::vector<PooledThread>& before) {
        const colour::Lab& shade = shades[static_cast<std::size_t>(whole(0, 2))];
        switch (kind) {
        case PoolKind::Anywhere:
            break;
        case PoolKind::Clustered:
            return near(shade, 0.5);
        case PoolKind::Doubled:
            return shade;
        case PoolKind::Neutral:
            return whole(0, 1) == 0 ? colour::Lab{between(0, 100), 0, 0}
                                    : near({between(1, 99), 0, 0}, 1e-6);
        case PoolKind::Opposite: {
            if (before.size() % 2 == 0) {
                return ofHue(0, 360);
            }
            // A power of two keeps the two exactly opposite.
            const colour::Lab& other = before.back().thread.lab;
            return {between(0, 100), -other.a / 2, -other.b / 2};
        }
        case PoolKind::Blues:
            return ofHue(230, 320);
        case PoolKind::Dark:
            return {std::max(0.0, between(-2, 6)), between(-3, 3), between(-3, 3)};
        }
        return anywhere();
    }
};

} // namespace otherskein::thread
