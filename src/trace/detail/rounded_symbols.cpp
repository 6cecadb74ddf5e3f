#include "trace/detail/rounded_symbols.h"

#include <algorithm>

namespace otherskein::trace::detail {

namespace {

constexpr double kNeverRounded = 1e9;
constexpr double kRoundedEdge = 0.3; // px, of what is anywhere within half a pixel
constexpr double kRoundedRest = 6;
constexpr double kRoundedMoved = 150;
constexpr double kRival = 1.5;            // times as unlike as the likest
constexpr std::size_t kShownBy = 6;       // members that show what a rival is
constexpr std::size_t kMostUnproven = 24; // members of a group that may join unproven

} // namespace

RoundedSymbols::RoundedSymbols(const std::vector<Group>& groups, const std::vector<cv::Mat>& means,
                               const Pictures& pictures, const PrintNoise& noise)
    : m_groups(groups), m_means(means), m_side(pictures.side), m_noise(noise), m_meetings(pictures),
      m_likenesses(groups.size()) {
    m_noise.edge = std::max(m_noise.edge, kRoundedEdge);
}

void RoundedSymbols::forget(std::size_t group) {
    m_likenesses[group] = {};
}

double RoundedSymbols::apart(std::size_t a, std::size_t b) {
    if (!m_noise.isDrawn) {
        return kNeverRounded;
    }
    if (m_groups[a].members.size() < m_groups[b].members.size()) {
        std::swap(a, b);
    }
    const std::size_t level = m_groups[b].members.size() < kShownBy ? 0 : 1;
    auto& likeness = m_likenesses[a][level];
    if (!likeness) {
        likeness.emplace(m_means[a], m_side, m_noise, level == 0 ? 0.4 : 0.1);
    }
    const Unlikeness step = likeness->unlikeness(m_means[b])[0];
    return std::max(step.rest / kRoundedRest, step.moved / kRoundedMoved);
}

bool RoundedSymbols::areOne(std::size_t a, std::size_t b, double apart, Proof proof) {
    if (apart > 1) {
        return false;
    }
    const PhaseMeetings::Count met = m_meetings.countOf(m_groups[a], m_groups[b]);
    if (proof == Proof::shown ? !met.isByPhase() : !met.mayBeByPhase()) {
        return false;
    }
    const double between = cv::norm(m_means[a], m_means[b], cv::NORM_L2SQR);
    for (std::size_t k = 0; k < m_groups.size(); ++k) {
        if (k == a || k == b || m_groups[k].members.size() < kShownBy) {
            continue;
        }
        for (const auto& [one, other] : {std::pair(a, b), std::pair(b, a)}) {
            if (cv::norm(m_means[one], m_means[k], cv::NORM_L2SQR) < 4 * between &&
                this->apart(one, k) < std::max(kRival * apart, 0.3) &&
                m_meetings.countOf(m_groups[other], m_groups[k]).isByDesign()) {
                return false;
            }
        }
    }
    return true;
}

std::vector<Group> joinedUnproven(std::vector<Group> groups, const Pictures& pictures,
                                  const PrintNoise& noise, std::vector<int>& unproven) {
    std::vector<cv::Mat> means;
    for (const Group& one : groups) {
        means.push_back(meanOf(one.members, pictures.rows));
    }
    RoundedSymbols symbols(groups, means, pictures, noise);
    struct Pair {
        double apart;
        std::size_t large;
        std::size_t small;
    };
    while (true) {
        std::vector<Pair> pairs;
        for (std::size_t a = 0; a < groups.size(); ++a) {
            for (std::size_t b = 0; b < groups.size(); ++b) {
                if (a == b || groups[b].members.empty() ||
                    groups[b].members.size() > kMostUnproven ||
                    std::pair(groups[a].members.size(), a) <
                        std::pair(groups[b].members.size(), b)) {
                    continue;
                }
                if (const double apart = symbols.apart(a, b); apart <= 1) {
                    pairs.push_back({apart, a, b});
                }
            }
        }
        std::ranges::sort(pairs, {}, &Pair::apart);
        const auto best = std::ranges::find_if(pairs, [&](const Pair& one) {
            return symbols.areOne(one.large, one.small, one.apart, RoundedSymbols::Proof::open);
        });
        if (best == pairs.end()) {
            break;
        }
        std::vector<int>& from = groups[best->small].members;
        std::vector<int>& to = groups[best->large].members;
        unproven.insert(unproven.end(), from.begin(), from.end());
        to.insert(to.end(), from.begin(), from.end());
        from.clear();
        means[best->large] = meanOf(to, pictures.rows);
        symbols.forget(best->large);
    }
    std::erase_if(groups, [](const Group& one) { return one.members.empty(); });
    return groups;
}

} // namespace otherskein::trace::detail
