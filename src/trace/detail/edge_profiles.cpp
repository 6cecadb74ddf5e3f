#include "trace/detail/edge_profiles.h"

#include "trace/detail/grid_lines.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace otherskein::trace::detail {

namespace {

constexpr double kReach = 0.36;  // of a cell, to either side
constexpr double kCentre = 0.09; // of a cell, that the grid's own line is within
constexpr float kTellable = 45;  // grey levels by which a line must differ from what it lies on
constexpr float kMostScale = 1.25F;

/// A place beyond the sheet's border is taken to look as the same far within it.
int inSheet(int place, int size) {
    return place < 0 ? -1 - place : place >= size ? 2 * size - 1 - place : place;
}

/// Means along a side of the middle two of its four quarters, by channel, so that a stroke that
/// touches the side, or a line that ends at it, does not count.
void readColours(const cv::Mat& straight, int x, int y, bool upright, int cell,
                 EdgeProfile& profile) {
    const int reach = profile.reach();
    const int start = cell / 10;
    const int length = cell - 2 * start;
    for (int t = -reach; t < reach; ++t) {
        std::array<std::array<float, 4>, 3> parts{};
        for (int quarter = 0; quarter < 4; ++quarter) {
            const int from = start + quarter * length / 4;
            const int to = start + (quarter + 1) * length / 4;
            cv::Vec3i sum;
            for (int s = from; s < to; ++s) {
                const int px = inSheet(upright ? x + t : x + s, straight.cols);
                const int py = inSheet(upright ? y + s : y + t, straight.rows);
                const cv::Vec3b& one = straight.at<cv::Vec3b>(py, px);
                sum += cv::Vec3i(one[0], one[1], one[2]);
            }
            for (std::size_t c = 0; c < 3; ++c) {
                parts[c][static_cast<std::size_t>(quarter)] =
                    static_cast<float>(sum[static_cast<int>(c)]) / static_cast<float>(to - from);
            }
        }
        cv::Vec3f& out = profile.colours[static_cast<std::size_t>(t + reach)];
        for (std::size_t c = 0; c < 3; ++c) {
            std::ranges::sort(parts[c]);
            out[static_cast<int>(c)] = (parts[c][1] + parts[c][2]) / 2;
        }
    }
}

/// The nearest place to the side where the page has the cell's own ground.
void findSides(EdgeProfile& profile, int cell, const cv::Vec3f& before, const cv::Vec3f& after) {
    const int reach = profile.reach();
    const int centre = std::max(2, static_cast<int>(std::lround(kCentre * cell)));
    const auto smooth = [&](int t) {
        const cv::Vec3f& other = profile.at(std::clamp(t < 0 ? t - 1 : t + 1, -reach, reach - 1));
        return (profile.at(t) + other) * 0.5F;
    };
    constexpr double kPerPixel = 3; // grey levels that a nearer place may be off
    double leastBefore = -1;
    double leastAfter = -1;
    for (int t = centre; t <= reach; ++t) {
        const cv::Vec3f left = smooth(-t);
        const cv::Vec3f right = smooth(t - 1);
        const double offLeft = cv::norm(left - before) + kPerPixel * t;
        const double offRight = cv::norm(right - after) + kPerPixel * t;
        if (leastBefore < 0 || offLeft < leastBefore) {
            leastBefore = offLeft;
            profile.before = left;
            profile.from = -t;
        }
        if (leastAfter < 0 || offRight < leastAfter) {
            leastAfter = offRight;
            profile.after = right;
            profile.to = t - 1;
        }
    }
}

/// The least excess by any of the lines that the grid may have there.
EdgeExcess excessOf(const EdgeProfile& edge, const std::vector<GridLine>& lines) {
    EdgeExcess best;
    best.from = edge.from;
    const GridLine* bestLine = &lines.front();
    float bestScale = 0;
    float bestShift = 0;
    float least = -1;
    for (const GridLine& line : lines) {
        for (const float shift : {0.0F, -0.6F, 0.6F, -1.2F, 1.2F}) {
            if (shift != 0 && cv::norm(edge.before - edge.after) < 12) {
                break;
            }
            float dot = 0;
            float own = 1e-3F;
            for (int t = edge.from; t <= edge.to; ++t) {
                const cv::Vec3f ground = edge.ground(t, shift);
                const cv::Vec3f step = line.step(t, ground);
                dot += step.dot(edge.at(t) - ground);
                own += step.dot(step);
            }
            const float scale = std::clamp(dot / own, 0.0F, kMostScale);
            float sum = 0;
            for (int t = edge.from; t <= edge.to && (least < 0 || sum < least); ++t) {
                const cv::Vec3f ground = edge.ground(t, shift);
                const cv::Vec3f over = edge.at(t) - ground - line.step(t, ground) * scale;
                sum += std::sqrt(over.dot(over));
            }
            if (least < 0 || sum < least - 4) {
                least = sum;
                bestLine = &line;
                bestScale = scale;
                bestShift = shift;
            }
        }
    }
    for (int t = edge.from; t <= edge.to; ++t) {
        const cv::Vec3f ground = edge.ground(t, bestShift);
        best.bare.push_back(ground);
        best.under.push_back(ground + bestLine->step(t, ground) * bestScale);
        best.over.push_back(edge.at(t) - best.under.back());
    }
    best.measure();
    return best;
}

/// What the grid's inner lines look like that are bold, or that are not.
std::optional<GridLine> commonLine(const std::vector<std::vector<const EdgeProfile*>>& byLine,
                                   const std::vector<char>& laidOver, const EdgeLines& lines,
                                   bool isBold) {
    constexpr std::size_t kMost = 1500; // sides
    const int reach = byLine.front().front()->reach();
    std::vector<const EdgeProfile*> all;
    int count = 0;
    for (int i = 1; i + 1 < lines.lines; ++i) {
        const auto at = static_cast<std::size_t>(i);
        if (lines.isBold(i) == isBold && laidOver[at] == 0) {
            const auto& some = byLine[at];
            all.insert(all.end(), some.begin(), some.end());
            ++count;
        }
    }
    if (count < 3) {
        return std::nullopt; // one of them may be what is asked about
    }
    const std::size_t step = 1 + all.size() / kMost;
    std::vector<const EdgeProfile*> spread;
    for (std::size_t k = 0; k < all.size(); k += step) {
        spread.push_back(all[k]);
    }
    return gridLineOf(spread, reach);
}

/// Which lines are not the grid's own, and the steps of its bold ones.
std::vector<char> findLaidOver(const std::vector<GridLine>& whole,
                               const std::vector<std::vector<const EdgeProfile*>>& byLine,
                               std::span<const int> known, EdgeLines& lines) {
    std::vector<char> laidOver(whole.size(), 0);
    const auto addKnown = [&] {
        for (const int i : known) {
            laidOver[static_cast<std::size_t>(i)] = 1;
        }
    };
    addKnown();
    findBold(whole, laidOver, lines);
    const std::array commons{commonLine(byLine, laidOver, lines, false),
                             commonLine(byLine, laidOver, lines, true)};
    std::vector<char> onBold(whole.size(), 0);
    cv::parallel_for_({1, lines.lines - 1}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            const auto at = static_cast<std::size_t>(i);
            const auto isOver = [&](const std::optional<GridLine>& common) {
                return common && isLaidOver(whole[at], *common, byLine[at]) ? char{1} : char{0};
            };
            laidOver[at] = isOver(commons[0]);
            onBold[at] = lines.isBold(i) ? isOver(commons[1]) : char{0};
        }
    });
    // Bold lines are where they should be, but for a few that are not seen all along.
    int bold = 0;
    int over = 0;
    for (int i = 1; i + 1 < lines.lines; ++i) {
        bold += lines.isBold(i) ? 1 : 0;
        over += lines.isBold(i) && laidOver[static_cast<std::size_t>(i)] != 0 ? 1 : 0;
    }
    for (int i = 1; i + 1 < lines.lines && 2 * over < bold; ++i) {
        if (lines.isBold(i)) {
            laidOver[static_cast<std::size_t>(i)] = onBold[static_cast<std::size_t>(i)];
        }
    }
    addKnown();
    findBold(whole, laidOver, lines);
    return laidOver;
}

