#include "trace/detail/lattice_fit.h"

#include <array>
#include <map>
#include <numeric>
#include <queue>
#include <set>

namespace otherskein::trace::detail {

namespace {

constexpr double kLeastScore = 0.25;      // of a tile, both ways; found by looking at pages
constexpr double kGoesOn = 0.2;           // of a tile beside one that is in
constexpr double kPitchTolerance = 0.015; // from tile to tile
constexpr double kMostStep = 0.22; // of a line's place against what the neighbour foretells, cells
constexpr double kUsual = 1.7;     // of cells that are not square; else one way is for half
constexpr double kMostAspect = 12; // one way taken for half, the other for five
constexpr int kLeastSamples = 8;

/// How regular both ways at these pitches.
double scoreAt(const Tile& tile, const cv::Point2d& pitch) {
    double x = 0;
    double y = 0;
    for (const double factor : {0.98, 0.99, 1.0, 1.01, 1.02}) {
        x = std::max(x, combScore(tile.x.correlation, pitch.y * factor));
        y = std::max(y, combScore(tile.y.correlation, pitch.x * factor));
    }
    return std::min({x, y, 1.0});
}

struct Seed {
    std::size_t tile = 0;
    cv::Point2d pitch; ///< from column to column, from row to row
};

/// The tile whose pitches most other tiles share.
std::optional<Seed> seedOf(const Tiles& tiles, const std::vector<char>& used) {
    std::optional<Seed> best;
    double most = 0;
    std::map<std::pair<int, int>, double> known; // support by pitches, to half a pixel
    for (std::size_t i = 0; i < tiles.tiles.size(); ++i) {
        const Tile& tile = tiles.tiles[i];
        const double score = std::min({tile.x.score, tile.y.score, 1.0});
        if (used[i] != 0 || score < kLeastScore) {
            continue;
        }
        const cv::Point2d pitch(tile.y.pitch, tile.x.pitch);
        const double aspect = std::max(pitch.x / pitch.y, pitch.y / pitch.x);
        if (aspect > kMostAspect) {
            continue;
        }
        const std::pair key(static_cast<int>(std::lround(2 * pitch.x)),
                            static_cast<int>(std::lround(2 * pitch.y)));
        if (!known.contains(key)) {
            double support = 0;
            for (std::size_t k = 0; k < tiles.tiles.size(); ++k) {
                if (used[k] == 0) {
                    const double one = scoreAt(tiles.tiles[k], pitch);
                    support += one >= kLeastScore ? one : 0;
                }
            }
            known[key] = aspect < kUsual ? support : support / 2;
        }
        const double support = known[key] * score;
        if (support > most) {
            most = support;
            best = {i, pitch};
        }
    }
    return best;
}

/// What is known of a tile on the lattice: coordinates of its centre, and its pitches.
struct Near {
    double column = 0;
    double row = 0;
    double wide = 0;
    double high = 0;
};

double coordinateAt(double value, double slope, double pitch, double along, double across) {
    return value + (across - slope * along) / pitch;
}

Near foretold(const Tile& from, const Near& value, const cv::Point2d& place) {
    const cv::Point2d step = place - from.centre;
    return {coordinateAt(value.column, from.y.slope, value.wide, step.y, step.x),
            coordinateAt(value.row, from.x.slope, value.high, step.x, step.y), value.wide,
            value.high};
}

double centrePhase(const TileLines& lines, double pitch) {
    return -phaseOf(lines.profile, pitch, 0, kTileSide * 0.8);
}

double nearestWithPhase(double foretoldValue, double phase) {
    return phase + std::round(foretoldValue - phase);
}

void addSamples(const TileLines& lines, double pitch, const cv::Point2d& centre, double value,
                bool isRow, std::vector<LatticeSample>& samples) {
    constexpr double kReach = kTileSide / 4.0;
    for (const double across : {-kReach, 0.0, kReach}) {
        double strength = 0;
        const double width = std::max(kTileSide / 2.0, 3 * pitch);
        const double phase = -phaseOf(lines.profile, pitch, across, width, &strength);
        if (strength < 0.15) {
            continue;
        }
        const double coordinate =
            nearestWithPhase(coordinateAt(value, lines.slope, pitch, 0, across), phase);
        for (const double along : {-kReach, kReach}) {
            const double place = across + lines.slope * along;
            samples.push_back(
                {isRow ? centre + cv::Point2d(along, place) : centre + cv::Point2d(place, along),
                 coordinate, isRow});
        }
    }
}

/// Tiles that go on the lattice of the seed.
std::map<std::size_t, Near> grown(const Tiles& tiles, const std::vector<char>& used,
                                  const Seed& seed) {
    std::map<std::size_t, Near> known;
    std::map<std::size_t, Near> waiting;
    using Entry = std::pair<double, std::size_t>;
    std::priority_queue<Entry> queue;
    const Tile& first = tiles.tiles[seed.tile];
    const NearPitch wide = nearPitch(first.y, seed.pitch.x, 0.02);
    const NearPitch high = nearPitch(first.x, seed.pitch.y, 0.02);
    waiting[seed.tile] = {centrePhase(first.y, wide.pitch), centrePhase(first.x, high.pitch),
                          wide.pitch, high.pitch};
    queue.push({1, seed.tile});
    while (!queue.empty()) {
        const std::size_t i = queue.top().second;
        queue.pop();
        if (known.contains(i)) {
            continue;
        }
        const Tile& tile = tiles.tiles[i];
        known[i] = waiting[i];
        const int across = static_cast<int>(i) % tiles.across;
        const int down = static_cast<int>(i) / tiles.across;
        for (const auto& [dx, dy] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
            if (across + dx < 0 || across + dx >= tiles.across || down + dy < 0 ||
                down + dy >= tiles.down) {
                continue;
            }
            const auto next = static_cast<std::size_t>((down + dy) * tiles.across + across + dx);
            const Tile& other = tiles.tiles[next];
            if (used[next] != 0 || known.contains(next)) {
                continue;
            }
            const NearPitch itsWide = nearPitch(other.y, known[i].wide, kPitchTolerance);
            const NearPitch itsHigh = nearPitch(other.x, known[i].high, kPitchTolerance);
            const double score = std::min(itsWide.score, itsHigh.score);
            if (score < kGoesOn) {
                continue;
            }
            const Near wanted = foretold(tile, known[i], other.centre);
            const Near found{nearestWithPhase(wanted.column, centrePhase(other.y, itsWide.pitch)),
                             nearestWithPhase(wanted.row, centrePhase(other.x, itsHigh.pitch)),
                             itsWide.pitch, itsHigh.pitch};
            if (std::abs(found.column - wanted.column) < kMostStep &&
                std::abs(found.row - wanted.row) < kMostStep) {
                waiting[next] = found;
                queue.push({score, next});
            }
        }
    }
    return known;
}

/// One round of least squares for u·(g x + h y + 1) = a x + b y + c and the like for v. Places are
/// in units of `scale` px around `centre`, which also keeps the small pull of g and h to 0 fair.
cv::Matx33d solvedMap(const std::vector<LatticeSample>& samples, const std::vector<char>& kept,
                      const cv::Point2d& centre, double scale) {
    cv::Mat normal = cv::Mat::zeros(8, 8, CV_64F);
    cv::Mat right = cv::Mat::zeros(8, 1, CV_64F);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (kept[i] == 0) {
            continue;
        }
        const cv::Point2d at = (samples[i].place - centre) / scale;
        const double value = samples[i].coordinate;
        std::array<double, 8> row{};
        const std::size_t start = samples[i].isRow ? 3 : 0;
        row[start] = at.x;
        row[start + 1] = at.y;
        row[start + 2] = 1;
        row[6] = -value * at.x;
        row[7] = -value * at.y;
        for (int a = 0; a < 8; ++a) {
            for (int b = 0; b < 8; ++b) {
                normal.at<double>(a, b) +=
                    row[static_cast<std::size_t>(a)] * row[static_cast<std::size_t>(b)];
            }
            right.at<double>(a) += row[static_cast<std::size_t>(a)] * value;
        }
    }
    constexpr double kPull = 20; // as if that many cells² of error stood against g = h = 1
    normal.at<double>(6, 6) += kPull;
    normal.at<double>(7, 7) += kPull;
    cv::Mat solution;
    cv::solve(normal, right, solution, cv::DECOMP_SVD);
    const auto s = [&](int i) { return solution.at<double>(i); };
    const cv::Matx33d toLattice(s(0), s(1), s(2), s(3), s(4), s(5), s(6), s(7), 1);
    const cv::Matx33d placed(1 / scale, 0, -centre.x / scale, 0, 1 / scale, -centre.y / scale, 0, 0,
                             1);
    return toLattice * placed;
}

cv::Point2d mapped(const cv::Matx33d& map, const cv::Point2d& place) {
    const cv::Vec3d at = map * cv::Vec3d(place.x, place.y, 1);
    return {at[0] / at[2], at[1] / at[2]};
}

} // namespace

