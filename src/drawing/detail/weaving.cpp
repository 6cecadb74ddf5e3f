#include "drawing/detail/weaving.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>

namespace otherskein::drawing {

int repeatOf(const Cloth& cloth) {
    switch (cloth.weave) {
    case thread::Weave::Linen:
        return 8;
    case thread::Weave::Block:
        return 1;
    case thread::Weave::Even:
        break;
    }
    return cloth.over == 1 ? 2 : 1;
}

} // namespace otherskein::drawing

namespace otherskein::drawing::detail {

namespace {

constexpr float kTurn = 2 * std::numbers::pi_v<float>;
constexpr float kLift = 0.16F;
constexpr float kEvenHalf = 0.46F;
constexpr int kBlockThreads = 4; ///< of a bundle

/// What a thread is at a place along it.
struct At {
    float middle;
    float half;
    float lift;
    float tone;
};

FabricThread sampled(int texels, int threads, const std::function<At(float)>& at) {
    FabricThread thread;
    for (int i = 0; i < texels; ++i) {
        const At here = at((static_cast<float>(i) + 0.5F) * static_cast<float>(threads) /
                           static_cast<float>(texels));
        thread.middle.push_back(here.middle);
        thread.half.push_back(here.half);
        thread.lift.push_back(here.lift);
        thread.tone.push_back(here.tone);
    }
    return thread;
}

/// Over one, under the next, and the next thread the other way round.
float plainLift(int number, bool isWarp, float along) {
    const float odd = (number % 2 == 0) == isWarp ? 1 : -1;
    return kLift * odd * std::sin(kTurn / 2 * along);
}

FabricThread evenThread(const Weaving& weaving, int number, bool isWarp) {
    return sampled(weaving.texels, weaving.threads, [=](float along) {
        return At{static_cast<float>(number) + 0.5F, kEvenHalf, plainLift(number, isWarp, along),
                  1};
    });
}

/// A thick or a thin place.
struct Slub {
    float at;
    float length;
    float more; ///< half width
};

/// The same numbers on every machine, unlike those of <random>'s distributions.
class Chances {
  public:
    explicit Chances(unsigned seed) : m_random(seed) {}
    float between(float least, float most) {
        return least + (most - least) * static_cast<float>(m_random() % 4096) / 4095;
    }

  private:
    std::mt19937 m_random;
};

/// Hand-spun look: no two threads alike, thick and thin places that run over several cells, and
/// a slight wandering. Many mild slubs, none of which stands out where the patch begins anew.
FabricThread linenThread(const Weaving& weaving, int number, bool isWarp, Chances& chances) {
    const auto around = static_cast<float>(weaving.threads);
    const float base = chances.between(0.375F, 0.445F);
    const float shift = chances.between(-0.055F, 0.055F);
    const float tone = chances.between(0.965F, 1.035F);
    const float waver = chances.between(0, 1);
    const float wander = chances.between(0, 1);
    std::vector<Slub> slubs;
    for (int i = 0; i < 2; ++i) {
        const bool isThick = chances.between(0, 1) < 0.6F;
        const float at = chances.between(0, around);
        const float length = chances.between(0.8F, 2.6F);
        slubs.push_back(
            {at, length,
             isThick ? chances.between(0.05F, 0.15F) : chances.between(-0.11F, -0.05F)});
    }
    return sampled(weaving.texels, weaving.threads, [=](float along) {
        float half = base + 0.022F * std::sin(kTurn * (2 * along / around + waver)) +
                     0.012F * std::sin(kTurn * (5 * along / around + 3 * waver));
        float slub = 0;
        for (const Slub& one : slubs) {
            float off = std::abs(along - one.at);
            off = std::min(off, around - off) / one.length;
            slub += one.more * std::exp(-off * off);
        }
        half = std::max(0.27F, half + slub);
        return At{static_cast<float>(number) + 0.5F + shift +
                      0.035F * std::sin(kTurn * (along / around + wander)),
                  half, plainLift(number, isWarp, along), tone + 0.22F * slub};
    });
}

/// Fine threads in pairs, over two and under two; the bundle is drawn together at its corners and
/// leaves holes there.
FabricThread blockThread(const Weaving& weaving, int number, bool isWarp) {
    return sampled(weaving.texels, weaving.threads, [=](float along) {
        const float turn = kTurn * along / kBlockThreads; // once around in a block
        const float spread = 0.395F + 0.085F * (0.5F - 0.5F * std::cos(turn));
        const float place = (static_cast<float>(number) + 0.5F) / kBlockThreads * 2 - 1;
        const float side = (number < kBlockThreads / 2) == isWarp ? 1 : -1;
        return At{kBlockThreads * (0.5F + spread * place), spread * 0.98F,
                  0.34F * side * std::clamp(1.5F * std::sin(turn), -1.0F, 1.0F), 1};
    });
}

} // namespace

Weaving weavingOf(const Cloth& cloth, int texels) {
    Weaving weaving;
    weaving.texels = texels;
    const bool isBlock = cloth.weave == thread::Weave::Block;
    weaving.threads = repeatOf(cloth) * (isBlock ? kBlockThreads : cloth.over == 1 ? 1 : 2);
    if (isBlock) {
        weaving.hole = 0.5F; // the rest is the needle's hole
        weaving.needle = 0.085F;
    }
    Chances chances(11);
    for (const bool isWarp : {true, false}) {
        for (int i = 0; i < weaving.threads; ++i) {
            (isWarp ? weaving.warp : weaving.weft)
                .push_back(isBlock ? blockThread(weaving, i, isWarp)
                           : cloth.weave == thread::Weave::Linen
                               ? linenThread(weaving, i, isWarp, chances)
                               : evenThread(weaving, i, isWarp));
        }
    }
    return weaving;
}

} // namespace otherskein::drawing::detail
