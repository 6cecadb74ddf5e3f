#include "trace/detail/group_joining.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>

namespace otherskein::trace::detail {

namespace {

constexpr double kRest = 4.5; // that two means of one symbol may differ by at most
constexpr double kMoved = 90; // or by this
constexpr double kNever = 1e9;
constexpr double kMostMoved = 12 * kMoved; // of halves of one cloud, by a drift of light
constexpr double kBridge = 0.12;
constexpr std::size_t kMany = 6; // members, from which a group's mean is well known
constexpr std::size_t kNeighbours = 8;
constexpr std::size_t kAsked = 24; // members of a group that noise is taken from

double sumOf(const Unlikeness& one) {
    return one.rest / kRest + one.moved / kMoved;
}

double middle(std::vector<double> values, double none) {
    if (values.empty()) {
        return none;
    }
    const auto at = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::ranges::nth_element(values, at);
    return *at;
}

cv::Mat meanOf(const std::vector<int>& members, const cv::Mat& rows) {
    cv::Mat mean = cv::Mat::zeros(1, rows.cols, CV_32F);
    for (const int i : members) {
        mean += rows.row(i);
    }
    return mean / static_cast<double>(members.size());
}

/// Light beside the symbol and the mean tints.
std::array<double, 3> groundOf(const cv::Mat& picture, int lights) {
    const auto* at = picture.ptr<float>();
    std::vector<float> sorted(at, at + lights);
    const auto high = sorted.begin() + static_cast<std::ptrdiff_t>(lights * 7 / 10);
    std::ranges::nth_element(sorted, high);
    std::array<double, 3> ground{*high, 0, 0};
    for (int i = lights; i < picture.cols; ++i) {
        ground[static_cast<std::size_t>(1 + (i - lights) % 2)] +=
            at[i] / static_cast<double>(kPictureTints * kPictureTints);
    }
    return ground;
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

/// How far the place on the page's pixels tells two groups apart: 0 when it says nothing, 1 when
/// each cell's neighbour in phase is always of its own group. A renderer that draws at whole pixels
/// makes a few pictures of one symbol, each at phases of its own; two symbols share all phases.
double phaseParting(const Group& one, const Group& other, const std::vector<cv::Point2f>& phases) {
    constexpr std::size_t kMost = 120;
    struct At {
        cv::Point2f phase;
        bool isOther;
    };
    std::vector<At> all;
    for (const Group* group : {&one, &other}) {
        const std::size_t step = std::max<std::size_t>(1, group->members.size() / kMost);
        for (std::size_t i = 0; i < group->members.size(); i += step) {
            all.push_back({phases[static_cast<std::size_t>(group->members[i])], group == &other});
        }
    }
    const auto around = [](float step) { return std::min(std::abs(step), 1 - std::abs(step)); };
    double agree = 0;
    double others = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        others += all[i].isOther ? 1 : 0;
        // Of all that are as near as the nearest, not just one: phases often come in few values.
        float least = 9;
        double same = 0;
        double count = 0;
        constexpr float kNear = 0.03F;
        for (std::size_t k = 0; k < all.size(); ++k) {
            if (k == i) {
                continue;
            }
            const float far = std::hypot(around(all[i].phase.x - all[k].phase.x),
                                         around(all[i].phase.y - all[k].phase.y));
            if (far < least - kNear) {
                least = far;
                same = 0;
                count = 0;
            }
            if (far < least + kNear) {
                least = std::min(least, far);
                same += all[i].isOther == all[k].isOther ? 1 : 0;
                ++count;
            }
        }
        agree += count > 0 ? same / count : 0;
    }
    const auto n = static_cast<double>(all.size());
    agree /= n;
    const double share = others / n;
    const double chance = share * share + (1 - share) * (1 - share);
    return chance > 0.98 ? 0 : std::clamp((agree - chance) / (1 - chance), 0.0, 1.0);
}

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

Room roomFor(const Group& one, const Group& other, const std::vector<cv::Point2f>& phases) {
    if (std::min(one.members.size(), other.members.size()) < 2) {
        return kWithin;
    }
    const double parting = phaseParting(one, other, phases);
    return parting > 0.8 ? kApart : parting > 0.4 ? kBetween : kWithin;
}

} // namespace

PrintNoise noiseOf(const std::vector<Group>& groups, const Pictures& pictures) {
    std::vector<double> plain;
    std::vector<double> edge;
    std::vector<double> ground;
    std::vector<double> tint;
    std::vector<double> ink;
    std::vector<double> tints;
    for (const Group& group : groups) {
        if (group.members.size() < 6) {
            continue;
        }
        cv::Mat asked;
        std::array<std::vector<double>, 3> grounds;
        const std::size_t step = std::max<std::size_t>(1, group.members.size() / kAsked);
        for (std::size_t i = 0; i < group.members.size(); i += step) {
            asked.push_back(pictures.rows.row(group.members[i]));
            const auto one = groundOf(pictures.rows.row(group.members[i]), pictures.lights());
            for (std::size_t k = 0; k < 3; ++k) {
                grounds[k].push_back(one[k]);
            }
        }
        // All of a symbol's ink: moving it leaves that the same.
        std::vector<double> inks;
        for (int i = 0; i < asked.rows; ++i) {
            const double light = cv::mean(asked.row(i).colRange(0, pictures.lights()))[0];
            inks.push_back(light - grounds[0][static_cast<std::size_t>(i)]);
        }
        if (const double usual = middle(inks, 0); std::abs(usual) > 8) {
            for (double& value : inks) {
                value = std::abs(value - usual);
            }
            ink.push_back(1.48 * middle(inks, 0) / std::abs(usual));
        }
        for (std::size_t k = 0; k < 3; ++k) {
            const double usual = middle(grounds[k], 0);
            for (double& value : grounds[k]) {
                value = std::abs(value - usual);
            }
            (k == 0 ? ground : tint).push_back(1.48 * middle(grounds[k], 0));
        }
        cv::Mat mean;
        cv::reduce(asked, mean, 0, cv::REDUCE_AVG);
        const cv::Mat rests = Likeness(mean, pictures.side, {}, 1).rests(asked);
        const cv::Mat squares = rests.mul(rests);
        cv::Mat square;
        cv::reduce(squares, square, 0, cv::REDUCE_AVG);
        tints.push_back(std::sqrt(cv::mean(square.colRange(pictures.lights(), square.cols))[0]));
        double flat = 0;
        double flats = 0;
        double steep = 0;
        double slopes = 0;
        double steeps = 0;
        const auto at = [&](int x, int y) { return mean.at<float>(y * pictures.side + x); };
        for (int y = 1; y < pictures.side - 1; ++y) {
            for (int x = 1; x < pictures.side - 1; ++x) {
                const double slope =
                    std::hypot(at(x + 1, y) - at(x - 1, y), at(x, y + 1) - at(x, y - 1)) / 2;
                const double value = square.at<float>(y * pictures.side + x);
                if (slope < 6) {
                    flat += value;
                    ++flats;
                } else if (slope > 25) {
                    steep += value;
                    slopes += slope * slope;
                    ++steeps;
                }
            }
        }
        if (flats > 50) {
            plain.push_back(std::sqrt(flat / flats));
        }
        if (steeps > 30) {
            const double beyond = steep - (flats > 0 ? flat / flats * steeps : 0);
            edge.push_back(std::sqrt(std::max(0.0, beyond / slopes)));
        }
    }
    PrintNoise noise;
    noise.plain = middle(plain, noise.plain);
    noise.edge = std::max(0.12, middle(edge, noise.edge));
    noise.tints = middle(tints, noise.tints);
    noise.ink = std::clamp(middle(ink, noise.ink), 0.02, 0.08);
    noise.ground = std::max(0.7, middle(ground, noise.ground));
    noise.tint = std::max(0.7, middle(tint, noise.tint));
    return noise;
}

std::vector<Group> joinedGroups(std::vector<Group> groups, const cv::Mat& places,
                                const Pictures& pictures, const std::vector<cv::Point2f>& phases,
                                const PrintNoise& noise) {
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
    /// Up to 1 for two that are one.
    const auto far = [&](std::size_t a, std::size_t b) {
        const Unlikeness step = unlike(a, b);
        const std::size_t fewest = std::min(groups[a].members.size(), groups[b].members.size());
        const bool mayBeCut = (sumOf(step) < 2 || step.rest < kRest * kWithin.rest) &&
                              step.moved < kMostMoved && sumOf(step) > kWithin.rest &&
                              fewest >= kMany;
        if (mayBeCut &&
            bridgeOf(groups[a], groups[b], means[a], means[b], pictures.rows) > kBridge) {
            return 0.9;
        }
        if (step.moved > kMoved * kApart.moved || step.rest > kRest * kApart.rest) {
            return kNever;
        }
        const Room room = roomFor(groups[a], groups[b], phases);
        return step.rest / (kRest * room.rest) + step.moved / (kMoved * room.moved);
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
