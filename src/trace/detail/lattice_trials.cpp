#include "trace/detail/lattice_trials.h"

#include "trace/detail/lattice_lines.h"

#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kSurely = 0.5; // of what goes through at lines, by which it is more than between
constexpr double kClearly = 1.3;
constexpr double kLeastStands = 1; // of twice 255
constexpr int kLeastCells = 8;

struct Trial {
    Lattice lattice;
    cv::Rect cells;
    double stands = 0;
};

/// As many lines more over the same cells, and `shift` of a cell further.
Trial trialOf(const LineMaps& maps, const Lattice& lattice, const cv::Rect& cells, bool isRow,
              int more, double shift) {
    const int count = isRow ? cells.height : cells.width;
    const int first = isRow ? cells.y : cells.x;
    const double factor = static_cast<double>(count) / (count + more);
    const double start = first + shift * factor - first * factor;
    Trial trial{lattice, cells, 0};
    trial.lattice.toPage =
        lattice.toPage * (isRow ? cv::Matx33d(1, 0, 0, 0, factor, start, 0, 0, 1)
                                : cv::Matx33d(factor, 0, start, 0, 1, 0, 0, 0, 1));
    (isRow ? trial.cells.height : trial.cells.width) = count + more;
    trial.lattice = settled(maps, trial.lattice, trial.cells);
    trial.stands = standOut(maps, trial.lattice, trial.cells, isRow).stands();
    return trial;
}

} // namespace

std::optional<Lattice> tried(const LineMaps& maps, const Lattice& lattice, cv::Rect& cells,
                             bool mayHaveSlipped) {
    Lattice best = lattice;
    bool isBetter = false;
    for (const bool isRow : {false, true}) {
        const LineEvidence now = standOut(maps, best, cells, isRow);
        if ((isRow ? cells.height : cells.width) < kLeastCells ||
            now.stands() >= kSurely * now.atLines) {
            continue;
        }
        double share = 1;
        const int slip = mayHaveSlipped ? slipOf(maps, best, cells, isRow, &share) : 0;
        std::optional<Trial> most;
        double least = std::max(0.0, now.stands()) * kClearly + kLeastStands;
        if (slip == 0) {
            most = trialOf(maps, best, cells, isRow, 0, 0.5);
        }
        if (slip != 0) {
            for (const double shift : {0.0, 0.5}) {
                const Trial trial = trialOf(maps, best, cells, isRow, slip, shift);
                double part = 0;
                const int still = slipOf(maps, trial.lattice, trial.cells, isRow, &part);
                if (still == 0 && part > kClearly * share &&
                    (!most || trial.stands > most->stands)) {
                    most = trial;
                    least = -1e9;
                }
            }
        }
        if (most && most->stands > least) {
            best = most->lattice;
            cells = most->cells;
            isBetter = true;
        }
    }
    return isBetter ? std::optional(best) : std::nullopt;
}

} // namespace otherskein::trace::detail
