#include "trace/detail/line_kinds.h"

#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>
#include <ranges>

namespace otherskein::trace::detail {

namespace {

constexpr float kLeastMass = 150;   // px · grey levels; less is what scanning leaves
constexpr float kLeastWidth = 1.1F; // px
constexpr float kExplained = 0.8F;  // share of an excess that a line of one colour explains
constexpr double kSameColour = 60;  // BGR
constexpr float kSameWidth = 0.27F; // share by which pieces of a kind vary
constexpr std::size_t kLeastPieces = 3;
constexpr std::size_t kFewPieces = 6;    // fewer are of exactly one colour, or chance
constexpr float kFromPaper = 100;        // grey levels of a channel that a line differs from paper
constexpr float kOneColour = 22;         // BGR: usual step of a piece's core from the kind's colour
constexpr float kLeastExplained = 0.94F; // usually
constexpr float kSlimmest = 0.5F;        // of the main kind's width
constexpr double kMostAlone = 0.5;       // of slim lines, which much else looks like
constexpr float kSlimmestWidth = 1.9F;   // px
constexpr double kSlimCrowd = 1.9;       // sides with an excess, for one that is a line
constexpr double kCrowd = 12;
constexpr float kSure = 0.62F; // of the kind's width
constexpr float kLikely = 0.4F;

struct Seed {
    const EdgeExcess* edge = nullptr;
    int line = 0; ///< both ways counted on
};

float offPlace(int cell) {
    return std::max(1.5F, 0.09F * static_cast<float>(cell));
}

/// Whether a colour is a mixture of paper and a smaller share of ink: lines cover what they lie on.
bool isThinInk(const cv::Vec3f& colour, const cv::Vec3f& ink) {
    constexpr float kLeastShare = 0.62F;
    const cv::Vec3f paper(255, 255, 255);
    const cv::Vec3f way = ink - paper;
    const float share = (colour - paper).dot(way) / std::max(1.0F, way.dot(way));
    return share < kLeastShare && cv::norm(colour - paper - way * share) < 30;
}

/// The colour and width of seeds that look alike; width 0 where they do not come to one.
LineKind kindOf(const std::vector<Seed>& seeds) {
    std::array<std::vector<float>, 3> colours;
    for (std::size_t i = 0; i < (seeds.size() + 1) / 2; ++i) { // the strongest come first
        for (std::size_t c = 0; c < 3; ++c) {
            colours[c].push_back(seeds[i].edge->core[static_cast<int>(c)]);
        }
    }
    LineKind kind;
    for (std::size_t c = 0; c < 3; ++c) {
        kind.colour[static_cast<int>(c)] = medianOf(colours[c]);
    }
    std::vector<float> own;
    std::vector<float> explaineds;
    std::map<int, int> lines;
    for (const Seed& seed : seeds) {
        const EdgeExcess::Fit fit = seed.edge->fit(kind.colour, 0);
        own.push_back(fit.width);
        explaineds.push_back(fit.explained);
        ++lines[seed.line];
    }
    std::vector<float> widths = own;
    std::ranges::sort(widths);
    // The width that most have.
    std::size_t most = 0;
    for (const float width : widths) {
        const auto from = std::ranges::lower_bound(widths, width * (1 - kSameWidth));
        const auto to = std::ranges::upper_bound(widths, width * (1 + kSameWidth));
        if (const auto count = static_cast<std::size_t>(to - from); width > 0 && count >= most) {
            most = count;
            kind.width = width;
        }
    }
    const float fromPaper = 255 - std::min({kind.colour[0], kind.colour[1], kind.colour[2]});
    std::vector<float> steps;
    std::vector<float> shares;
    for (std::size_t i = 0; i < seeds.size(); ++i) {
        if (std::abs(own[i] - kind.width) < kSameWidth * kind.width) {
            steps.push_back(static_cast<float>(cv::norm(seeds[i].edge->core - kind.colour)));
            shares.push_back(explaineds[i]);
        }
    }
    const bool isFew = steps.size() < kFewPieces;
    if (isFew && !steps.empty() && medianOf(steps) > kOneColour / 3) {
        kind.width = 0;
        return kind;
    }
    if (fromPaper < kFromPaper || steps.empty() || medianOf(steps) > kOneColour ||
        medianOf(shares) < kLeastExplained) {
        kind.width = 0;
        return kind;
    }
    const bool isOneWidth = 2 * most >= seeds.size();
    const int onOne = std::ranges::max(lines | std::views::values);
    const bool isGridLine = lines.size() < 3 && 4 * onOne > 3 * static_cast<int>(seeds.size());
    if (most < kLeastPieces || !isOneWidth || isGridLine) {
        kind.width = 0;
    }
    return kind;
}

} // namespace

cv::Vec3f inkOf(const Sheet& sheet) {
    std::vector<cv::Vec3b> some;
    for (int y = 1; y < sheet.straight.rows; y += 5) {
        for (int x = y % 7; x < sheet.straight.cols; x += 7) {
            some.push_back(sheet.straight.at<cv::Vec3b>(y, x));
        }
    }
    const auto dark = some.begin() + static_cast<std::ptrdiff_t>(some.size() / 50);
    std::ranges::nth_element(some, dark, {},
                             [](const cv::Vec3b& one) { return one[0] + one[1] + one[2]; });
    return {static_cast<float>((*dark)[0]), static_cast<float>((*dark)[1]),
            static_cast<float>((*dark)[2])};
}

std::vector<LineKind> lineKinds(const EdgeLines& upright, const EdgeLines& level,
                                const std::vector<cv::Vec3f>& grounds, const cv::Vec3f& ink,
                                int cell) {
    std::vector<Seed> seeds;
    const int columns = level.along;
    for (const EdgeLines* lines : {&upright, &level}) {
        const bool isUpright = lines == &upright;
        for (int i = 1; i + 1 < lines->lines; ++i) {
            for (int k = 0; k < lines->along; ++k) {
                const EdgeExcess& edge = lines->at(i, k);
                if (edge.mass < kLeastMass) {
                    continue;
                }
                const EdgeExcess::Fit fit = edge.fit(edge.core, 0);
                if (fit.width < kLeastWidth || fit.explained < kExplained ||
                    std::abs(fit.place) > offPlace(cell)) {
                    continue;
                }
                const int one = isUpright ? k * columns + i - 1 : (i - 1) * columns + k;
                const int other = isUpright ? k * columns + i : i * columns + k;
                const auto near = [&](int at) {
                    return cv::norm(grounds[static_cast<std::size_t>(at)] - edge.core) < 40;
                };
                if (!near(one) && !near(other)) {
                    seeds.push_back({&edge, isUpright ? i : upright.lines + i});
                }
            }
        }
    }
    std::ranges::stable_sort(seeds, std::greater<>(),
                             [](const Seed& seed) { return seed.edge->mass; });
    std::vector<std::vector<Seed>> alike;
    for (const Seed& seed : seeds) {
        const auto same = std::ranges::find_if(alike, [&](const std::vector<Seed>& one) {
            return cv::norm(one.front().edge->core - seed.edge->core) < kSameColour;
        });
        if (same != alike.end()) {
            same->push_back(seed);
        } else {
            alike.push_back({seed});
        }
    }
    std::vector<LineKind> kinds;
    std::vector<std::size_t> counts;
    for (const std::vector<Seed>& one : alike) {
        if (one.size() < kLeastPieces) {
            continue;
        }
        if (const LineKind kind = kindOf(one); kind.width > 0 && !isThinInk(kind.colour, ink)) {
            kinds.push_back(kind);
            counts.push_back(one.size());
        }
    }
    // A chart's lines are of about one width; what is much slimmer is left of something else.
    float widest = 0;
    std::size_t most = 0;
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        if (counts[i] > most) {
            most = counts[i];
            widest = kinds[i].width;
        }
    }
    std::erase_if(kinds, [&](const LineKind& one) { return one.width < kSlimmest * widest; });
    return kinds;
}