EdgeLines edgesOf(const Sheet& sheet, const std::vector<cv::Vec3f>& grounds, bool upright,
                  std::span<const int> known) {
    EdgeLines result;
    result.lines = (upright ? sheet.columns : sheet.rows) + 1;
    result.along = upright ? sheet.rows : sheet.columns;
    result.edges.resize(static_cast<std::size_t>(result.lines) *
                        static_cast<std::size_t>(result.along));
    const int cell = sheet.cell;
    const int reach = std::max(5, static_cast<int>(std::lround(kReach * cell)));
    std::vector<EdgeProfile> profiles(result.edges.size());
    cv::parallel_for_({0, result.lines}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            for (int k = 0; k < result.along; ++k) {
                EdgeProfile& one = profiles[static_cast<std::size_t>(i * result.along + k)];
                one.colours.resize(static_cast<std::size_t>(2 * reach));
                readColours(sheet.straight, upright ? i * cell : k * cell,
                            upright ? k * cell : i * cell, upright, cell, one);
                const int cellBefore = upright ? k * sheet.columns + std::max(0, i - 1)
                                               : std::max(0, i - 1) * sheet.columns + k;
                const int cellAfter = upright ? k * sheet.columns + std::min(i, sheet.columns - 1)
                                              : std::min(i, sheet.rows - 1) * sheet.columns + k;
                findSides(one, cell, grounds[static_cast<std::size_t>(cellBefore)],
                          grounds[static_cast<std::size_t>(cellAfter)]);
            }
        }
    });
    std::vector<std::vector<const EdgeProfile*>> byLine(static_cast<std::size_t>(result.lines));
    std::vector<const EdgeProfile*> spread; // over the whole grid
    for (std::size_t i = 0; i < profiles.size(); ++i) {
        byLine[i / static_cast<std::size_t>(result.along)].push_back(&profiles[i]);
        if (i % (1 + profiles.size() / 1500) == 0) {
            spread.push_back(&profiles[i]);
        }
    }
    const std::optional<GridLine> usual = onPaper(spread, reach);
    std::vector<std::optional<GridLine>> papers(byLine.size());
    std::vector<GridLine> whole(byLine.size());
    cv::parallel_for_({0, result.lines}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            const auto at = static_cast<std::size_t>(i);
            papers[at] = onPaper(byLine[at], reach);
            whole[at] = gridLineOf(byLine[at], reach);
        }
    });
    const std::vector<char> laidOver = findLaidOver(whole, byLine, known, result);
    for (std::size_t i = 0; i < papers.size(); ++i) {
        if (laidOver[i] != 0) {
            papers[i].reset();
        }
    }
    const std::vector<std::optional<GridLine>> bold = boldLines(papers, usual, byLine, reach);
    const std::array commons{commonLine(byLine, laidOver, result, false),
                             commonLine(byLine, laidOver, result, true)};
    result.looks.resize(whole.size());
    for (int i = 1; i + 1 < result.lines; ++i) {
        const auto at = static_cast<std::size_t>(i);
        if (laidOver[at] == 0 && commons[0]) {
            result.looks[at] = lookBeyond(whole[at], *commons[0], commons[1]);
        }
    }
    cv::parallel_for_({0, result.lines}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            const auto at = static_cast<std::size_t>(i);
            std::vector<GridLine> lines;
            const auto add = [&](const GridLine& line) {
                lines.push_back(line);
                if (std::optional<GridLine> opaque = opaqueOf(line)) {
                    lines.push_back(*std::move(opaque));
                }
            };
            if (laidOver[at] != 0 && commons[0]) {
                add(*commons[0]);
                if (commons[1] && result.isBold(i)) {
                    add(*commons[1]);
                }
            } else {
                add(whole[at]);
            }
            for (const auto* one :
                 std::array<const std::optional<GridLine>*, 3>{&papers[at], &usual, &bold[at]}) {
                if (*one) {
                    add(**one);
                }
            }
            for (int k = 0; k < result.along; ++k) {
                result.at(i, k) = excessOf(*byLine[at][static_cast<std::size_t>(k)], lines);
            }
        }
    });
    return result;
}

} // namespace