std::optional<cv::Matx33d> fittedLattice(std::vector<LatticeSample> samples, double pitch) {
    std::vector<char> kept(samples.size(), 1);
    cv::Point2d low(1e9, 1e9);
    cv::Point2d high(-1e9, -1e9);
    cv::Vec2d mean;
    cv::Vec2d number(1e-9, 1e-9);
    for (const LatticeSample& one : samples) {
        low = {std::min(low.x, one.place.x), std::min(low.y, one.place.y)};
        high = {std::max(high.x, one.place.x), std::max(high.y, one.place.y)};
        mean[one.isRow ? 1 : 0] += one.coordinate;
        number[one.isRow ? 1 : 0] += 1;
    }
    if (number[0] < kLeastSamples || number[1] < kLeastSamples) {
        return std::nullopt;
    }
    // Coordinates around 0 keep the equations of g and h from drowning the others.
    const cv::Vec2d shift(std::round(mean[0] / number[0]), std::round(mean[1] / number[1]));
    for (LatticeSample& one : samples) {
        one.coordinate -= shift[one.isRow ? 1 : 0];
    }
    const cv::Point2d centre = (low + high) / 2;
    const double scale = std::max({high.x - low.x, high.y - low.y, pitch}) / 2;
    cv::Matx33d map;
    for (const double limit : {0.6, 0.25, 0.15, 0.12}) {
        map = solvedMap(samples, kept, centre, scale);
        int count = 0;
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const cv::Point2d at = mapped(map, samples[i].place);
            const double off = std::abs((samples[i].isRow ? at.y : at.x) - samples[i].coordinate);
            kept[i] = off < limit ? 1 : 0;
            count += kept[i];
        }
        if (count < 2 * kLeastSamples) {
            return std::nullopt;
        }
    }
    const cv::Matx33d shifted(1, 0, shift[0], 0, 1, shift[1], 0, 0, 1);
    return (shifted * map).inv();
}