namespace {

/// Whether most pieces lie on the grid's bold lines, or along one line.
bool isOnGrid(const std::vector<EdgePiece>& pieces, const EdgeLines& upright,
              const EdgeLines& level) {
    std::map<std::pair<bool, int>, int> lines;
    int bold = 0;
    for (const EdgePiece& one : pieces) {
        ++lines[{one.isUpright, one.line}];
        bold += (one.isUpright ? upright : level).isBold(one.line) ? 1 : 0;
    }
    const int all = static_cast<int>(pieces.size());
    const int onOne = std::ranges::max(lines | std::views::values);
    return 10 * bold > 7 * all || (all > 8 && 5 * onOne > 4 * all);
}

/// Whether pieces are of one colour and nothing else, as lines are.
bool isOneKind(const std::vector<EdgePiece>& pieces, const LineKind& kind, const EdgeLines& upright,
               const EdgeLines& level) {
    std::vector<float> steps;
    std::vector<float> shares;
    for (const bool isSeenOnly : {true, false}) {
        for (const EdgePiece& one : pieces) {
            const EdgeExcess& edge = (one.isUpright ? upright : level).at(one.line, one.place);
            const EdgeExcess::Fit fit = edge.fit(kind.colour, kind.width);
            if (isSeenOnly && fit.hidden > kind.width / 4) {
                continue; // little of it is seen
            }
            steps.push_back(static_cast<float>(cv::norm(edge.core - kind.colour)));
            shares.push_back(fit.explained);
        }
        if (steps.size() >= kLeastPieces) {
            break;
        }
    }
    // A thin line's core is a mixture, by how it falls on the pixels.
    const float limit = kOneColour * std::clamp(6 / kind.width, 1.0F, 3.0F);
    const auto most = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() * 7 / 10);
    std::ranges::nth_element(steps, most);
    return *most < 2 * limit && medianOf(steps) < limit && medianOf(shares) > kLeastExplained;
}

