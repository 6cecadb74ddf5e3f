#pragma once

#include "trace/detail/lattice_period.h"

#include <utility>
#include <vector>

namespace otherskein::trace::detail {

inline constexpr double kLeastLine = 3; // of 255, above what lies between lines
inline constexpr double kClearly = 1.6; // how much more a line shows than what lies between lines

/// New cells of `num` / `den` old ones, the first line at old line `offset` / `den`.
struct Scaling {
    int num = 1;
    int den = 1;
    int offset = 0;

    [[nodiscard]] double factor() const { return static_cast<double>(num) / den; }
    [[nodiscard]] double start() const { return static_cast<double>(offset) / den; }
};

struct Candidate {
    Scaling scaling;
    double pitch = 0;
    double lines = 0;   ///< what its lines show where they show least, above the page's grain
    double between = 0; ///< what shows half-way from line to line
    bool isEven = true; ///< no line in two or three is much fainter than the others

    [[nodiscard]] bool isClear() const { return isEven && lines > kClearly * between + kLeastLine; }
};

struct Choice {
    Scaling scaling;
    Period period;
};

/// Whether cells of these sides are such as charts have.
[[nodiscard]] bool isUsual(double wide, double high);

/// Whether half-way between its lines there is about as much to see as at them, where finer lines
/// are clear.
[[nodiscard]] bool leavesLinesOut(const Candidate& coarse, const Scaling& byLines);

/// Whether a whole part of these two pitches repeats nearly as surely: all that repeats in steps
/// does so in double steps too.
[[nodiscard]] bool hasFiner(const std::vector<Candidate>& columns,
                            const std::vector<Period>& columnPeriods, std::size_t column,
                            const std::vector<Candidate>& rows,
                            const std::vector<Period>& rowPeriods, std::size_t row);

/// Bold lines stand at every fifth or tenth cell: where what is printed repeats five or ten times
/// from line to line both ways, and less surely any other number of times, the others are too
/// faint to see.
void refineBold(const std::vector<Candidate>& columns, const std::vector<Period>& columnPeriods,
                const std::vector<Candidate>& rows, const std::vector<Period>& rowPeriods,
                std::pair<Choice, Choice>& best);

} // namespace otherskein::trace::detail
