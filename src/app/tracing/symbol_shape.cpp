#include "app/tracing/symbol_shape.h"

#include <algorithm>
#include <tuple>

namespace otherskein::app {

namespace {

constexpr int kSide = SymbolShape::kSide;
using Ink = decltype(SymbolShape::ink);

std::size_t at(int column, int row) {
    return static_cast<std::size_t>(row) * kSide + static_cast<std::size_t>(column);
}

/// The ink as it would lie that many pixels further right and down, less its mean: what two prints
/// have in common is where their ink is, not that they have some.
Ink centred(const Ink& ink, int right, int down) {
    Ink moved{};
    float sum = 0;
    for (int row = std::max(0, down); row < std::min(kSide, kSide + down); ++row) {
        for (int column = std::max(0, right); column < std::min(kSide, kSide + right); ++column) {
            moved[at(column, row)] = ink[at(column - right, row - down)];
            sum += moved[at(column, row)];
        }
    }
    for (float& value : moved) {
        value -= sum / static_cast<float>(moved.size());
    }
    return moved;
}

/// The share of both that they do not have in common.
double apart(const Ink& one, const Ink& other) {
    double differs = 0;
    double all = 0;
    for (std::size_t i = 0; i < one.size(); ++i) {
        const double a = one[i];
        const double b = other[i];
        differs += (a - b) * (a - b);
        all += a * a + b * b;
    }
    return all == 0 ? 0 : differs / all;
}

} // namespace

SymbolShape::SymbolShape(const PagePicture::Glance& glance) {
    // Most of a cell is paper or fill; ink is darker, and specks and glare are few.
    constexpr std::size_t kPaper = std::tuple_size_v<Ink> * 4 / 5;
    constexpr float kWhite = 255;
    constexpr float kLeast = 0.12F;   // darker is no paper in whatever light
    constexpr float kLeastInk = 0.2F; // of the paper's light: weaker is noise
    for (std::size_t channel = 0; channel < paper.size(); ++channel) {
        Ink light{};
        for (std::size_t i = 0; i < light.size(); ++i) {
            light[i] = glance[3 * i + channel] / kWhite;
        }
        std::ranges::nth_element(light, light.begin() + kPaper);
        paper[channel] = light[kPaper];
    }
    for (std::size_t i = 0; i < ink.size(); ++i) {
        float left = 0;
        for (std::size_t channel = 0; channel < paper.size(); ++channel) {
            left +=
                std::min(1.0F, glance[3 * i + channel] / kWhite / std::max(kLeast, paper[channel]));
        }
        ink[i] = 1 - left / static_cast<float>(paper.size());
    }
    const float most = *std::ranges::max_element(ink);
    hasInk = most > kLeastInk;
    if (hasInk) {
        for (float& value : ink) {
            value /= most;
        }
    }
}

double unlikeness(const SymbolShape& one, const SymbolShape& other) {
    double colour = 0;
    for (std::size_t channel = 0; channel < one.paper.size(); ++channel) {
        const double less = double{one.paper[channel]} - double{other.paper[channel]};
        colour += less * less;
    }
    constexpr double kPlain = 20; // a tenth of the light in each channel tells plain colours
    if (!one.hasInk && !other.hasInk) {
        return std::min(1.0, kPlain * colour);
    }
    if (one.hasInk != other.hasInk) {
        return 1;
    }
    const Ink ink = centred(one.ink, 0, 0);
    double least = 1;
    constexpr int kAway = 2; // a hand draws a symbol anywhere in its cell
    for (int down = -kAway; down <= kAway; ++down) {
        for (int right = -kAway; right <= kAway; ++right) {
            least = std::min(least, apart(ink, centred(other.ink, right, down)));
        }
    }
    constexpr double kPaperToo = 0.3; // of two that are as like, the one on the same paper
    return least + kPaperToo * colour;
}

} // namespace otherskein::app
