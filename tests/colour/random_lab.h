#pragma once

#include "colour/lab.h"

#include <random>

namespace otherskein::colour {

/// A generator of colours for laws that hold everywhere. The seed is fixed; CAPTURE it.
class RandomLab {
  public:
    static constexpr unsigned kSeed = 20240229;

    /// Any colour that CIELAB can name, far outside sRGB too.
    Lab anywhere() { return {m_lightness(m_engine), m_plane(m_engine), m_plane(m_engine)}; }

    /// One that lies as near to `lab` as threads that replace each other.
    Lab near(const Lab& lab) {
        const double L = lab.L + m_step(m_engine);
        return {L < 0 ? 0 : (L > 100 ? 100 : L), lab.a + m_step(m_engine),
                lab.b + m_step(m_engine)};
    }

  private:
    std::mt19937_64 m_engine{kSeed};
    std::uniform_real_distribution<double> m_lightness{0, 100};
    std::uniform_real_distribution<double> m_plane{-128, 128};
    std::uniform_real_distribution<double> m_step{-3, 3};
};

} // namespace otherskein::colour
