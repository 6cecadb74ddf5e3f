#include "trace/detail/group_sureness.h"

#include "trace/detail/placing.h"

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kStray = 2; // members, up to which a group may be strays
constexpr std::ptrdiff_t kDirty = 12;
constexpr double kDirtiest = 8; // times as unlike as other strays may be
constexpr double kCleanest = 1; // grey levels of noise
constexpr double kCleanly = 0.4;
constexpr double kStrayRest = 13.5; // unlikeness of strays to the group that they join
constexpr double kStrayMoved = 270;
constexpr std::size_t kOthers = 4; // groups that a doubtful cell is compared with
constexpr double kUsual = 0.85;    // share of cells whose likeness is not worth a second look
constexpr double kOdd = 4;         // times as unlike as those are, and a cell is odd
constexpr double kLeastOdd = 3;    // unlikeness that is nothing odd on any page

/// Mahalanobis's squared distance, all in all.
double total(const Unlikeness& one, int places) {
    return one.rest * places + one.moved;
}

std::vector<std::size_t> nearestGroups(const cv::Mat& picture, const std::vector<cv::Mat>& means,
                                       std::size_t but, std::size_t count) {
    std::vector<std::pair<double, std::size_t>> all;
    for (std::size_t g = 0; g < means.size(); ++g) {
        if (g != but && !means[g].empty()) {
            all.emplace_back(cv::norm(means[g], picture, cv::NORM_L2SQR), g);
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

} // namespace

std::vector<Group> withoutStrays(std::vector<Group> groups, Pictures& pictures,
                                 const PrintNoise& noise, std::vector<int>& strays, bool mayMove) {
    std::vector<cv::Mat> means(groups.size());
    for (std::size_t g = 0; g < groups.size(); ++g) {
        if (groups[g].members.size() > kStray) {
            means[g] = meanOf(groups[g].members, pictures.rows);
        }
    }
    const auto few = [](const Group& one) { return one.members.size() <= kStray; };
    // A page that was scanned and has many such is dirty: then each is. One that is printed as by a
    // ruler has no dirt: what is but a little unlike is another symbol.
    const bool isClean = noise.plain < kCleanest;
    const std::ptrdiff_t count = std::ranges::count_if(groups, few);
    const auto others = static_cast<std::ptrdiff_t>(groups.size()) - count;
    const bool isDirty = count >= kDirty && (!isClean || count > others);
    for (std::size_t g = 0; g < groups.size(); ++g) {
        if (!few(groups[g])) {
            continue;
        }
        const cv::Mat picture = meanOf(groups[g].members, pictures.rows);
        double least = isDirty ? kDirtiest : isClean ? kCleanly : 1;
        std::size_t home = g;
        cv::Point2f by;
        const auto ask = [&](std::size_t other, cv::Point2f step) {
            const cv::Mat moved =
                isStep(step) ? stepped(picture, pictures.side, step, means[other]) : picture;
            const Unlikeness one =
                Likeness(means[other], pictures.side, noise, 1.2).unlikeness(moved)[0];
            const double far =
                one.rest / kStrayRest + (one.moved + movedBy(step, noise)) / kStrayMoved;
            if (far < least) {
                least = far;
                home = other;
                by = step;
            }
        };
        for (const std::size_t other : nearestGroups(picture, means, g, kOthers)) {
            ask(other, {});
        }
        for (std::size_t other = 0; mayMove && other < means.size(); ++other) {
            if (other == g || means[other].empty()) {
                continue;
            }
            const cv::Point2f step = stepOnto(means[other], picture, pictures.side, noise);
            if (isStep(step)) {
                ask(other, step);
            }
        }
        if (home != g) {
            if (isStep(by)) {
                movePictures(groups[g].members, by, pictures);
            }
            strays.insert(strays.end(), groups[g].members.begin(), groups[g].members.end());
            groups[home].members.insert(groups[home].members.end(), groups[g].members.begin(),
                                        groups[g].members.end());
            groups[g].members.clear();
        }
    }
    std::erase_if(groups, [](const Group& one) { return one.members.empty(); });
    return groups;
}

std::vector<float> surenessOf(const std::vector<Group>& groups, const Pictures& pictures,
                              const PrintNoise& noise) {
    const int places = pictures.rows.cols;
    std::vector<cv::Mat> means;
    std::vector<Likeness> likenesses;
    std::vector<Unlikeness> own(static_cast<std::size_t>(pictures.rows.rows));
    for (const Group& group : groups) {
        means.push_back(meanOf(group.members, pictures.rows));
        likenesses.emplace_back(means.back(), pictures.side, noise, 1);
    }
    cv::parallel_for_({0, static_cast<int>(groups.size())}, [&](const cv::Range& range) {
        for (auto g = static_cast<std::size_t>(range.start);
             g < static_cast<std::size_t>(range.end); ++g) {
            const std::vector<int>& members = groups[g].members;
            cv::Mat rows(static_cast<int>(members.size()), places, CV_32F);
            for (std::size_t k = 0; k < members.size(); ++k) {
                pictures.rows.row(members[k]).copyTo(rows.row(static_cast<int>(k)));
            }
            const std::vector<Unlikeness> all = likenesses[g].unlikeness(rows);
            for (std::size_t k = 0; k < members.size(); ++k) {
                own[static_cast<std::size_t>(members[k])] = all[k];
            }
        }
    });
    std::vector<double> sorted;
    for (const Unlikeness& one : own) {
        sorted.push_back(one.rest);
    }
    const auto usualAt = sorted.begin() + static_cast<std::ptrdiff_t>(
                                              kUsual * static_cast<double>(sorted.size() - 1));
    std::ranges::nth_element(sorted, usualAt);
    const double usual = *usualAt;
    const double odd = std::max(kLeastOdd, kOdd * usual);
    std::vector<float> sure(own.size(), 1);
    for (std::size_t g = 0; g < groups.size(); ++g) {
        for (const int i : groups[g].members) {
            const Unlikeness& mine = own[static_cast<std::size_t>(i)];
            float& result = sure[static_cast<std::size_t>(i)];
            if (groups[g].members.size() <= 2) {
                result = 0.45F; // nothing to compare with
            }
            if (mine.rest <= usual && mine.moved < 40) {
                continue;
            }
            // Beyond twice what is odd there is no doubt that a cell is odd.
            const double unlike = std::max(mine.rest / odd, mine.moved / 150);
            result = std::min(result, static_cast<float>(std::clamp(1.5 - unlike, 0.2, 1.0)));
            for (const std::size_t other : nearestGroups(pictures.rows.row(i), means, g, kOthers)) {
                const double theirs =
                    total(likenesses[other].unlikeness(pictures.rows.row(i))[0], places);
                // At 1 it is just as like the other.
                const double ratio = std::sqrt(total(mine, places) / std::max(1.0, theirs));
                result =
                    std::min(result, static_cast<float>(std::clamp((1 - ratio) / 0.3, 0.0, 1.0)));
            }
        }
    }
    return sure;
}

} // namespace otherskein::trace::detail
