#include "trace/detail/group_parting.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>

namespace otherskein::trace::detail {

namespace {

// Found by looking at what pages give: two halves of one bell curve lie 2.65 widths apart.
constexpr double kSame = 4.2;    // widths apart, up to which two groups are one
constexpr double kOther = 9;     // beyond which they are two whatever lies between
constexpr double kBridge = 0.06; // share of the smaller group that lies between, to make them one
constexpr double kLeastWidth = 0.8;  // of any group along any line: the noise itself
constexpr std::size_t kAsked = 300;  // members that stand for a large group
constexpr double kSharpWidth = 0.35; // of groups that are printed sharply
constexpr double kSharp = 3.2;       // noise that two such groups must lie apart: about a pixel
constexpr double kChance = 0.4;      // noise is counted on the safe side
constexpr double kMostWidth = 2.6;   // or a few strays would make a group wide enough to take all
constexpr double kStray = 12;        // noise; up to there a look or two alone are strays, no symbol

/// Every so-many-th member, so that kAsked stand for all.
template <typename Each>
void eachAsked(const std::vector<int>& members, const Each& each) {
    const std::size_t step = std::max<std::size_t>(1, members.size() / kAsked);
    for (std::size_t i = 0; i < members.size(); i += step) {
        each(members[i]);
    }
}

struct Separation {
    double distance = 0; ///< of the means, in noise
    double widths = 0;   ///< the same in widths of the groups
    double bridge = 0;   ///< share of the smaller that lies in the middle third
};

Separation separationOf(const Group& one, const Group& other, const cv::Mat& places,
                        double leastWidth = kLeastWidth) {
    const cv::Mat along = other.mean - one.mean;
    const double squared = along.dot(along);
    // Means of few are off by chance, in every direction at once.
    const double chance = kChance * places.cols *
                          (1.0 / static_cast<double>(one.members.size()) +
                           1.0 / static_cast<double>(other.members.size()));
    const double distance = std::sqrt(std::max(0.0, squared - chance));
    if (squared < 1e-6 || distance < 1e-3) {
        return {};
    }
    Separation result;
    double variance = 0;
    double fewest = 1e30;
    double between = 0;
    for (const Group* group : {&one, &other}) {
        double sum = 0;
        double squares = 0;
        double count = 0;
        double middle = 0;
        eachAsked(group->members, [&](int i) {
            const double at = (places.row(i) - one.mean).dot(along) / squared;
            sum += at;
            squares += at * at;
            ++count;
            middle += at > 0.36 && at < 0.64 ? 1 : 0;
        });
        const double mean = sum / count;
        const double spread =
            count > 5 ? std::sqrt(std::max(0.0, squares / count - mean * mean)) * distance : 0;
        const double width = std::clamp(spread, leastWidth, kMostWidth);
        variance += width * width / 2;
        const double scale = static_cast<double>(group->members.size()) / count;
        between += middle * scale;
        fewest = std::min(fewest, static_cast<double>(group->members.size()));
    }
    result.distance = distance;
    result.widths = distance / std::sqrt(variance);
    result.bridge = between / fewest;
    return result;
}

bool isOne(const Separation& separation, std::size_t fewest) {
    if (separation.widths < kSame) {
        return true;
    }
    if (fewest <= 2) {
        return separation.distance < kStray;
    }
    return separation.widths < kOther && separation.bridge > kBridge;
}

std::vector<std::size_t> nearest(const std::vector<Group>& groups, std::size_t to,
                                 std::size_t count) {
    std::vector<std::pair<double, std::size_t>> all;
    for (std::size_t i = 0; i < groups.size(); ++i) {
        if (i != to && !groups[i].members.empty()) {
            all.emplace_back(cv::norm(groups[i].mean, groups[to].mean, cv::NORM_L2SQR), i);
        }
    }
    const std::size_t kept = std::min(count, all.size());
    std::ranges::partial_sort(all, all.begin() + static_cast<std::ptrdiff_t>(kept));
    std::vector<std::size_t> result;
    for (std::size_t i = 0; i < kept; ++i) {
        result.push_back(all[i].second);
    }
    return result;
}

struct Cut {
    std::vector<int> left;
    std::vector<int> right;
    double score = 0;
};

/// The best cut across one direction: where the two sides' spread is least (Otsu 1979).
std::optional<Cut> cutAlong(const Group& group, const cv::Mat& places, const cv::Mat& direction) {
    std::vector<std::pair<float, int>> at;
    for (const int i : group.members) {
        at.emplace_back(static_cast<float>(places.row(i).dot(direction)), i);
    }
    std::ranges::sort(at);
    const auto count = static_cast<double>(at.size());
    double total = 0;
    for (const auto& [value, i] : at) {
        total += static_cast<double>(value);
    }
    double left = 0;
    double best = -1;
    std::size_t where = 0;
    for (std::size_t k = 1; k < at.size(); ++k) {
        left += static_cast<double>(at[k - 1].first);
        const auto n = static_cast<double>(k);
        const double gap = left / n - (total - left) / (count - n);
        if (const double score = gap * gap * n * (count - n); score > best) {
            best = score;
            where = k;
        }
    }
    if (where == 0) {
        return std::nullopt;
    }
    Cut cut;
    for (std::size_t k = 0; k < at.size(); ++k) {
        (k < where ? cut.left : cut.right).push_back(at[k].second);
    }
    return cut;
}

/// The cut that parts best, of those along the group's widest directions.
struct Limits {
    double widths;
    double bridge;
    double distance;
};
constexpr Limits kPart{kOther * 0.62, kBridge / 3, kSharp};
/// Of cuts that are not sure enough to make, but worth a look.
constexpr Limits kSuspect{3.4, 0.1, 1.2};

std::optional<std::pair<Group, Group>> cutOf(const Group& group, const cv::Mat& places,
                                             const Limits& limits) {
    if (group.members.size() < 4) {
        return std::nullopt;
    }
    std::vector<int> asked;
    const std::size_t step = std::max<std::size_t>(1, group.members.size() / 800);
    for (std::size_t i = 0; i < group.members.size(); i += step) {
        asked.push_back(group.members[i]);
    }
    cv::Mat sample(static_cast<int>(asked.size()), places.cols, CV_32F);
    for (std::size_t i = 0; i < asked.size(); ++i) {
        places.row(asked[i]).copyTo(sample.row(static_cast<int>(i)));
    }
    const cv::PCA axes(sample, cv::Mat(), cv::PCA::DATA_AS_ROW, 4);
    std::optional<std::pair<Group, Group>> best;
    double most = 0;
    for (int axis = 0; axis < axes.eigenvectors.rows; ++axis) {
        if (axes.eigenvalues.at<float>(axis) < 0.3F) {
            break; // no wider than noise
        }
        auto cut = cutAlong(group, places, axes.eigenvectors.row(axis));
        if (!cut) {
            continue;
        }
        Group left{std::move(cut->left), {}};
        Group right{std::move(cut->right), {}};
        settle(left, places);
        settle(right, places);
        const Separation separation = separationOf(left, right, places, kSharpWidth);
        const std::size_t fewest = std::min(left.members.size(), right.members.size());
        const double needed = fewest <= 2   ? 2.5 * kOther
                              : fewest <= 5 ? 1.5 * kOther
                                            : kOther * 0.62;
        if (separation.distance > limits.distance && separation.widths > needed &&
            separation.bridge < limits.bridge && separation.widths > most) {
            most = separation.widths;
            best = {std::move(left), std::move(right)};
        }
    }
    return best;
}

} // namespace

void settle(Group& group, const cv::Mat& places) {
    group.mean = cv::Mat::zeros(1, places.cols, CV_32F);
    for (const int i : group.members) {
        group.mean += places.row(i);
    }
    group.mean /= static_cast<double>(std::max<std::size_t>(1, group.members.size()));
}

cv::Mat meansOf(const cv::Mat& places, const std::vector<int>& of, int groups) {
    cv::Mat means = cv::Mat::zeros(groups, places.cols, CV_32F);
    std::vector<int> counts(static_cast<std::size_t>(groups), 0);
    for (int i = 0; i < places.rows; ++i) {
        const int group = of[static_cast<std::size_t>(i)];
        means.row(group) += places.row(i);
        ++counts[static_cast<std::size_t>(group)];
    }
    for (int g = 0; g < groups; ++g) {
        means.row(g) /= std::max(1, counts[static_cast<std::size_t>(g)]);
    }
    return means;
}

std::vector<Group> merged(std::vector<Group> atoms, const cv::Mat& places) {
    constexpr std::size_t kNeighbours = 7;
    std::map<std::pair<std::size_t, std::size_t>, Separation> known;
    const auto ask = [&](std::size_t i) {
        for (const std::size_t k : nearest(atoms, i, kNeighbours)) {
            const auto pair = std::minmax(i, k);
            if (!known.contains(pair)) {
                known[pair] = separationOf(atoms[i], atoms[k], places);
            }
        }
    };
    for (std::size_t i = 0; i < atoms.size(); ++i) {
        ask(i);
    }
    while (true) {
        const std::pair<const std::pair<std::size_t, std::size_t>, Separation>* best = nullptr;
        for (const auto& one : known) {
            const std::size_t fewest = std::min(atoms[one.first.first].members.size(),
                                                atoms[one.first.second].members.size());
            if (isOne(one.second, fewest) &&
                (best == nullptr || one.second.widths < best->second.widths)) {
                best = &one;
            }
        }
        if (best == nullptr) {
            break;
        }
        const auto [a, b] = best->first;
        atoms[a].members.insert(atoms[a].members.end(), atoms[b].members.begin(),
                                atoms[b].members.end());
        atoms[b].members.clear();
        settle(atoms[a], places);
        std::erase_if(known, [a = a, b = b](const auto& one) {
            return one.first.first == a || one.first.second == a || one.first.first == b ||
                   one.first.second == b;
        });
        ask(a);
    }
    std::erase_if(atoms, [](const Group& one) { return one.members.empty(); });
    return atoms;
}

std::vector<Group> parted(std::vector<Group> groups, const cv::Mat& places) {
    for (std::size_t i = 0; i < groups.size() && groups.size() < 600;) {
        if (auto cut = cutOf(groups[i], places, kPart)) {
            groups[i] = std::move(cut->first);
            groups.push_back(std::move(cut->second));
        } else {
            ++i;
        }
    }
    return groups;
}

std::vector<float> confidences(const std::vector<Group>& groups, const cv::Mat& places) {
    std::vector<float> result(static_cast<std::size_t>(places.rows), 1);
    for (std::size_t g = 0; g < groups.size(); ++g) {
        const Group& group = groups[g];
        const std::vector<std::size_t> others = nearest(groups, g, 6);
        std::vector<float> distances;
        for (const int i : group.members) {
            distances.push_back(static_cast<float>(cv::norm(places.row(i), group.mean)));
        }
        std::vector<float> sorted = distances;
        const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
        std::ranges::nth_element(sorted, middle);
        const float usual = std::max(1.0F, *middle);
        for (std::size_t k = 0; k < group.members.size(); ++k) {
            const int i = group.members[k];
            double sure = 1;
            for (const std::size_t other : others) {
                const cv::Mat along = groups[other].mean - group.mean;
                const double squared = along.dot(along);
                const double at = (places.row(i) - group.mean).dot(along) / squared;
                sure = std::min(sure, std::clamp((0.5 - at) / 0.4, 0.0, 1.0));
            }
            const double unlike = distances[k] / usual;
            sure = std::min(sure, std::clamp(1.0 - (unlike - 2.0) / 3.0, 0.2, 1.0));
            if (group.members.size() <= 2) {
                sure = std::min(sure, 0.45); // nothing to compare with
            }
            result[static_cast<std::size_t>(i)] = static_cast<float>(sure);
        }
        // Perhaps two symbols: the fewer are shown.
        if (const auto cut = cutOf(group, places, kSuspect)) {
            const Group& fewer =
                cut->first.members.size() < cut->second.members.size() ? cut->first : cut->second;
            for (const int i : fewer.members) {
                float& sure = result[static_cast<std::size_t>(i)];
                sure = std::min(sure, 0.45F);
            }
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
