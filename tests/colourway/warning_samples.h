#pragma once

#include "colour/mixing.h"
#include "colourway/substitute_warnings.h"
#include "samples.h"

#include <algorithm>
#include <span>
#include <string>
#include <vector>

namespace otherskein::colourway {

inline Candidate candidateOf(thread::Thread thread) {
    Candidate candidate;
    candidate.lab = thread.lab;
    candidate.portions = {{pooledOf("card", std::move(thread)), 2}};
    return candidate;
}

inline Candidate blendOf(thread::Thread one, int strandsOfOne, thread::Thread other,
                         int strandsOfOther) {
    Candidate candidate;
    const std::vector<colour::Share> shares{{one.lab, double(strandsOfOne)},
                                            {other.lab, double(strandsOfOther)}};
    candidate.lab = colour::mixed(shares);
    candidate.portions = {{pooledOf("card", std::move(one)), strandsOfOne},
                          {pooledOf("card", std::move(other)), strandsOfOther}};
    return candidate;
}

/// What the candidate is warned of, in order: "metallic out-of-stock"; empty for nothing.
inline std::string warned(Candidate candidate, const SubstituteQuestion& question) {
    static const std::vector<std::string> kNames{"close-in-key",  "already-in-key", "out-of-order",
                                                 "other-fibre",   "other-finish",   "metallic",
                                                 "variegated",    "other-strands",  "speckled",
                                                 "within-spread", "out-of-stock",   "discontinued"};
    candidate.de00 = colour::deltaE00(question.wanted.lab, candidate.lab, question.weights);
    std::string all;
    for (const Warning& warning : warningsFor(candidate, question)) {
        all += (all.empty() ? "" : " ") + kNames.at(static_cast<std::size_t>(warning.kind));
        if (warning.text.isEmpty()) {
            all += "-without-text";
        }
    }
    return all;
}

inline chart::KeyRow keyRow(const char* card, const char* code, const colour::Lab& lab) {
    chart::KeyRow row;
    row.card = QString::fromLatin1(card);
    row.code = QString::fromLatin1(code);
    row.lab = lab;
    return row;
}

} // namespace otherskein::colourway
