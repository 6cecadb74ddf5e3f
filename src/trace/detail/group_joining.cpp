#include "trace/detail/group_joining.h"

#include "trace/detail/group_frontiers.h"
#include "trace/detail/placing.h"
#include "trace/detail/plain_colours.h"
#include "trace/detail/rounded_symbols.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>

namespace otherskein::trace::detail {

namespace {

constexpr double kRest = 4.5; // that two means of one symbol may differ by at most
constexpr double kMoved = 90; // or by this
constexpr double kNever = 1e9;
constexpr double kMostMoved = 12 * kMoved; // of halves of one cloud, by a drift of light
constexpr double kBridge = 0.12;
constexpr std::size_t kMany = 6; // members, from which a group's mean is well known
constexpr std::size_t kNeighbours = 8;
constexpr std::size_t kFrontier = 8; // cells of each group where two meet
constexpr double kSurely = 0.3;      // as unlike as two may be without a look at single cells
constexpr double kTold = 0.9;        // of these that are on the side of their own
constexpr double kFrontierReach = 6; // times too unlike as a whole to look there
constexpr std::size_t kKinds = 20;   // cells of each group that show whether it is another kind
constexpr double kOneCell = 0.99; // of a single cell's noise; coloured lines are explained below 1
constexpr double kMostRest = 4;   // times kRest, where no mark makes them differ
constexpr double kMark = 0.07;    // of a symbol's contrast: less is no mark
constexpr double kLeastContrast = 60; // grey levels, of symbols that this is asked of
constexpr double kByPhase = 0.85;     // phaseParting of what phase alone makes two

// Paper that bends, or a hand, moves a symbol and shears it by a part of that.
constexpr double kFarMoved = 0.7;      // px
constexpr std::size_t kFewMoved = 3;   // members; fewer may be strays, see withoutStrays
constexpr double kMovedEdge = 0.67;    // of the usual step
constexpr double kMostMovedEdge = 0.6; // px

double sumOf(const Unlikeness& one) {
    return one.rest / kRest + one.moved / kMoved;
}

/// How many times as unlike as others two groups may be and still be one symbol: where both occur
/// at all phases, at some, at none in common.
struct Room {
    double rest;
    double moved;
};
constexpr Room kWithin{0.85, 1};
constexpr Room kBetween{2.5, 3};
constexpr Room kApart{4, 3};

/// Grey levels between the darkest and the lightest place away from the rim, where lines reach in.
double contrastOf(const cv::Mat& mean, int side) {
    const cv::Mat light(side, side, CV_32F, const_cast<float*>(mean.ptr<float>()));
    const int rim = side / 5;
    double darkest = 0;
    double lightest = 0;
    cv::minMaxLoc(light({rim, rim, side - 2 * rim, side - 2 * rim}), &darkest, &lightest);
    return lightest - darkest;
}

/// The most that is left anywhere, over about an eighth of a cell each way, when all that may vary
/// is taken out.
double strongestRest(const Likeness& from, const cv::Mat& mean, int side) {
    cv::Mat rest = from.rests(mean);
    const cv::Mat light(side, side, CV_32F, rest.ptr<float>());
    cv::Mat soft;
    const int over = side / 16 * 2 + 1;
    cv::blur(light, soft, {over, over});
    return cv::norm(soft, cv::NORM_INF);
}

Room roomFor(const Group& one, const Group& other, const std::vector<cv::Point2f>& phases) {
    if (std::min(one.members.size(), other.members.size()) < 2) {
        return kWithin;
    }
    const double parting = phaseParting(one, other, phases);
    return parting > 0.8 ? kApart : parting > 0.4 ? kBetween : kWithin;
}

} // namespace

std::vector<Group> joinedGroups(std::vector<Group> groups, const cv::Mat& places,
                                Pictures& pictures, const PrintNoise& noise, int& joinedByPhase,
                                bool mayMove) {
    const std::vector<cv::Point2f>& phases = noise.isDrawn ? pictures.finePhases : pictures.phases;
    std::vector<cv::Mat> means;
    for (const Group& one : groups) {
        means.push_back(meanOf(one.members, pictures.rows));
    }
    std::map<std::pair<std::size_t, std::size_t>, double> known;
    // By how many cells the lesser known of a pair has; made when first asked for.
    constexpr std::array<double, 3> kShares{1.2, 0.4, 0.1};
    // Two rows: for what lies at the same place, and for what has moved.
    std::vector<std::array<std::array<std::optional<Likeness>, 3>, 2>> likenesses(groups.size());
    PrintNoise movedNoise = noise;
    movedNoise.edge = std::hypot(noise.edge, std::min(kMovedEdge * noise.step, kMostMovedEdge));
    /// By how much the second is to be moved to lie on the first.
    const auto stepFor = [&](std::size_t a, std::size_t b) {
        const cv::Point2f step =
            mayMove ? stepOnto(means[a], means[b], pictures.side, noise) : cv::Point2f();
        return cv::norm(step) > kFarMoved ? step : cv::Point2f();
    };
    const auto movedMean = [&](std::size_t a, cv::Point2f by, std::size_t onto) {
        return isStep(by) ? stepped(means[a], pictures.side, by, means[onto]) : means[a];
    };
    const auto unlike = [&](std::size_t a, std::size_t b) {
        // Seen from the better known of the two; from both where both are well known.
        if (groups[a].members.size() < groups[b].members.size()) {
            std::swap(a, b);
        }
        const std::size_t fewest = groups[b].members.size();
        const std::size_t level = fewest <= 2 ? 0 : fewest < kMany ? 1 : 2;
        const cv::Point2f step = stepFor(a, b);
        const auto from = [&](std::size_t one, std::size_t other, cv::Point2f by) {
            const bool hasMoved = isStep(by);
            auto& likeness = likenesses[one][hasMoved ? 1 : 0][level];
            if (!likeness) {
                likeness.emplace(means[one], pictures.side, hasMoved ? movedNoise : noise,
                                 kShares[level]);
            }
            const Unlikeness found = likeness->unlikeness(movedMean(other, by, one))[0];
            return Unlikeness{found.rest, found.moved + movedBy(by, noise), found.ofTint};
        };
        const Unlikeness there = from(a, b, step);
        if (fewest < kMany) {
            return there;
        }
        const Unlikeness back = from(b, a, -step);
        return sumOf(back) > sumOf(there) ? back : there;
    };
    /// Whether no mark is in one that is not in the other. A sharp picture's edges leave more than
    /// noise when they are moved or blurred; but spread along the edges, and weak beside the
    /// symbol, while a dot or a bar of its own is as dark as the symbol is.
    const auto differByNoMark = [&](std::size_t a, std::size_t b) {
        const double contrast =
            std::min(contrastOf(means[a], pictures.side), contrastOf(means[b], pictures.side));
        const cv::Point2f step = stepFor(a, b);
        const auto rest = [&](std::size_t one, std::size_t other, cv::Point2f by) {
            return strongestRest(Likeness(means[one], pictures.side, noise, kShares[2]),
                                 movedMean(other, by, one), pictures.side);
        };
        return contrast > kLeastContrast &&
               std::max(rest(a, b, step), rest(b, a, -step)) < kMark * contrast;
    };
    /// Up to 1 for two that may be one.
    const auto apart = [&](std::size_t a, std::size_t b) {
        const Unlikeness step = unlike(a, b);
        const std::size_t fewest = std::min(groups[a].members.size(), groups[b].members.size());
        const bool mayBeCut = (sumOf(step) < 2 || step.rest < kRest * kWithin.rest) &&
                              step.moved < kMostMoved && sumOf(step) > kWithin.rest &&
                              fewest >= kMany;
        if (mayBeCut &&
            bridgeOf(groups[a], groups[b], means[a], means[b], pictures.rows) > kBridge) {
            return 0.9;
        }
        // Light, focus and a page's curl change a symbol little by little: where two groups of it
        // meet they are alike.
        if (fewest >= kMany && sumOf(step) > kWithin.rest && sumOf(step) < kFrontierReach) {
            const Frontier frontier = frontierOf(groups[a], groups[b], pictures.places, kFrontier);
            if (std::min(frontier.one.size(), frontier.other.size()) >= kMany) {
                const Sides sides = sidesOf(frontier, pictures, stepFor(a, b));
                const cv::Mat here = meanOfAll(sides[0]);
                const cv::Mat there = meanOfAll(sides[1]);
                const double share = 1.0 / static_cast<double>(frontier.one.size()) +
                                     1.0 / static_cast<double>(frontier.other.size());
                const Unlikeness forth =
                    Likeness(here, pictures.side, noise, share).unlikeness(there)[0];
                const Unlikeness back =
                    Likeness(there, pictures.side, noise, share).unlikeness(here)[0];
                const Unlikeness most = sumOf(back) > sumOf(forth) ? back : forth;
                const double sum =
                    most.rest / (kRest * kWithin.rest) + most.moved / (kMoved * kWithin.moved);
                // Little noise is needed for two that differ little to pass: ask the cells one by
                // one.
                if (sum < kSurely ||
                    (sum < 1 && toldApart(sides, Likeness((here + there) / 2, pictures.side, noise,
                                                          kOneCell)) < kTold)) {
                    return sum;
                }
            }
        }
        if (!noise.isDrawn && step.moved < kMoved && step.rest < kRest * kMostRest &&
            step.ofTint < kRest && differByNoMark(a, b)) {
            return 0.95 + 0.01 * sumOf(step) / (1 + kMostRest); // last: others are surer
        }
        if (step.moved > kMoved * kApart.moved || step.rest > kRest * kApart.rest) {
            return kNever;
        }
        const Room room = roomFor(groups[a], groups[b], phases);
        return step.rest / (kRest * room.rest) + step.moved / (kMoved * room.moved);
    };
    RoundedSymbols rounded(groups, means, pictures, noise);
    std::set<std::pair<std::size_t, std::size_t>> byPhase;
    /// The same, but for two that are alike and yet two kinds, and for two that phase alone makes.
    const auto far = [&](std::size_t a, std::size_t b) {
        if (noise.isDrawn && areOneColour(means[a], means[b], pictures.side)) {
            return 0.3;
        }
        const double sum = apart(a, b);
        if (sum <= 1) {
            if (std::min(groups[a].members.size(), groups[b].members.size()) < kKinds ||
                phaseParting(groups[a], groups[b], phases) > kByPhase) {
                return sum;
            }
            const Frontier frontier = frontierOf(groups[a], groups[b], pictures.places, kKinds);
            const cv::Point2f step = stepFor(a, b);
            if (!areTwoKinds(sidesOf(frontier, pictures, step),
                             Likeness((means[a] + movedMean(b, step, a)) / 2, pictures.side, noise,
                                      kOneCell))) {
                return sum;
            }
        }
        const double step = rounded.apart(a, b);
        if (!rounded.areOne(a, b, step, RoundedSymbols::Proof::shown)) {
            return kNever;
        }
        byPhase.insert(std::minmax(a, b));
        return 0.5 + step / 2;
    };
    std::vector<cv::Mat> withoutPlace(groups.size());
    const auto placelessOf = [&](std::size_t i) {
        if (withoutPlace[i].empty()) {
            withoutPlace[i] = placeless(means[i], pictures.side);
        }
        return withoutPlace[i];
    };
    // Two that lie alike and yet are two stay two, whatever joins them.
    std::set<std::pair<std::size_t, std::size_t>> apartInPlace;
    const auto ask = [&](std::size_t i, bool isFirst) {
        std::vector<std::pair<double, std::size_t>> near;
        for (std::size_t k = 0; k < groups.size(); ++k) {
            if (k != i && !groups[k].members.empty()) {
                near.emplace_back(cv::norm(groups[k].mean, groups[i].mean, cv::NORM_L2SQR), k);
            }
        }
        const auto askNearest = [&] {
            const std::size_t kept = std::min(kNeighbours, near.size());
            std::ranges::partial_sort(near, near.begin() + static_cast<std::ptrdiff_t>(kept));
            for (std::size_t k = 0; k < kept; ++k) {
                const auto pair = std::minmax(i, near[k].second);
                if (known.contains(pair) || apartInPlace.contains(pair)) {
                    continue;
                }
                // What lies alike has been asked before.
                const std::size_t fewest =
                    std::min(groups[i].members.size(), groups[near[k].second].members.size());
                const bool isKnown = mayMove && isFirst && !isStep(stepFor(i, near[k].second));
                const bool mayBeStrays = mayMove && fewest < kFewMoved;
                known[pair] = isKnown || mayBeStrays ? kNever : far(i, near[k].second);
                if (isKnown && fewest >= kMany) {
                    apartInPlace.insert(pair);
                }
            }
        };
        askNearest();
        if (mayMove) { // and those that are nearest when moved
            for (auto& [distance, k] : near) {
                distance = cv::norm(placelessOf(i), placelessOf(k), cv::NORM_L2SQR);
            }
            askNearest();
        }
    };
    for (std::size_t i = 0; i < groups.size(); ++i) {
        ask(i, true);
    }
    while (true) {
        const auto best =
            std::ranges::min_element(known, {}, [](const auto& one) { return one.second; });
        if (best == known.end() || best->second > 1) {
            break;
        }
        const auto [a, b] = best->first;
        // The lesser known moves onto the other.
        const bool isFirstLess = groups[a].members.size() < groups[b].members.size();
        const cv::Point2f step = isFirstLess ? stepFor(b, a) : stepFor(a, b);
        if (isStep(step)) {
            movePictures(groups[isFirstLess ? a : b].members, step, pictures);
        }
        groups[a].members.insert(groups[a].members.end(), groups[b].members.begin(),
                                 groups[b].members.end());
        groups[b].members.clear();
        if (isStep(step)) {
            placeMembers(groups[a], pictures, noise);
        }
        std::set<std::pair<std::size_t, std::size_t>> stillApart;
        for (auto [one, other] : apartInPlace) {
            one = one == b ? a : one;
            other = other == b ? a : other;
            stillApart.insert(std::minmax(one, other));
        }
        apartInPlace = std::move(stillApart);
        settle(groups[a], places);
        means[a] = meanOf(groups[a].members, pictures.rows);
        likenesses[a] = {};
        withoutPlace[a].release();
        rounded.forget(a);
        joinedByPhase += byPhase.contains({a, b}) ? 1 : 0;
        std::erase_if(byPhase, [a = a, b = b](const auto& one) {
            return one.first == a || one.second == a || one.first == b || one.second == b;
        });
        std::erase_if(known, [a = a, b = b](const auto& one) {
            return one.first.first == a || one.first.second == a || one.first.first == b ||
                   one.first.second == b;
        });
        ask(a, false);
    }
    std::erase_if(groups, [](const Group& one) { return one.members.empty(); });
    return groups;
}

} // namespace otherskein::trace::detail
