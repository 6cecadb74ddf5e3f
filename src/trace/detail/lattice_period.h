#pragma once

#include "trace/detail/lattice_lines.h"

namespace otherskein::trace::detail {

/// Logarithms of a profile's power by frequency, in units of 1 / (size of the transform).
struct Spectrum {
    std::vector<double> logs;
    double unit = 0; ///< of those steps for one line of the lattice

    [[nodiscard]] double at(double timesUnit) const {
        const auto i = static_cast<std::size_t>(std::lround(timesUnit * unit));
        return i < logs.size() ? logs[i] : logs.back();
    }
};

[[nodiscard]] Spectrum spectrumOf(const Way& way);

struct Period {
    double stands = -1; ///< how surely its harmonics stand out from what lies between them
    double factor = 1;  ///< new cells of that many old ones, as the page has it
};

/// How much what repeats about every `factor` cells stands out from what does not.
[[nodiscard]] Period periodNearFactor(const Spectrum& spectrum, const Way& way, double factor);

} // namespace otherskein::trace::detail
