#include "trace/detail/group_joining.h"

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
constexpr double kHalfWay = 0.35; // of the way from one mean to the other
constexpr double kMostRest = 4;   // times kRest, where no mark makes them differ
constexpr double kMark = 0.07;    // of a symbol's contrast: less is no mark
constexpr double kLeastContrast = 60; // grey levels, of symbols that this is asked of
constexpr double kByPhase = 0.85;     // phaseParting of what phase alone makes two

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

/// Of the smaller group, the share that lies in the middle third of the way from one mean to the
/// other: near nothing between two symbols, much where one cloud of noise was cut in two.
double bridgeOf(const Group& one, const Group& other, const cv::Mat& from, const cv::Mat& to,
                const cv::Mat& rows) {
    constexpr std::size_t kMost = 200;
    const cv::Mat along = to - from;
    const double squared = along.dot(along);
    double least = 1;
    double between = 0;
    double fewest = 1e30;
    for (const Group* group : {&one, &other}) {
        const std::size_t step = std::max<std::size_t>(1, group->members.size() / kMost);
        double count = 0;
        double inner = 0;
        for (std::size_t i = 0; i < group->members.size(); i += step) {
            const double at = (rows.row(group->members[i]) - from).dot(along) / squared;
            inner += at > 0.35 && at < 0.65 ? 1 : 0;
            ++count;
        }
        const auto size = static_cast<double>(group->members.size());
        between += inner / count * size;
        fewest = std::min(fewest, size);
        least = std::min(least, inner / count);
    }
    return std::min(between / fewest, 3 * least + 0.05);
}

/// Members of two groups that lie next to each other on the page.
struct Frontier {
    std::vector<int> one;
    std::vector<int> other;
};

Frontier frontierOf(const Group& one, const Group& other, const std::vector<cv::Point2f>& places,
                    std::size_t most) {
    constexpr std::size_t kMost = 150;
    struct Pair {
        float far;
        int a;
        int b;
    };
    std::vector<Pair> nearest; // to each of one, of the other
    const std::size_t stepOne = std::max<std::size_t>(1, one.members.size() / kMost);
    const std::size_t stepOther = std::max<std::size_t>(1, other.members.size() / kMost);
    for (std::size_t i = 0; i < one.members.size(); i += stepOne) {
        const int a = one.members[i];
        for (std::size_t k = 0; k < other.members.size(); k += stepOther) {
            const int b = other.members[k];
            const cv::Point2f step =
                places[static_cast<std::size_t>(a)] - places[static_cast<std::size_t>(b)];
            nearest.push_back({step.dot(step), a, b});
        }
    }
    const std::size_t kept = std::min<std::size_t>(nearest.size(), 30 * most);
    std::ranges::partial_sort(nearest, nearest.begin() + static_cast<std::ptrdiff_t>(kept), {},
                              &Pair::far);
    Frontier result;
    for (std::size_t i = 0; i < kept; ++i) {
        const auto add = [most](std::vector<int>& to, int cell) {
            if (to.size() < most && std::ranges::find(to, cell) == to.end()) {
                to.push_back(cell);
            }
        };
        add(result.one, nearest[i].a);
        add(result.other, nearest[i].b);
    }
    return result;
}

/// Calls `each(one, own, other)` for what of each of these cells no movement, ink or line explains,
/// the mean of its own side without it, and that of the other side; until it says no.
template <typename Each>
void eachAgainstOthers(const Frontier& cells, const cv::Mat& rows, const Likeness& likeness,
                       const Each& each) {
    std::array<cv::Mat, 2> rests;
    std::array<cv::Mat, 2> sums;
    for (std::size_t side = 0; side < 2; ++side) {
        cv::Mat all;
        for (const int i : side == 0 ? cells.one : cells.other) {
            all.push_back(rows.row(i));
        }
        rests[side] = likeness.scaledRests(all);
        cv::reduce(rests[side], sums[side], 0, cv::REDUCE_SUM);
    }
    for (std::size_t side = 0; side < 2; ++side) {
        const cv::Mat otherMean = sums[1 - side] / rests[1 - side].rows;
        for (int i = 0; i < rests[side].rows; ++i) {
            const cv::Mat one = rests[side].row(i);
            const cv::Mat ownMean = (sums[side] - one) / (rests[side].rows - 1);
            if (!each(one, ownMean, otherMean)) {
                return;
            }
        }
    }
}

/// The share of these cells that are likest the others of their own side: about a half where the
/// sides are one symbol, all where they are two.
double toldApart(const Frontier& cells, const cv::Mat& rows, const Likeness& likeness) {
    double right = 0;
    eachAgainstOthers(
        cells, rows, likeness, [&](const cv::Mat& one, const cv::Mat& own, const cv::Mat& other) {
            right +=
                cv::norm(one, own, cv::NORM_L2SQR) < cv::norm(one, other, cv::NORM_L2SQR) ? 1 : 0;
            return true;
        });
    return right / static_cast<double>(cells.one.size() + cells.other.size());
}