void EdgeExcess::measure() {
    mass = 0;
    float weight = 1e-3F;
    float place = 0;
    for (std::size_t i = 0; i < over.size(); ++i) {
        const float size = over[i].dot(over[i]);
        mass += std::sqrt(size);
        weight += size;
        place += size * static_cast<float>(i);
    }
    // A thin line's middle may be one pixel only.
    const int middle = static_cast<int>(std::lround(place / weight));
    float most = -1;
    for (int i = middle - 1; i <= middle + 1; ++i) {
        if (i < 0 || i >= static_cast<int>(over.size())) {
            continue;
        }
        const auto at = static_cast<std::size_t>(i);
        if (const float size = over[at].dot(over[at]); size > most) {
            most = size;
            core = over[at] + under[at];
            coreAt = i;
        }
    }
}

bool EdgeExcess::isOwn() const {
    if (over.empty()) {
        return false;
    }
    const auto at = static_cast<std::size_t>(coreAt);
    const cv::Vec3f step = over[at] + under[at] - bare[at];
    return over[at].dot(step) > step.dot(step) / 2;
}

cv::Vec3f EdgeProfile::ground(int t, float shift) const {
    const float share = std::clamp(static_cast<float>(t) + 1 - shift, 0.0F, 1.0F);
    return before * (1 - share) + after * share;
}

