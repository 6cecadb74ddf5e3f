#pragma once

#include <cstdint>

namespace otherskein::colourway {

/// Seeded chance that is the same on every machine (splitmix64: Steele, Lea & Flood 2014, from
/// memory; any mixing would do here). The standard library's distributions are not.
class Chance {
  public:
    explicit Chance(std::uint64_t seed) : m_state(seed) {}

    std::uint64_t next() {
        m_state += 0x9e3779b97f4a7c15ULL;
        std::uint64_t z = m_state;
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
        return z ^ (z >> 31U);
    }
    /// At least `least`, below `most`.
    double between(double least, double most) {
        constexpr double kSteps = 9007199254740992.0; // 2^53: the whole numbers of a double
        return least + (most - least) * (static_cast<double>(next() >> 11U) / kSteps);
    }

  private:
    std::uint64_t m_state;
};

} // namespace otherskein::colourway
