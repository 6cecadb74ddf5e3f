#pragma once

#include "colourway/coverage.h"
#include "thread/ground.h"
#include "thread/thread_pool.h"

#include <span>
#include <vector>

namespace otherskein::colourway {

/// How well a stitched area shows on its ground.
enum class Verdict { Vanishes, Soft, Clear };

/// Limits of the verdicts, in ΔE00 of the apparent colour against the ground. Ours (common
/// practice, no source): under 8 a shape is lost at arm's length; from 16 on its edge reads at
/// once.
inline constexpr double kVanishesBelow = 8;
inline constexpr double kClearFrom = 16;

[[nodiscard]] Verdict verdictOf(double de00);
/// "vanishes", "soft" or "clear", as files and commands say it.
[[nodiscard]] QString wordOf(Verdict verdict);

/// One thread on one ground, judged by the colour that a stitched area appears to have.
struct OnGround {
    thread::PooledThread thread;
    double coverage = 1;
    colour::Lab apparent;
    double de00 = 0;  ///< apparent against ground
    double dL = 0;    ///< apparent - ground
    double ratio = 1; ///< WCAG 2.x luminance ratio
    Verdict verdict = Verdict::Clear;
};

/// Least contrast first; ties by card, then code.
[[nodiscard]] std::vector<OnGround> checkGround(std::span<const thread::PooledThread> threads,
                                                const thread::Ground& ground, int strands,
                                                const PlyWidths& widths = {});

} // namespace otherskein::colourway