std::optional<FoundLattice> latticeOf(const Tiles& tiles, std::vector<char>& used) {
    while (const auto seed = seedOf(tiles, used)) {
        const auto known = grown(tiles, used, *seed);
        std::vector<LatticeSample> samples;
        FoundLattice found;
        found.seed = seed->tile;
        cv::Point2d low(1e9, 1e9);
        cv::Point2d high(-1e9, -1e9);
        double pitch = 0;
        for (const auto& [i, value] : known) {
            const Tile& tile = tiles.tiles[i];
            addSamples(tile.x, value.high, tile.centre, value.row, true, samples);
            addSamples(tile.y, value.wide, tile.centre, value.column, false, samples);
            low = {std::min(low.x, value.column), std::min(low.y, value.row)};
            high = {std::max(high.x, value.column), std::max(high.y, value.row)};
            pitch += (value.wide + value.high) / 2 / static_cast<double>(known.size());
            found.tiles.push_back(i);
        }
        const auto map = fittedLattice(std::move(samples), pitch);
        if (!map) {
            used[seed->tile] = 1;
            continue;
        }
        found.lattice.toPage = *map;
        found.lattice.pitch = pitch;
        found.cells = {low, high};
        return found;
    }
    return std::nullopt;
}

} // namespace otherskein::trace::detail
