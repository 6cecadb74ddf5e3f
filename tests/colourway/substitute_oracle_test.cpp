// The ranked list against every thread and every pair, asked and sorted plainly.
#include "colourway/substitute.h"

#include "colour/mixing.h"
#include "samples.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <tuple>

using namespace otherskein;
using namespace otherskein::colourway;

namespace {

constexpr unsigned kSubstituteSeed = 20240307;

struct Plain {
    double de00;
    std::vector<std::pair<QString, QString>> threads; ///< card and code
    int strands;                                      ///< of the first

    auto operator<=>(const Plain&) const = default;
};

std::vector<Plain> everyCandidate(const SubstituteQuestion& question,
                                  const std::vector<thread::ShadeCard>& cards) {
    std::vector<thread::PooledThread> threads;
    for (const thread::ShadeCard& card : cards) {
        for (const thread::PooledThread& one : thread::pooled(card)) {
            if (one.card != question.wanted.card || one.thread.code != question.wanted.code) {
                threads.push_back(one);
            }
        }
    }
    const auto named = [](const thread::PooledThread& one) {
        return std::pair(one.card, one.thread.code);
    };
    std::vector<Plain> singles;
    std::vector<Plain> blends;
    for (const auto& one : threads) {
        singles.push_back({colour::deltaE00(question.wanted.lab, one.thread.lab, question.weights),
                           {named(one)},
                           0});
        for (const auto& other : threads) {
            for (int q = 1; question.blends && q <= question.strands / 2; ++q) {
                const int p = question.strands - q;
                if (named(one) == named(other) || (p == q && named(other) < named(one))) {
                    continue;
                }
                if (question.calmBlends &&
                    colour::deltaE00(one.thread.lab, other.thread.lab) > 12) {
                    continue;
                }
                const auto mix = colour::labFromXyz(colour::mixedXyz(one.xyz, p, other.xyz, q));
                blends.push_back({colour::deltaE00(question.wanted.lab, mix, question.weights),
                                  {named(one), named(other)},
                                  p});
            }
        }
    }
    std::ranges::sort(blends);
    blends.resize(std::min(blends.size(), question.mostBlends));
    std::vector<Plain> all = std::move(singles);
    all.insert(all.end(), blends.begin(), blends.end());
    std::ranges::sort(all);
    all.resize(std::min(all.size(), question.limit));
    return all;
}

} // namespace

TEST_CASE("the ranked list is that of asking every thread and every pair") {
    CAPTURE(kSubstituteSeed);
    std::mt19937 engine(kSubstituteSeed);
    const auto whole = [&engine](int least, int most) {
        return std::uniform_int_distribution<int>(least, most)(engine);
    };
    int blends = 0;
    for (int round = 0; round < 400; ++round) {
        std::vector<thread::ShadeCard> cards;
        for (const char* name : {"b", "a", "c"}) {
            cards.push_back(cardOf(name, {}));
            for (int i = whole(0, 12); i > 0; --i) {
                // By turns few colours, so that exact ties are common, and all kinds.
                colour::Lab lab{20.0 * whole(1, 4), 15.0 * whole(-1, 1), 15.0 * whole(-1, 1)};
                if (round % 3 == 1) {
                    lab = {whole(2000, 8000) / 100.0, whole(-300, 300) / 10.0,
                           whole(-300, 300) / 10.0};
                }
                cards.back().threads.push_back(threadOf(QByteArray::number(i).constData(), lab));
            }
        }
        SubstituteQuestion question = questionOf({30.0 + whole(0, 40), 5, -5});
        if (!cards[0].threads.empty() && round % 2 == 0) {
            question = questionOf("b", cards[0].threads[0]);
        }
        question.blends = round % 4 != 3;
        question.strands = whole(1, 6);
        question.limit = static_cast<std::size_t>(whole(0, 40));
        question.calmBlends = round % 5 == 0;
        if (round % 7 == 0) {
            question.mostBlends = static_cast<std::size_t>(whole(0, 10));
        }
        question.weights = round % 3 == 0 ? colour::kTextileWeights : colour::kReferenceWeights;
        const auto found = findSubstitutes(question, *poolOf(cards, {}));
        const auto expected = everyCandidate(question, cards);
        CAPTURE(round, question.strands, question.limit, listed(found));
        REQUIRE(found.size() == expected.size());
        for (std::size_t i = 0; i < found.size(); ++i) {
            CAPTURE(i);
            Plain plain{found[i].de00, {}, found[i].isBlend() ? found[i].portions[0].strands : 0};
            for (const auto& portion : found[i].portions) {
                plain.threads.emplace_back(portion.thread.card, portion.thread.thread.code);
            }
            REQUIRE((plain == expected[i]));
            blends += found[i].isBlend() ? 1 : 0;
        }
    }
    CHECK(blends > 1000);
}