EdgeExcess::Fit EdgeExcess::fit(const cv::Vec3f& colour, float width, Part part) const {
    Fit result;
    float moment = 0;
    float seen = 0;
    float dueMoment = 0;
    float all = 1e-3F;
    float left = 0;
    for (std::size_t i = 0; i < over.size(); ++i) {
        const cv::Vec3f way = colour - under[i];
        const float length = way.dot(way);
        const float place = static_cast<float>(from) + static_cast<float>(i) + 0.5F;
        if (part != Part::Both && (place < 0) != (part == Part::Before)) {
            continue;
        }
        all += over[i].dot(over[i]);
        if (length < kTellable * kTellable) {
            left += over[i].dot(over[i]);
            result.hidden += std::abs(place) < width / 2 ? 1.0F : 0.0F;
            continue;
        }
        const float share = std::clamp(over[i].dot(way) / length, -0.2F, 1.1F);
        const cv::Vec3f rest = over[i] - way * share;
        left += rest.dot(rest);
        result.width += share;
        moment += share * place;
        const float within = std::clamp(width / 2 + 0.5F - std::abs(place), 0.0F, 1.0F);
        seen += within;
        dueMoment += within * place;
    }
    result.explained = 1 - left / all;
    result.due = seen > 0 ? dueMoment / seen : 0;
    result.place = result.width > 0.2F ? moment / result.width : 0;
    return result;
}

EdgeLines uprightEdges(const Sheet& sheet, const std::vector<cv::Vec3f>& grounds,
                       std::span<const int> known) {
    return edgesOf(sheet, grounds, true, known);
}

EdgeLines levelEdges(const Sheet& sheet, const std::vector<cv::Vec3f>& grounds,
                     std::span<const int> known) {
    return edgesOf(sheet, grounds, false, known);
}

} // namespace otherskein::trace::detail
