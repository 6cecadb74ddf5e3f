#include "colourway/main_colours.h"

#include "colour/conversion.h"
#include "colour/difference.h"

#include <QColorSpace>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

namespace otherskein::colourway {

namespace {

constexpr int kLookedAt = 200;   ///< pixels along the longer side: main colours need no more
constexpr int kOpaque = 128;     ///< alpha from which a pixel counts
constexpr int kRounds = 30;      ///< of k-means; it has long settled by then
constexpr double kOneColour = 5; ///< ΔE00 under which two clusters are one colour (ours)

struct Sample {
    colour::Lab lab;
    double weight = 0;
};

double square(double value) {
    return value * value;
}

/// Euclidean in Lab: what a mean minimises.
double distance(const colour::Lab& one, const colour::Lab& other) {
    return square(one.L - other.L) + square(one.a - other.a) + square(one.b - other.b);
}

/// The picture's colours, rounded to 5 bits a channel, with the mean of each and its weight.
std::vector<Sample> samplesOf(QImage picture) {
    if (picture.colorSpace().isValid()) {
        picture.convertToColorSpace(QColorSpace(QColorSpace::SRgb));
    }
    if (std::max(picture.width(), picture.height()) > kLookedAt) {
        picture =
            picture.scaled(kLookedAt, kLookedAt, Qt::KeepAspectRatio, Qt::SmoothTransformation);
    }
    picture = picture.convertToFormat(QImage::Format_ARGB32);
    struct Sum {
        double r = 0;
        double g = 0;
        double b = 0;
        double n = 0;
    };
    std::map<unsigned, Sum> bins; // ordered, so that the answer is the same everywhere
    for (int y = 0; y < picture.height(); ++y) {
        const auto* line = reinterpret_cast<const QRgb*>(picture.constScanLine(y));
        for (int x = 0; x < picture.width(); ++x) {
            const QRgb pixel = line[x];
            if (qAlpha(pixel) < kOpaque) {
                continue;
            }
            const auto bin = (static_cast<unsigned>(qRed(pixel)) >> 3U << 10U) |
                             (static_cast<unsigned>(qGreen(pixel)) >> 3U << 5U) |
                             (static_cast<unsigned>(qBlue(pixel)) >> 3U);
            Sum& sum = bins[bin];
            sum.r += qRed(pixel);
            sum.g += qGreen(pixel);
            sum.b += qBlue(pixel);
            sum.n += 1;
        }
    }
    std::vector<Sample> samples;
    for (const auto& [bin, sum] : bins) {
        const double scale = 255 * sum.n;
        samples.push_back(
            {colour::labFromSrgb(sum.r / scale, sum.g / scale, sum.b / scale), sum.n});
    }
    return samples;
}

/// The heaviest sample first, then ever the one that most lies far from those taken: its weight
/// counts by its root, so that a small red boat on a wide sea is found.
std::vector<colour::Lab> spreadStart(const std::vector<Sample>& samples, std::size_t count) {
    std::vector<colour::Lab> centres{std::ranges::max_element(samples, {}, &Sample::weight)->lab};
    while (centres.size() < std::min(count, samples.size())) {
        const auto score = [&](const Sample& sample) {
            double least = distance(sample.lab, centres.front());
            for (const colour::Lab& centre : centres) {
                least = std::min(least, distance(sample.lab, centre));
            }
            return least * std::sqrt(sample.weight);
        };
        const auto best = std::ranges::max_element(samples, {}, score);
        if (score(*best) <= 0) {
            break;
        }
        centres.push_back(best->lab);
    }
    return centres;
}

std::size_t nearestOf(const std::vector<colour::Lab>& centres, const colour::Lab& lab) {
    const auto nearest = std::ranges::min_element(
        centres, {}, [&](const colour::Lab& centre) { return distance(centre, lab); });
    return static_cast<std::size_t>(nearest - centres.begin());
}

std::vector<MainColour> settled(const std::vector<Sample>& samples,
                                std::vector<colour::Lab> centres) {
    std::vector<MainColour> clusters;
    for (int round = 0; round < kRounds; ++round) {
        clusters.assign(centres.size(), {});
        for (const Sample& sample : samples) {
            MainColour& cluster = clusters[nearestOf(centres, sample.lab)];
            cluster.lab.L += sample.weight * sample.lab.L;
            cluster.lab.a += sample.weight * sample.lab.a;
            cluster.lab.b += sample.weight * sample.lab.b;
            cluster.share += sample.weight;
        }
        const std::vector<colour::Lab> before = centres;
        for (std::size_t i = 0; i < clusters.size(); ++i) {
            const double n = clusters[i].share;
            if (n > 0) {
                clusters[i].lab = {clusters[i].lab.L / n, clusters[i].lab.a / n,
                                   clusters[i].lab.b / n};
                centres[i] = clusters[i].lab;
            }
        }
        if (centres == before) {
            break;
        }
    }
    std::erase_if(clusters, [](const MainColour& cluster) { return cluster.share <= 0; });
    return clusters;
}

void joinAlike(std::vector<MainColour>& clusters) {
    for (std::size_t i = 0; i < clusters.size(); ++i) {
        for (std::size_t j = clusters.size() - 1; j > i; --j) {
            MainColour& one = clusters[i];
            const MainColour& other = clusters[j];
            if (colour::deltaE00(one.lab, other.lab) < kOneColour) {
                const double n = one.share + other.share;
                const double p = one.share / n;
                const double q = other.share / n;
                one.lab = {p * one.lab.L + q * other.lab.L, p * one.lab.a + q * other.lab.a,
                           p * one.lab.b + q * other.lab.b};
                one.share = n;
                clusters.erase(clusters.begin() + static_cast<std::ptrdiff_t>(j));
            }
        }
    }
}

} // namespace

std::vector<MainColour> mainColours(const QImage& picture, std::size_t count) {
    const std::vector<Sample> samples = samplesOf(picture);
    if (samples.empty() || count == 0) {
        return {};
    }
    std::vector<MainColour> clusters = settled(samples, spreadStart(samples, count));
    joinAlike(clusters);
    double all = 0;
    for (const MainColour& cluster : clusters) {
        all += cluster.share;
    }
    for (MainColour& cluster : clusters) {
        cluster.share /= all;
    }
    std::ranges::stable_sort(clusters, std::greater<>{}, &MainColour::share);
    return clusters;
}

} // namespace otherskein::colourway
