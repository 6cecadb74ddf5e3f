#include "trace/detail/edge_pieces.h"

#include "trace/detail/line_cover.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>
#include <ranges>

namespace otherskein::trace::detail {

namespace {

constexpr float kLeastMass = 75;    // px · grey levels
constexpr float kLeastWidth = 1.1F; // px
// Of the kind's width, as far as it can be seen.
constexpr float kSure = 0.62F;
constexpr float kLikely = 0.4F;
constexpr float kMost = 1.7F;
// Share of what is there that the line explains.
constexpr float kExplained = 0.75F;
constexpr float kSomeExplained = 0.5F;
constexpr std::size_t kLeastPieces = 3;
constexpr float kMostHalf = 0.25F; // half pieces for a whole one

/// The kind that explains best what lies along a side.
struct Match {
    int kind = -1;
    float share = 0; ///< of the kind's width that is there, where it can be seen
    float explained = 0;
};

Match matchOf(const EdgeExcess& edge, const std::vector<LineKind>& kinds, int cell) {
    Match best;
    if (edge.mass < kLeastMass) {
        return best;
    }
    for (std::size_t n = 0; n < kinds.size(); ++n) {
        const LineKind& kind = kinds[n];
        const EdgeExcess::Fit fit = edge.fit(kind.colour, kind.width);
        // Half of a line may lie over what is as dark as the line.
        const float seen = std::max(kind.width - fit.hidden, kind.width / 4);
        const float share = fit.hidden < 1 || fit.width > kLeastWidth ? fit.width / seen : 0;
        const bool isThere = share > kLikely && fit.width < kMost * kind.width &&
                             std::abs(fit.place - fit.due) < mostOffSide(cell);
        if (isThere && fit.explained > std::max(kSomeExplained, best.explained)) {
            best = {static_cast<int>(n), share, fit.explained};
        }
    }
    return best;
}

bool isBetweenBare(const EdgeExcess& edge) {
    constexpr float kPaper = 225;
    return !edge.bare.empty() &&
           std::ranges::all_of(std::array{edge.bare.front(), edge.bare.back()},
                               [](const cv::Vec3f& one) {
                                   return std::min({one[0], one[1], one[2]}) > kPaper;
                               });
}

/// Whether the pieces lie on lines that are steps of one length apart, and along all of these where
/// cells are bare: the grid's bold lines, the rest of them hidden under coloured cells.
bool isHiddenBold(const std::vector<EdgePiece>& pieces,
                  const std::map<std::pair<bool, int>, int>& lines, const EdgeLines& upright,
                  const EdgeLines& level) {
    constexpr double kChance = 0.01; // the phases of both ways are free, all else is not
    const int all = static_cast<int>(pieces.size());
    for (int step = 5; step <= 20; ++step) {
        std::map<std::pair<bool, int>, std::pair<int, int>> phases; // pieces, lines
        for (const auto& [line, count] : lines) {
            auto& phase = phases[{line.first, line.second % step}];
            phase.first += count;
            ++phase.second;
        }
        int on = 0;
        int distinct = 0;
        int between = 0;
        for (const EdgeLines* way : {&upright, &level}) {
            std::pair<int, int> best;
            int start = -1;
            for (const auto& [phase, counts] : phases) {
                if (phase.first == (way == &upright) && counts > best) {
                    best = counts;
                    start = phase.second;
                }
            }
            on += best.first;
            distinct += best.second;
            for (int i = start == 0 ? step : start; i > 0 && i + 1 < way->lines; i += step) {
                for (int k = 0; k < way->along; ++k) {
                    between += isBetweenBare(way->at(i, k)) ? 1 : 0;
                }
            }
        }
        // Where the steps of one way's bold lines are known, the other way has the same.
        const bool isKnown = step == upright.boldStep || step == level.boldStep;
        if (10 * on > 9 * all && std::pow(step, 2 - distinct) < kChance &&
            (isKnown || 10 * on > 6 * between)) {
            return true;
        }
    }
    return false;
}

/// Whether the pieces lie on the grid's bold lines, or nearly all along one or two lines of one
/// way, as those that mark a grid's middle or a fold of the paper.
bool isOnGrid(const std::vector<EdgePiece>& pieces, const EdgeLines& upright,
              const EdgeLines& level) {
    if (pieces.empty()) {
        return false;
    }
    constexpr int kMany = 8;
    std::map<std::pair<bool, int>, int> lines;
    int bold = 0;
    for (const EdgePiece& one : pieces) {
        ++lines[{one.isUpright, one.line}];
        bold += (one.isUpright ? upright : level).isBold(one.line) ? 1 : 0;
    }
    const int all = static_cast<int>(pieces.size());
    const int onOne = std::ranges::max(lines | std::views::values);
    const bool isOneWay = lines.begin()->first.first == lines.rbegin()->first.first;
    return 10 * bold > 7 * all ||
           (all > kMany && (5 * onOne > 4 * all || (lines.size() < 3 && isOneWay))) ||
           isHiddenBold(pieces, lines, upright, level);
}

/// Whether a cell has the colour along all its sides, `depth` px within.
bool hasAround(const Sheet& sheet, const cv::Rect& box, const cv::Vec3f& colour, int depth) {
    constexpr double kAlike = 60;   // BGR
    constexpr double kWhole = 0.8;  // of a side
    const int end = sheet.cell / 6; // what lies along the other sides
    const int far = sheet.cell - 1 - depth;
    int sides = 0;
    for (const bool isUpright : {false, true}) {
        for (const int across : {depth, far}) {
            int like = 0;
            for (int along = end; along < sheet.cell - end; ++along) {
                const cv::Point at =
                    box.tl() + (isUpright ? cv::Point(across, along) : cv::Point(along, across));
                const cv::Vec3f pixel(sheet.straight.at<cv::Vec3b>(at));
                like += cv::norm(pixel - colour) < kAlike ? 1 : 0;
            }
            sides += like > kWhole * (sheet.cell - 2 * end) ? 1 : 0;
        }
    }
    return sides == 4;
}

/// Whether most pieces lie between cells that have the line's colour all around: what a broad sign
/// leaves of its ground, not lines.
bool isGroundOfSigns(const Sheet& sheet, const std::vector<EdgePiece>& inner,
                     const LineKind& kind) {
    const int depth = std::max(1, static_cast<int>(std::lround(kind.width / 4)));
    std::size_t around = 0;
    for (const EdgePiece& one : inner) {
        const auto cellAt = [&](int line) {
            return one.isUpright ? sheet.box(line, one.place) : sheet.box(one.place, line);
        };
        around += hasAround(sheet, cellAt(one.line - 1), kind.colour, depth) &&
                          hasAround(sheet, cellAt(one.line), kind.colour, depth)
                      ? 1
                      : 0;
    }
    return 2 * around > inner.size();
}

/// Half pieces, for a whole one, that may be; fewer of slim lines, which more looks like.
float mostHalf(float width) {
    constexpr float kBroad = 0.15F; // of a cell
    return kMostHalf * std::clamp((width - kSlimmestLine) / (kBroad - kSlimmestLine), 0.0F, 1.0F);
}

} // namespace

std::set<EdgePiece> edgePieces(const Sheet& sheet, const EdgeLines& upright, const EdgeLines& level,
                               const std::vector<LineKind>& kinds) {
    std::set<EdgePiece> pieces;
    std::set<EdgePiece> likely;
    std::vector<int> halves(kinds.size(), 0);
    for (const EdgeLines* lines : {&upright, &level}) {
        for (int i = 0; i < lines->lines && !kinds.empty(); ++i) {
            const bool isBorder = i == 0 || i + 1 == lines->lines;
            for (int k = 0; k < lines->along; ++k) {
                const EdgeExcess& edge = lines->at(i, k);
                const Match match = matchOf(edge, kinds, sheet.cell);
                if (match.kind < 0) {
                    continue;
                }
                const bool isClear = match.explained > kExplained;
                const EdgePiece piece{lines == &upright, i, k, match.kind};
                const auto kind = static_cast<std::size_t>(match.kind);
                halves[kind] += isClear && !isBorder && match.share < kSure ? 1 : 0;
                const bool isSure =
                    isClear && match.share > kSure &&
                    sideCover(sheet, piece.isUpright, i, k, edge, kinds[kind].colour).all() >
                        kCovered;
                (isSure ? pieces : likely).insert(piece);
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
        std::vector<EdgePiece> inner; // not along the grid's border
        for (const EdgePiece& one : pieces) {
            if (one.kind == static_cast<int>(n)) {
                own.push_back(one);
                const int last = (one.isUpright ? upright : level).lines - 1;
                if (one.line > 0 && one.line < last) {
                    inner.push_back(one);
                }
            }
        }
        const LineKind& kind = kinds[n];
        // A line is there or not: where much is half there, it is something else.
        const bool isHalf =
            static_cast<float>(halves[n]) > mostHalf(kind.width / static_cast<float>(sheet.cell)) *
                                                static_cast<float>(inner.size());
        const std::size_t least = kind.isProven ? 1 : kLeastPieces;
        if (inner.size() < least || (isHalf && !kind.isProven) || isOnGrid(inner, upright, level) ||
            isGroundOfSigns(sheet, inner, kind)) {
            for (const EdgePiece& one : own) {
                pieces.erase(one);
            }
        }
    }
    return pieces;
}

} // namespace otherskein::trace::detail