/// Share of pieces that no other one meets at either end.
double aloneShare(const std::vector<EdgePiece>& pieces) {
    std::map<std::pair<int, int>, int> ends;
    const auto endsOf = [](const EdgePiece& one) {
        const std::pair start =
            one.isUpright ? std::pair{one.line, one.place} : std::pair{one.place, one.line};
        return std::array{start, one.isUpright ? std::pair{start.first, start.second + 1}
                                               : std::pair{start.first + 1, start.second}};
    };
    for (const EdgePiece& one : pieces) {
        for (const auto& end : endsOf(one)) {
            ++ends[end];
        }
    }
    const auto alone = std::ranges::count_if(pieces, [&](const EdgePiece& one) {
        return std::ranges::all_of(endsOf(one), [&](const auto& end) { return ends[end] == 1; });
    });
    return static_cast<double>(alone) / static_cast<double>(pieces.size());
}

/// How many sides of cells have some excess, for one piece: lines stand out from a page on which
/// not much else does.
double crowd(const std::vector<EdgePiece>& pieces, const EdgeLines& upright,
             const EdgeLines& level) {
    std::vector<float> masses;
    for (const EdgePiece& one : pieces) {
        masses.push_back((one.isUpright ? upright : level).at(one.line, one.place).mass);
    }
    const float some = 0.3F * medianOf(masses);
    std::size_t count = 0;
    for (const EdgeLines* lines : {&upright, &level}) {
        for (int i = 1; i + 1 < lines->lines; ++i) {
            for (int k = 0; k < lines->along; ++k) {
                count += lines->at(i, k).mass > some ? 1 : 0;
            }
        }
    }
    return static_cast<double>(count) / static_cast<double>(pieces.size());
}

} // namespace

std::set<EdgePiece> edgePieces(const EdgeLines& upright, const EdgeLines& level,
                               const std::vector<LineKind>& kinds, int cell) {
    std::set<EdgePiece> pieces;
    std::set<EdgePiece> likely;
    for (const EdgeLines* lines : {&upright, &level}) {
        for (int i = 1; i + 1 < lines->lines; ++i) {
            for (int k = 0; k < lines->along; ++k) {
                const EdgeExcess& edge = lines->at(i, k);
                if (edge.mass < kLeastMass / 2) {
                    continue;
                }
                EdgePiece piece{lines == &upright, i, k, -1};
                float best = 0;
                bool isSure = false;
                for (std::size_t n = 0; n < kinds.size(); ++n) {
                    const LineKind& kind = kinds[n];
                    const EdgeExcess::Fit fit = edge.fit(kind.colour, kind.width);
                    // Half of a line may lie over what is as dark as the line.
                    const float seen = std::max(kind.width - fit.hidden, kind.width / 4);
                    const float share =
                        fit.hidden < 1 || fit.width > kLeastWidth ? fit.width / seen : 0;
                    const bool isThere =
                        share > kLikely && fit.width < 1.7F * kind.width &&
                        std::abs(fit.place) < offPlace(cell) + (kind.width + fit.hidden) / 4;
                    const float explained = fit.explained;
                    if (isThere && explained > best) {
                        best = explained;
                        piece.kind = static_cast<int>(n);
                        isSure = share > kSure && explained > 0.75F;
                    }
                }
                if (piece.kind >= 0 && best > 0.5F) {
                    (isSure ? pieces : likely).insert(piece);
                }
            }
        }
    }
    // Less sure ones stand where they go on straight from a sure one.
    for (bool isMore = true; isMore;) {
        isMore = false;
        for (auto it = likely.begin(); it != likely.end();) {
            EdgePiece before = *it;
            EdgePiece after = *it;
            --before.place;
            ++after.place;
            if (pieces.contains(before) || pieces.contains(after)) {
                pieces.insert(*it);
                it = likely.erase(it);
                isMore = true;
            } else {
                ++it;
            }
        }
    }
    for (std::size_t n = 0; n < kinds.size(); ++n) {
        std::vector<EdgePiece> own;
        std::ranges::copy_if(pieces, std::back_inserter(own),
                             [&](const EdgePiece& one) { return one.kind == static_cast<int>(n); });
        const bool isSlim = kinds[n].width < 0.13F * static_cast<float>(cell);
        if (own.size() < kLeastPieces || isOnGrid(own, upright, level) ||
            (isSlim && (aloneShare(own) > kMostAlone || kinds[n].width < kSlimmestWidth)) ||
            crowd(own, upright, level) > (isSlim ? kSlimCrowd : kCrowd) ||
            !isOneKind(own, kinds[n], upright, level)) {
            for (const EdgePiece& one : own) {
                pieces.erase(one);
            }
        }
    }
    return pieces;
}

} // namespace otherskein::trace::detail