/// Whether cells where two groups meet are of two kinds with nothing between them: each is on the
/// side of its own, and none lies half way.
bool areTwoKinds(const Frontier& cells, const cv::Mat& rows, const Likeness& likeness) {
    bool areTwo = true;
    eachAgainstOthers(cells, rows, likeness,
                      [&](const cv::Mat& one, const cv::Mat& own, const cv::Mat& other) {
                          const cv::Mat along = other - own;
                          areTwo = (one - own).dot(along) <= kHalfWay * along.dot(along);
                          return areTwo;
                      });
    return areTwo;
}

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
                                const Pictures& pictures, const PrintNoise& noise,
                                int& joinedByPhase) {
    const std::vector<cv::Point2f>& phases = noise.isDrawn ? pictures.finePhases : pictures.phases;
    std::vector<cv::Mat> means;
    for (const Group& one : groups) {
        means.push_back(meanOf(one.members, pictures.rows));
    }
    std::map<std::pair<std::size_t, std::size_t>, double> known;
    // By how many cells the lesser known of a pair has; made when first asked for.
    constexpr std::array<double, 3> kShares{1.2, 0.4, 0.1};
    std::vector<std::array<std::optional<Likeness>, 3>> likenesses(groups.size());
    const auto unlike = [&](std::size_t a, std::size_t b) {
        // Seen from the better known of the two; from both where both are well known.
        if (groups[a].members.size() < groups[b].members.size()) {
            std::swap(a, b);
        }
        const std::size_t fewest = groups[b].members.size();
        const std::size_t level = fewest <= 2 ? 0 : fewest < kMany ? 1 : 2;
        const auto from = [&](std::size_t one, std::size_t other) {
            auto& likeness = likenesses[one][level];
            if (!likeness) {
                likeness.emplace(means[one], pictures.side, noise, kShares[level]);
            }
            return likeness->unlikeness(means[other])[0];
        };
        const Unlikeness there = from(a, b);
        if (fewest < kMany) {
            return there;
        }
        const Unlikeness back = from(b, a);
        return sumOf(back) > sumOf(there) ? back : there;
    };
    /// Whether no mark is in one that is not in the other. A sharp picture's edges leave more than
    /// noise when they are moved or blurred; but spread along the edges, and weak beside the
    /// symbol, while a dot or a bar of its own is as dark as the symbol is.
    const auto differByNoMark = [&](std::size_t a, std::size_t b) {
        const double contrast =
            std::min(contrastOf(means[a], pictures.side), contrastOf(means[b], pictures.side));
        const auto rest = [&](std::size_t one, std::size_t other) {
            return strongestRest(Likeness(means[one], pictures.side, noise, kShares[2]),
                                 means[other], pictures.side);
        };
        return contrast > kLeastContrast && std::max(rest(a, b), rest(b, a)) < kMark * contrast;
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
                const cv::Mat here = meanOf(frontier.one, pictures.rows);
                const cv::Mat there = meanOf(frontier.other, pictures.rows);
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
                    (sum < 1 && toldApart(frontier, pictures.rows,
                                          Likeness((here + there) / 2, pictures.side, noise,
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
            if (!areTwoKinds(frontier, pictures.rows,
                             Likeness((means[a] + means[b]) / 2, pictures.side, noise, kOneCell))) {
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
    const auto ask = [&](std::size_t i) {
        std::vector<std::pair<double, std::size_t>> near;
        for (std::size_t k = 0; k < groups.size(); ++k) {
            if (k != i && !groups[k].members.empty()) {
                near.emplace_back(cv::norm(groups[k].mean, groups[i].mean, cv::NORM_L2SQR), k);
            }
        }
        std::ranges::sort(near);
        for (std::size_t k = 0; k < std::min(kNeighbours, near.size()); ++k) {
            const auto pair = std::minmax(i, near[k].second);
            if (!known.contains(pair)) {
                known[pair] = far(i, near[k].second);
            }
        }
    };
    for (std::size_t i = 0; i < groups.size(); ++i) {
        ask(i);
    }
    while (true) {
        const auto best =
            std::ranges::min_element(known, {}, [](const auto& one) { return one.second; });
        if (best == known.end() || best->second > 1) {
            break;
        }
        const auto [a, b] = best->first;
        groups[a].members.insert(groups[a].members.end(), groups[b].members.begin(),
                                 groups[b].members.end());
        groups[b].members.clear();
        settle(groups[a], places);
        means[a] = meanOf(groups[a].members, pictures.rows);
        likenesses[a] = {};
        rounded.forget(a);
        joinedByPhase += byPhase.contains({a, b}) ? 1 : 0;
        std::erase_if(byPhase, [a = a, b = b](const auto& one) {
            return one.first == a || one.second == a || one.first == b || one.second == b;
        });
        std::erase_if(known, [a = a, b = b](const auto& one) {
            return one.first.first == a || one.first.second == a || one.first.first == b ||
                   one.first.second == b;
        });
        ask(a);
    }
    std::erase_if(groups, [](const Group& one) { return one.members.empty(); });
    return groups;
}

} // namespace otherskein::trace::detail
