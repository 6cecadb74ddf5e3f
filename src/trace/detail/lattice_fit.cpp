#include "trace/detail/lattice_fit.h"

#include "trace/detail/edges.h"

#include <opencv2/imgproc.hpp>

#include <array>
#include <map>
#include <queue>

namespace otherskein::trace::detail {

namespace {

constexpr double kLeastScore = 0.28;     // of a tile, both ways; found by looking at pages
constexpr double kPitchTolerance = 0.06; // from tile to tile
constexpr double kMostStep = 0.22;  // of a line's place against what the neighbour foretells, cells
constexpr double kMostAspect = 2.6; // of cells that are not square, one way taken for half
constexpr int kLeastSamples = 8;

bool isRegular(const Tile& tile) {
    return tile.score() >= kLeastScore && tile.x.pitch < kMostAspect * tile.y.pitch &&
           tile.y.pitch < kMostAspect * tile.x.pitch;
}

bool isNear(double pitch, double other) {
    return std::abs(pitch - other) < kPitchTolerance * other;
}

bool isAlike(const Tile& one, const Tile& other) {
    return isNear(one.x.pitch, other.x.pitch) && isNear(one.y.pitch, other.y.pitch);
}

/// The tile whose pitches most other tiles share.
std::optional<std::size_t> seedOf(const Tiles& tiles, const std::vector<char>& used) {
    std::optional<std::size_t> best;
    double most = 0;
    for (std::size_t i = 0; i < tiles.tiles.size(); ++i) {
        if (used[i] != 0 || !isRegular(tiles.tiles[i])) {
            continue;
        }
        double support = 0;
        for (std::size_t k = 0; k < tiles.tiles.size(); ++k) {
            if (used[k] == 0 && isRegular(tiles.tiles[k]) &&
                isAlike(tiles.tiles[i], tiles.tiles[k])) {
                support += tiles.tiles[k].score();
            }
        }
        support *= tiles.tiles[i].score();
        if (support > most) {
            most = support;
            best = i;
        }
    }
    return best;
}

/// Coordinates around one tile: place × gradient + value at the centre.
struct Near {
    double column = 0;
    double row = 0;
};

double coordinateAt(const TileLines& lines, double value, double along, double across) {
    return value + (across - lines.slope * along) / lines.pitch;
}

Near foretold(const Tile& from, const Near& value, const cv::Point2d& place) {
    const cv::Point2d step = place - from.centre;
    return {coordinateAt(from.y, value.column, step.y, step.x),
            coordinateAt(from.x, value.row, step.x, step.y)};
}

double centrePhase(const TileLines& lines) {
    return -phaseOf(lines.profile, lines.pitch, 0, kTileSide * 0.8);
}

double nearestWithPhase(double foretoldValue, double phase) {
    return phase + std::round(foretoldValue - phase);
}

void addSamples(const TileLines& lines, const cv::Point2d& centre, double value, bool isRow,
                std::vector<LatticeSample>& samples) {
    constexpr double kReach = kTileSide / 4.0;
    for (const double across : {-kReach, 0.0, kReach}) {
        double strength = 0;
        const double width = std::max(kTileSide / 2.0, 3 * lines.pitch);
        const double phase = -phaseOf(lines.profile, lines.pitch, across, width, &strength);
        if (strength < 0.15) {
            continue;
        }
        const double coordinate = nearestWithPhase(coordinateAt(lines, value, 0, across), phase);
        for (const double along : {-kReach, kReach}) {
            const double place = across + lines.slope * along;
            samples.push_back(
                {isRow ? centre + cv::Point2d(along, place) : centre + cv::Point2d(place, along),
                 coordinate, isRow});
        }
    }
}

/// Tiles that go on the lattice of the seed, each with its centre's coordinates.
std::map<std::size_t, Near> grown(const Tiles& tiles, const std::vector<char>& used,
                                  std::size_t seed) {
    std::map<std::size_t, Near> known;
    std::map<std::size_t, Near> waiting;
    using Entry = std::pair<double, std::size_t>;
    std::priority_queue<Entry> queue;
    const Tile& first = tiles.tiles[seed];
    waiting[seed] = {centrePhase(first.y), centrePhase(first.x)};
    queue.push({first.score(), seed});
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
            if (used[next] != 0 || known.contains(next) || !isRegular(other) ||
                !isAlike(tile, other)) {
                continue;
            }
            const Near wanted = foretold(tile, known[i], other.centre);
            const Near found{nearestWithPhase(wanted.column, centrePhase(other.y)),
                             nearestWithPhase(wanted.row, centrePhase(other.x))};
            if (std::abs(found.column - wanted.column) < kMostStep &&
                std::abs(found.row - wanted.row) < kMostStep) {
                waiting[next] = found;
                queue.push({other.score(), next});
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

std::optional<cv::Matx33d> fittedLattice(std::vector<LatticeSample> samples, double pitch,
                                         double* residual) {
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
    double rms = 0;
    for (const double limit : {0.6, 0.25, 0.15, 0.12}) {
        map = solvedMap(samples, kept, centre, scale);
        rms = 0;
        int count = 0;
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const cv::Point2d at = mapped(map, samples[i].place);
            const double off = std::abs((samples[i].isRow ? at.y : at.x) - samples[i].coordinate);
            kept[i] = off < limit ? 1 : 0;
            rms += kept[i] != 0 ? off * off : 0;
            count += kept[i];
        }
        if (count < 2 * kLeastSamples) {
            return std::nullopt;
        }
        rms = std::sqrt(rms / count);
    }
    if (residual != nullptr) {
        *residual = rms;
    }
    const cv::Matx33d shifted(1, 0, shift[0], 0, 1, shift[1], 0, 0, 1);
    return (shifted * map).inv();
}

std::optional<FoundLattice> latticeOf(const Tiles& tiles, const std::vector<char>& used) {
    const auto seed = seedOf(tiles, used);
    if (!seed) {
        return std::nullopt;
    }
    const auto known = grown(tiles, used, *seed);
    std::vector<LatticeSample> samples;
    FoundLattice found;
    cv::Point2d low(1e9, 1e9);
    cv::Point2d high(-1e9, -1e9);
    double pitch = 0;
    for (const auto& [i, value] : known) {
        const Tile& tile = tiles.tiles[i];
        addSamples(tile.x, tile.centre, value.row, true, samples);
        addSamples(tile.y, tile.centre, value.column, false, samples);
        low = {std::min(low.x, value.column), std::min(low.y, value.row)};
        high = {std::max(high.x, value.column), std::max(high.y, value.row)};
        pitch += (tile.x.pitch + tile.y.pitch) / 2 / static_cast<double>(known.size());
        found.tiles.push_back(i);
    }
    const auto map = fittedLattice(std::move(samples), pitch);
    if (!map) {
        return std::nullopt;
    }
    found.lattice.toPage = *map;
    found.lattice.pitch = pitch;
    found.cells = {low, high};
    return found;
}

Lattice settled(const cv::Mat& bgr, const Lattice& lattice, const cv::Rect& area) {
    const int cell = std::clamp(static_cast<int>(std::lround(lattice.pitch)), 12, 32);
    const cv::Mat straight = straightened(bgr, lattice, cell, area);
    const cv::Mat x = edgesAlongX(straight, cell / 5, cell);
    const cv::Mat y = edgesAlongYTransposed(straight, cell / 5, cell);
    // Cells that are looked at together: of large ones there are few.
    const int span = lattice.pitch > 64 ? 2 : 6;
    std::vector<LatticeSample> samples;
    const auto look = [&](const cv::Mat& edges, int alongCells, int acrossCells, bool isRow) {
        for (int along = 0; along + span <= alongCells; along += span / 2) {
            cv::Mat sum;
            cv::reduce(edges.colRange(along * cell, (along + span) * cell), sum, 1, cv::REDUCE_SUM,
                       CV_32F);
            const std::vector<float> profile(sum.begin<float>(), sum.end<float>());
            const double middle = static_cast<double>(profile.size()) / 2 - 0.5;
            for (int across = span / 2; across + span / 2 <= acrossCells; across += span / 2) {
                double strength = 0;
                const double behind =
                    phaseOf(profile, cell, across * cell - 0.5 - middle, span * cell, &strength);
                if (strength < 0.3 || std::abs(behind) > 0.3) {
                    continue;
                }
                const double a = along + span / 2.0;
                const double b = across + behind; // where a line truly is
                const cv::Point2d place = isRow ? lattice.corner(area.x + a, area.y + b)
                                                : lattice.corner(area.x + b, area.y + a);
                samples.push_back({place, double((isRow ? area.y : area.x) + across), isRow});
            }
        }
    };
    look(x, area.width, area.height, true);
    look(y, area.height, area.width, false);
    Lattice result = lattice;
    if (const auto map = fittedLattice(std::move(samples), lattice.pitch)) {
        result.toPage = *map;
    }
    return result;
}

} // namespace otherskein::trace::detail
