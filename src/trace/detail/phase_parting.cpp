#include "trace/detail/phase_parting.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kWindow = 20;          // cells: over many the grid is not followed exactly
constexpr float kLiesAlike = 0.04F;  // px
constexpr std::size_t kAskedAt = 60; // cells of each group
constexpr double kEnough = 8;        // meetings that chance does not take away
constexpr double kStillMet = 0.3;    // of the others, where one more side just goes to the next px
constexpr double kMet = 0.7;

float aroundOne(float step) {
    step = std::abs(step);
    return std::min(step, std::abs(1 - step));
}

struct Pairs {
    double all = 0;
    double mixed = 0;
};
/// By how many columns and rows apart.
using PairTable = std::array<std::array<Pairs, kWindow + 1>, kWindow + 1>;

} // namespace

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

PhaseMeetings::PhaseMeetings(const Pictures& pictures) : m_pictures(pictures) {
    for (std::size_t i = 0; i < pictures.places.size(); ++i) {
        std::vector<int>& row = m_rows[static_cast<int>(pictures.places[i].y)];
        const auto column = static_cast<std::size_t>(pictures.places[i].x);
        row.resize(std::max(row.size(), column + 1), -1);
        row[column] = static_cast<int>(i);
    }
}

bool PhaseMeetings::Count::isByPhase() const {
    return found <= kStillMet * (expected - kEnough);
}

bool PhaseMeetings::Count::mayBeByPhase() const {
    return found <= kStillMet * std::max(expected - kEnough, 1.0);
}

bool PhaseMeetings::Count::isByDesign() const {
    return expected >= kEnough && found >= kMet * expected;
}

PhaseMeetings::Count PhaseMeetings::countOf(const Group& one, const Group& other) const {
    std::vector<char> sideOf(m_pictures.places.size(), 0);
    for (const Group* group : {&one, &other}) {
        for (const int i : group->members) {
            sideOf[static_cast<std::size_t>(i)] = group == &one ? 1 : 2;
        }
    }
    PairTable alike;
    PairTable otherwise;
    struct Seen {
        std::size_t columns;
        std::size_t rows;
        bool isMixed;
    };
    std::vector<Seen> near;
    for (const Group* group : {&one, &other}) {
        const std::size_t step = std::max<std::size_t>(1, group->members.size() / kAskedAt);
        for (std::size_t i = 0; i < group->members.size(); i += step) {
            const auto cell = static_cast<std::size_t>(group->members[i]);
            const cv::Point2f place = m_pictures.places[cell];
            near.clear();
            for (int dy = -kWindow; dy <= kWindow; ++dy) {
                const auto row = m_rows.find(static_cast<int>(place.y) + dy);
                if (row == m_rows.end()) {
                    continue;
                }
                const int middle = static_cast<int>(place.x);
                const int end =
                    std::min(static_cast<int>(row->second.size()), middle + kWindow + 1);
                for (int column = std::max(0, middle - kWindow); column < end; ++column) {
                    const int at = row->second[static_cast<std::size_t>(column)];
                    const auto second = static_cast<std::size_t>(at);
                    if (at < 0 || second == cell || sideOf[second] == 0) {
                        continue;
                    }
                    const cv::Point2f between =
                        m_pictures.finePhases[cell] - m_pictures.finePhases[second];
                    const Seen seen{static_cast<std::size_t>(std::abs(column - middle)),
                                    static_cast<std::size_t>(std::abs(dy)),
                                    sideOf[cell] != sideOf[second]};
                    if (aroundOne(between.x) < kLiesAlike && aroundOne(between.y) < kLiesAlike) {
                        near.push_back(seen);
                    } else {
                        Pairs& pairs = otherwise[seen.rows][seen.columns];
                        ++pairs.all;
                        pairs.mixed += seen.isMixed ? 1 : 0;
                    }
                }
            }
            for (const Seen& seen : near) {
                Pairs& pairs = alike[seen.rows][seen.columns];
                pairs.all += 1 / static_cast<double>(near.size());
                pairs.mixed += seen.isMixed ? 1 / static_cast<double>(near.size()) : 0;
            }
        }
    }
    Count result;
    for (std::size_t rows = 0; rows <= kWindow; ++rows) {
        Pairs within; // this many rows and columns apart at most
        std::array<Pairs, kWindow + 1> before = rows > 0 ? otherwise[rows - 1] : decltype(before){};
        for (std::size_t columns = 0; columns <= kWindow; ++columns) {
            within.all += otherwise[rows][columns].all;
            within.mixed += otherwise[rows][columns].mixed;
            otherwise[rows][columns] = {within.all + before[columns].all,
                                        within.mixed + before[columns].mixed};
            const Pairs& others = otherwise[rows][columns];
            result.found += alike[rows][columns].mixed;
            result.expected +=
                others.all > 0 ? alike[rows][columns].all * others.mixed / others.all : 0;
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
