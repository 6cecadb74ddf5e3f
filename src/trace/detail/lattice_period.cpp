#include "trace/detail/lattice_period.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace otherskein::trace::detail {

Spectrum spectrumOf(const Way& way) {
    constexpr double kOfMost = 0.02; // less is what bold lines leave, and grain
    const std::vector<double> profile = levelProfile(way);
    const int size = cv::getOptimalDFTSize(static_cast<int>(8 * profile.size()));
    cv::Mat padded(1, size, CV_64F, cv::Scalar(0));
    for (std::size_t i = 0; i < profile.size(); ++i) {
        const double turn = 2 * std::numbers::pi * (static_cast<double>(i) + 0.5) /
                            static_cast<double>(profile.size());
        padded.at<double>(static_cast<int>(i)) = profile[i] * (0.5 - 0.5 * std::cos(turn));
    }
    cv::Mat packed;
    cv::dft(padded, packed);
    Spectrum spectrum;
    spectrum.unit = static_cast<double>(size) / way.sheet.bins;
    std::vector<double> powers{0};
    for (int i = 1; 2 * i < size; ++i) {
        const double real = packed.at<double>(2 * i - 1);
        const double imaginary = packed.at<double>(2 * i);
        powers.push_back(real * real + imaginary * imaginary);
    }
    const double least = kOfMost * *std::ranges::max_element(powers) + 1e-6;
    for (const double one : powers) {
        spectrum.logs.push_back(std::log(one + least));
    }
    return spectrum;
}

Period periodNearFactor(const Spectrum& spectrum, const Way& way, double factor) {
    constexpr double kMostOff = 0.025; // of the pitch
    constexpr double kLeastBins = 3;   // of the finest harmonic
    constexpr double kMostHarmonics = 6;
    const double lobe = 2.0 / way.lines;
    const double most = way.sheet.bins / kLeastBins; // frequency, in lines of the lattice
    Period best{-1, factor};
    const int steps = 10;
    for (int k = -steps; k <= steps; ++k) {
        const double base = 1 / (factor * (1 + kMostOff * k / steps));
        double sumIn = 0;
        double sumOut = 0;
        double squares = 0;
        int in = 0;
        int out = 0;
        for (int h = 1; h * base <= most && h <= kMostHarmonics; ++h, ++in) {
            const double one = spectrum.at(h * base);
            sumIn += one;
            squares += one * one;
        }
        const double top = std::min(most, kMostHarmonics * base + base / 2);
        const double step = std::min(0.5, base / 2);
        for (double f = std::max(step, lobe); f <= top; f += step) {
            const double near = std::abs(f - std::round(f / base) * base);
            if (near > std::min(0.26, 0.4 * base)) {
                const double one = spectrum.at(f);
                sumOut += one;
                squares += one * one;
                ++out;
            }
        }
        if (in < 1 || out < 3) {
            continue;
        }
        const double variance = (squares - sumIn * sumIn / in - sumOut * sumOut / out) / (in + out);
        const double stands =
            (sumIn / in - sumOut / out) / std::sqrt((variance + 0.5) * (1.0 / in + 1.0 / out));
        if (stands > best.stands) {
            best = {stands, factor * (1 + kMostOff * k / steps)};
        }
    }
    return best;
}

} // namespace otherskein::trace::detail
