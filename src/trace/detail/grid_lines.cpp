#include "trace/detail/grid_lines.h"

#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>

namespace otherskein::trace::detail {

namespace {

constexpr float kPaper = 225;
constexpr float kBlack = 40;

/// One place of the line from all sides, each by its weight.
void refine(const std::vector<const EdgeProfile*>& edges, const std::vector<float>& weight, int t,
            GridLine& line) {
    const auto i = static_cast<std::size_t>(t + line.reach);
    std::array<double, 3> meanS{};
    std::array<double, 3> meanD{};
    std::array<double, 3> spread{};
    std::array<double, 3> shared{};
    double black = 0; // the share that a line covers at least: none is darker than black
    for (std::size_t c = 0; c < 3; ++c) {
        double n = 1e-6;
        double s = 0;
        double d = 0;
        double ss = 0;
        double sd = 0;
        for (std::size_t k = 0; k < edges.size(); ++k) {
            if (t < edges[k]->from || t > edges[k]->to) {
                continue;
            }
            const double w = static_cast<double>(weight[k]);
            const auto ground = static_cast<double>(edges[k]->ground(t, 0)[static_cast<int>(c)]);
            const double step = static_cast<double>(edges[k]->at(t)[static_cast<int>(c)]) - ground;
            n += w;
            s += w * ground;
            d += w * step;
            ss += w * ground * ground;
            sd += w * ground * step;
        }
        meanS[c] = s / n;
        meanD[c] = d / n;
        spread[c] = ss - n * meanS[c] * meanS[c];
        shared[c] = sd - n * meanS[c] * meanD[c];
        black = std::max(black, -meanD[c] / std::max(60.0, meanS[c]));
    }
    for (std::size_t c = 0; c < 3; ++c) {
        // Drawn towards the least share where the sides, all alike, tell little of it.
        constexpr double kPrior = 2 * 100.0 * 100.0;
        const double slope =
            std::clamp((-shared[c] + kPrior * black) / (spread[c] + kPrior), -0.2, 1.05);
        line.b[i][static_cast<int>(c)] = static_cast<float>(slope);
        line.a[i][static_cast<int>(c)] = static_cast<float>(meanD[c] + slope * meanS[c]);
    }
}

bool isPaper(const cv::Vec3f& colour) {
    return std::min({colour[0], colour[1], colour[2]}) > kPaper;
}

/// How much a line darkens paper.
double weightOf(const GridLine& line) {
    double sum = 0;
    for (int t = -line.reach; t < line.reach; ++t) {
        sum += cv::norm(line.step(t, {255, 255, 255}));
    }
    return sum;
}

/// Farther off there are but sides beside broad signs, which tell little of lines.
int nearReach(const GridLine& line) {
    return (4 * line.reach + 8) / 9;
}

/// How much a line changes what one side has.
double darknessOn(const EdgeProfile& edge, const GridLine& line) {
    const int near = nearReach(line);
    double sum = 0;
    for (int t = std::max(edge.from, -near); t <= std::min(edge.to, near - 1); ++t) {
        sum += cv::norm(line.step(t, edge.ground(t, 0)));
    }
    return sum;
}

bool isDarker(double weight, double usual) {
    return weight > 1.35 * usual + 40;
}

/// Sets the steps at which all lines are bold, whatever else is, by how much so.
bool setCompleteSteps(const std::vector<GridLine>& whole, double least,
                      const std::vector<int>& bold, EdgeLines& result) {
    constexpr int kMostStep = 20;
    double most = 0;
    for (int step = 3; step <= std::min(kMostStep, result.lines / 2); ++step) {
        for (int start = 1; start <= step; ++start) {
            double sum = 0;
            int count = 0;
            bool isAll = true;
            for (int i = start; i + 1 < result.lines && isAll; i += step) {
                isAll = std::ranges::binary_search(bold, i);
                sum += weightOf(whole[static_cast<std::size_t>(i)]) - least;
                ++count;
            }
            if (isAll && count > 1 && sum > most) {
                most = sum;
                result.boldStep = step;
                result.boldStart = start % step;
            }
        }
    }
    return most > 0;
}

/// How far a side is from what it would be with the line.
float offFrom(const EdgeProfile& edge, const GridLine& line) {
    float sum = 0;
    for (int t = edge.from; t <= edge.to; ++t) {
        const cv::Vec3f ground = edge.ground(t, 0);
        const cv::Vec3f off = edge.at(t) - ground - line.step(t, ground);
        sum += off.dot(off);
    }
    return std::sqrt(sum);
}

} // namespace

GridLine gridLineOf(const std::vector<const EdgeProfile*>& edges, int reach) {
    GridLine line;
    line.reach = reach;
    const auto places = static_cast<std::size_t>(2 * reach);
    line.a.assign(places, {});
    line.b.assign(places, {});
    // Start: the median step, as a black line's.
    for (int t = -reach; t < reach; ++t) {
        const auto i = static_cast<std::size_t>(t + reach);
        for (int c = 0; c < 3; ++c) {
            std::vector<float> share;
            for (std::size_t k = 0; k < edges.size(); ++k) {
                if (t < edges[k]->from || t > edges[k]->to) {
                    share.push_back(0);
                    continue;
                }
                const float ground = edges[k]->ground(t, 0)[c];
                share.push_back((ground - edges[k]->at(t)[c]) / std::max(60.0F, ground));
            }
            line.b[i][c] = medianOf(share);
        }
    }
    std::vector<float> weight(edges.size(), 1);
    for (int round = 0; round < 3; ++round) {
        std::vector<float> errors;
        for (std::size_t k = 0; k < edges.size(); ++k) {
            errors.push_back(offFrom(*edges[k], line));
        }
        const float usual = std::max(12.0F, medianOf(errors));
        for (std::size_t k = 0; k < edges.size(); ++k) {
            const float ratio = errors[k] / usual;
            weight[k] = 1 / (1 + ratio * ratio * ratio * ratio);
        }
        for (int t = -reach; t < reach; ++t) {
            refine(edges, weight, t, line);
        }
    }
    return line;
}

std::optional<GridLine> opaqueOf(const GridLine& line) {
    const cv::Vec3f paper(255, 255, 255);
    cv::Vec3f most;
    for (int t = -line.reach; t < line.reach; ++t) {
        if (const cv::Vec3f step = line.step(t, paper); step.dot(step) > most.dot(most)) {
            most = step;
        }
    }
    const cv::Vec3f colour = paper + most;
    if (std::max({colour[0], colour[1], colour[2]}) < kBlack) {
        return std::nullopt;
    }
    GridLine result = line;
    for (std::size_t i = 0; i < line.a.size(); ++i) {
        const cv::Vec3f step = line.step(static_cast<int>(i) - line.reach, paper);
        const float share = std::clamp(step.dot(most) / std::max(1.0F, most.dot(most)), 0.0F, 1.0F);
        result.b[i] = {share, share, share};
        result.a[i] = colour * share;
    }
    return result;
}

std::optional<GridLine> onPaper(const std::vector<const EdgeProfile*>& edges, int reach) {
    std::vector<const EdgeProfile*> some;
    std::ranges::copy_if(edges, std::back_inserter(some), [](const EdgeProfile* one) {
        return isPaper(one->before) && isPaper(one->after);
    });
    if (some.size() < 6) {
        return std::nullopt;
    }
    return gridLineOf(some, reach);
}

void findBold(const std::vector<GridLine>& whole, const std::vector<char>& laidOver,
              EdgeLines& result) {
    result.boldStep = 0;
    result.boldStart = 0;
    std::vector<float> weights;
    for (std::size_t i = 1; i + 1 < whole.size(); ++i) {
        if (laidOver[i] == 0) {
            weights.push_back(static_cast<float>(weightOf(whole[i])));
        }
    }
    if (weights.size() < 6) {
        return;
    }
    const double usual = static_cast<double>(medianOf(weights));
    std::vector<int> bold;
    for (int i = 1; i + 1 < result.lines; ++i) {
        const auto at = static_cast<std::size_t>(i);
        if (laidOver[at] == 0 && isDarker(weightOf(whole[at]), usual)) {
            bold.push_back(i);
        }
    }
    if (setCompleteSteps(whole, 1.35 * usual + 40, bold, result)) {
        return;
    }
    std::map<int, int> gaps;
    for (std::size_t k = 1; k < bold.size(); ++k) {
        ++gaps[bold[k] - bold[k - 1]];
    }
    if (gaps.empty()) {
        // One only, in a grid that has no room for more.
        if (bold.size() == 1) {
            result.boldStep = result.lines;
            result.boldStart = bold.front();
        }
        return;
    }
    const int step =
        std::ranges::max_element(gaps, {}, [](const auto& one) { return one.second; })->first;
    std::map<int, int> starts;
    for (const int i : bold) {
        ++starts[i % step];
    }
    if (step >= 3) {
        result.boldStep = step;
        result.boldStart =
            std::ranges::max_element(starts, {}, [](const auto& one) { return one.second; })->first;
    }
}

std::vector<std::optional<GridLine>>
boldLines(const std::vector<std::optional<GridLine>>& papers, const std::optional<GridLine>& usual,
          const std::vector<std::vector<const EdgeProfile*>>& byLine, int reach) {
    std::vector<std::optional<GridLine>> result(byLine.size());
    if (!usual) {
        return result;
    }
    std::vector<std::size_t> bold;
    for (std::size_t i = 1; i + 1 < byLine.size(); ++i) {
        if (papers[i] && weightOf(*papers[i]) > 1.4 * weightOf(*usual) + 60) {
            bold.push_back(i);
        }
    }
    if (bold.size() < 2) {
        return result;
    }
    std::size_t step = byLine.size();
    for (std::size_t k = 1; k < bold.size(); ++k) {
        step = std::min(step, bold[k] - bold[k - 1]);
    }
    if (step < 3) {
        return result;
    }
    std::map<std::size_t, int> starts;
    for (const std::size_t i : bold) {
        ++starts[i % step];
    }
    const std::size_t start =
        std::ranges::max_element(starts, {}, [](const auto& one) { return one.second; })->first;
    std::vector<const EdgeProfile*> all;
    for (const std::size_t i : bold) {
        if (i % step == start) {
            all.insert(all.end(), byLine[i].begin(), byLine[i].end());
        }
    }
    const std::optional<GridLine> one = onPaper(all, reach);
    for (std::size_t i = start; i < byLine.size(); i += step) {
        result[i] = one;
    }
    return result;
}

bool isLaidOver(const GridLine& line, const GridLine& common,
                const std::vector<const EdgeProfile*>& edges) {
    constexpr float kClearly = 3;      // times nearer to the one than to the other
    constexpr float kExact = 12;       // grey levels
    constexpr double kSameGround = 25; // BGR
    constexpr int kFew = 2;            // sides: a line that many things hide ends nowhere
    std::vector<cv::Vec3f> shown;      // what it is seen on
    std::vector<const EdgeProfile*> without;
    double darkness = 0;
    double usual = 0;
    for (const EdgeProfile* edge : edges) {
        const float own = std::max(kExact, offFrom(*edge, line));
        const float other = std::max(kExact, offFrom(*edge, common));
        if (kClearly * own < other) {
            shown.push_back(edge->before);
            shown.push_back(edge->after);
            darkness += darknessOn(*edge, line);
            usual += darknessOn(*edge, common);
        } else if (kClearly * other < own) {
            without.push_back(edge);
        }
    }
    const double all = std::max<double>(1, static_cast<double>(shown.size()) / 2);
    darkness /= all;
    usual /= all;
    if (!isDarker(darkness, usual)) {
        return false;
    }
    const auto isShownOn = [&](const cv::Vec3f& ground) {
        return std::ranges::any_of(
            shown, [&](const cv::Vec3f& one) { return cv::norm(one - ground) < kSameGround; });
    };
    return std::ranges::count_if(without, [&](const EdgeProfile* edge) {
               return 2 * darknessOn(*edge, line) > darkness && isShownOn(edge->before) &&
                      isShownOn(edge->after);
           }) >= kFew;
}

LineLook lookBeyond(const GridLine& line, const GridLine& common,
                    const std::optional<GridLine>& bold) {
    LineLook look;
    if (!isDarker(weightOf(line), weightOf(common))) {
        return look;
    }
    const cv::Vec3f paper(255, 255, 255);
    const int near = nearReach(line);
    cv::Vec3f most;
    for (int t = -near; t < near; ++t) {
        if (const cv::Vec3f step = line.step(t, paper); step.dot(step) > most.dot(most)) {
            most = step;
        }
    }
    look.colour = paper + most;
    look.isBeyondBold = !bold || isDarker(weightOf(line), weightOf(*bold));
    for (int t = -near; t < near; ++t) {
        look.width += line.step(t, paper).dot(most) / std::max(1.0F, most.dot(most));
    }
    return look;
}

} // namespace otherskein::trace::detail
