#pragma once

#include "colourway/substitute.h"

#include <QStringList>

namespace otherskein::app {

/// All that the Substitute place knows and shows; the widgets are made from it.
struct SubstituteState {
    colourway::SubstituteQuestion question;
    colourway::PoolFilter filter;
    QStringList cardsLeftOut; ///< names of cards that are not looked among

    SubstituteState() {
        question.order = colourway::Order::StashFirst;
        question.limit = 20;
        question.blends = true;
        question.calmBlends = true;
        question.mostBlends = 5;
    }
    bool operator==(const SubstituteState&) const = default;
};

/// What was found for a state.
struct SubstituteAnswer {
    SubstituteState state;
    std::vector<colourway::Candidate> candidates;
    std::size_t threadsLookedAt = 0;
    double milliseconds = 0;
};

} // namespace otherskein::app
