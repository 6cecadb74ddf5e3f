#include "trace/detail/line_kinds.h"

#include "trace/detail/line_cover.h"
#include "trace/detail/median.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numeric>

namespace otherskein::trace::detail {

namespace {

constexpr float kLeastMass = 150;   // px · grey levels; less is what scanning leaves
constexpr float kLeastWidth = 1.1F; // px
constexpr float kExplained = 0.8F;  // share of an excess that a line of one colour explains
constexpr std::size_t kLeastPieces = 3;
constexpr int kMostKinds = 6;
constexpr std::size_t kManySeeds = 500;
constexpr float kSameWidth = 0.2F; // share by which pieces of a kind vary
constexpr float kFromPaper = 100;  // grey levels of a channel that a line differs from paper
// BGR distances.
constexpr double kSameColour = 40;
constexpr double kOffMixtures = 15;
constexpr double kNear = 40; // a cell's ground and a line that it hides

/// Whether a colour is a mixture of paper and a smaller share of ink: lines cover what they lie on.
bool isThinInk(const cv::Vec3f& colour, const cv::Vec3f& ink) {
    constexpr float kLeastShare = 0.62F;
    const cv::Vec3f paper(255, 255, 255);
    const cv::Vec3f way = ink - paper;
    const float share = (colour - paper).dot(way) / std::max(1.0F, way.dot(way));
    return share < kLeastShare && cv::norm(colour - paper - way * share) < 30;
}

/// How far a colour is from all mixtures of two others.
double offMixtures(const cv::Vec3f& colour, const cv::Vec3f& one, const cv::Vec3f& other) {
    const cv::Vec3f way = other - one;
    const float share =
        std::clamp((colour - one).dot(way) / std::max(1.0F, way.dot(way)), 0.0F, 1.0F);
    return cv::norm(colour - one - way * share);
}

/// Width of what lies along a side, or 0 where it is no line. One of the cells may be nearly of the
/// line's colour: then the line's other half tells.
float widthOf(const EdgeExcess& edge, const cv::Vec3f& before, const cv::Vec3f& after, int cell) {
    const double offBefore = cv::norm(before - edge.core);
    const double offAfter = cv::norm(after - edge.core);
    // Where two cells meet, a blurred print has all mixtures of the two.
    if (std::max(offBefore, offAfter) < kNear ||
        offMixtures(edge.core, before, after) < kOffMixtures) {
        return 0;
    }
    using Part = EdgeExcess::Part;
    const bool isWhole = std::min(offBefore, offAfter) >= kNear;
    const EdgeExcess::Fit fit = edge.fit(edge.core, static_cast<float>(cell),
                                         isWhole                ? Part::Both
                                         : offBefore < offAfter ? Part::After
                                                                : Part::Before);
    if (fit.width < kLeastWidth || fit.explained < kExplained ||
        (isWhole && std::abs(fit.place) > mostOffSide(cell) + fit.hidden / 2)) {
        return 0;
    }
    return (isWhole ? 1.0F : 2.0F) * (fit.width + fit.hidden);
}

/// What lies along whole sides, between cells of other colours.
std::vector<LineSeed> seedsOf(const Sheet& sheet, const EdgeLines& upright, const EdgeLines& level,
                              const std::vector<cv::Vec3f>& grounds) {
    std::vector<LineSeed> seeds;
    const int columns = level.along;
    for (const EdgeLines* lines : {&upright, &level}) {
        const bool isUpright = lines == &upright;
        for (int i = 1; i + 1 < lines->lines; ++i) {
            for (int k = 0; k < lines->along; ++k) {
                const EdgeExcess& edge = lines->at(i, k);
                if (edge.mass < kLeastMass || !edge.isOwn()) {
                    continue;
                }
                const int before = isUpright ? k * columns + i - 1 : (i - 1) * columns + k;
                const int after = isUpright ? k * columns + i : i * columns + k;
                if (const float width =
                        widthOf(edge, grounds[static_cast<std::size_t>(before)],
                                grounds[static_cast<std::size_t>(after)], sheet.cell);
                    width > 0 &&
                    sideCover(sheet, isUpright, i, k, edge, edge.core).all() > kCovered) {
                    seeds.push_back({edge.core, width});
                }
            }
        }
    }
    return seeds;
}

bool isLike(const LineSeed& one, const LineSeed& other) {
    return cv::norm(one.colour - other.colour) < kSameColour &&
           std::abs(one.width - other.width) < std::max(0.8F, kSameWidth * other.width);
}

/// The middle of the seeds that are like `one`.
LineKind kindAround(const LineSeed& one, const std::vector<LineSeed>& seeds) {
    std::array<std::vector<float>, 4> values;
    for (const LineSeed& seed : seeds) {
        if (isLike(seed, one)) {
            for (int c = 0; c < 3; ++c) {
                values[static_cast<std::size_t>(c)].push_back(seed.colour[c]);
            }
            values[3].push_back(seed.width);
        }
    }
    return {{medianOf(values[0]), medianOf(values[1]), medianOf(values[2])}, medianOf(values[3])};
}

} // namespace

float mostOffSide(int cell) {
    return std::max(1.5F, 0.09F * static_cast<float>(cell));
}

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

std::vector<LineKind> kindsOf(std::vector<LineSeed> seeds, std::size_t least, const cv::Vec3f& ink,
                              int cell) {
    std::vector<LineKind> kinds;
    for (int round = 0; round < kMostKinds && seeds.size() >= least; ++round) {
        // The seed that most are like.
        const std::size_t step = 1 + seeds.size() / kManySeeds;
        std::ptrdiff_t most = 0;
        const LineSeed* best = nullptr;
        for (std::size_t i = 0; i < seeds.size(); i += step) {
            const auto count = std::ranges::count_if(
                seeds, [&](const LineSeed& seed) { return isLike(seed, seeds[i]); });
            if (count > most) {
                most = count;
                best = &seeds[i];
            }
        }
        if (most < static_cast<std::ptrdiff_t>(least)) {
            break;
        }
        const LineKind kind = kindAround(*best, seeds);
        const float fromPaper = 255 - std::min({kind.colour[0], kind.colour[1], kind.colour[2]});
        if (kind.width > kSlimmestLine * static_cast<float>(cell) && fromPaper > kFromPaper &&
            !isThinInk(kind.colour, ink)) {
            kinds.push_back(kind);
        }
        const LineSeed middle{kind.colour, kind.width};
        const auto before = seeds.size();
        std::erase_if(seeds, [&](const LineSeed& seed) {
            return cv::norm(seed.colour - middle.colour) < 2 * kSameColour;
        });
        if (seeds.size() == before) {
            break;
        }
    }
    return kinds;
}

std::vector<LineKind> lineKinds(const Sheet& sheet, const EdgeLines& upright,
                                const EdgeLines& level, const std::vector<cv::Vec3f>& grounds,
                                const cv::Vec3f& ink) {
    return kindsOf(seedsOf(sheet, upright, level, grounds), kLeastPieces, ink, sheet.cell);
}

std::vector<int> linesOfKinds(const EdgeLines& lines, const EdgeLines& across,
                              const std::vector<LineKind>& kinds) {
    constexpr int kLeastStep = 4;
    std::vector<int> result;
    int step = 0;
    // Bold lines of another step than those across may be what lies over the grid.
    const bool isBoldSure = across.boldStep == 0 || across.boldStep == lines.boldStep;
    for (int i = 1; i + 1 < lines.lines; ++i) {
        const LineLook& look = lines.looks[static_cast<std::size_t>(i)];
        if (isBoldSure && lines.isBold(i) && !look.isBeyondBold) {
            continue;
        }
        const bool isInMiddle = std::abs(2 * i - (lines.lines - 1)) < 2;
        if (look.width > 0 && !isInMiddle && std::ranges::any_of(kinds, [&](const LineKind& kind) {
                return isLike({look.colour, look.width}, {kind.colour, kind.width});
            })) {
            step = result.size() < 2 ? i - (result.empty() ? 0 : result.back())
                                     : std::gcd(step, i - result.back());
            result.push_back(i);
        }
    }
    if (step == across.boldStep ||
        (across.boldStep == 0 && result.size() > 2 && step >= kLeastStep)) {
        result.clear();
    }
    return result;
}

} // namespace otherskein::trace::detail
