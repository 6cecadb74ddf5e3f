#include "trace/detail/lattice_choice.h"

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

bool isUsual(double wide, double high) {
    constexpr double kUsualAspect = 1.7; // of cells that are not square
    return wide < kUsualAspect * high && high < kUsualAspect * wide;
}

bool leavesLinesOut(const Candidate& coarse, const Scaling& byLines) {
    constexpr double kAsMuch = 0.5;
    return coarse.scaling.factor() > 1.5 * byLines.factor() &&
           coarse.between > kAsMuch * coarse.lines;
}

bool hasFiner(const std::vector<Candidate>& columns, const std::vector<Period>& columnPeriods,
              std::size_t column, const std::vector<Candidate>& rows,
              const std::vector<Period>& rowPeriods, std::size_t row) {
    constexpr double kNearly = 0.85;
    const auto times = [](const Candidate& fine, const Candidate& coarse) {
        return coarse.scaling.factor() / fine.scaling.factor();
    };
    const auto isPart = [&](const Candidate& fine, const Candidate& coarse) {
        const double one = times(fine, coarse);
        return one > 1.5 && std::abs(one - std::round(one)) < 0.01;
    };
    const double least = kNearly * (columnPeriods[column].stands + rowPeriods[row].stands);
    for (std::size_t i = 0; i < columns.size(); ++i) {
        for (std::size_t k = 0; k < rows.size(); ++k) {
            if (isPart(columns[i], columns[column]) &&
                std::abs(times(columns[i], columns[column]) - times(rows[k], rows[row])) < 0.01 &&
                columnPeriods[i].stands > 1 && rowPeriods[k].stands > 1 &&
                columnPeriods[i].stands + rowPeriods[k].stands > least) {
                return true;
            }
        }
    }
    return false;
}

void refineBold(const std::vector<Candidate>& columns, const std::vector<Period>& columnPeriods,
                const std::vector<Candidate>& rows, const std::vector<Period>& rowPeriods,
                std::pair<Choice, Choice>& best) {
    constexpr double kSure = 1;       // either way
    constexpr double kMore = 1.1;     // than any other number of times
    constexpr double kAsWhole = 0.45; // of what repeats from line to line
    const auto timesOf = [](const Choice& coarse, const Candidate& fine) {
        return coarse.scaling.factor() / fine.scaling.factor();
    };
    const auto partOf = [](const Choice& coarse, const Candidate& fine, const Period& period) {
        Choice part{fine.scaling, period}; // each coarse line is one of its own
        part.scaling.offset =
            static_cast<int>(std::lround(coarse.scaling.start() * fine.scaling.den)) %
            fine.scaling.num;
        return part;
    };
    std::pair<Choice, Choice> finer = best;
    double most = 0; // of five or ten times
    double others = 0;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        for (std::size_t k = 0; k < rows.size(); ++k) {
            const double times = timesOf(best.first, columns[i]);
            const double stands = columnPeriods[i].stands + rowPeriods[k].stands;
            if (times < 1.4 || std::abs(timesOf(best.second, rows[k]) / times - 1) > 0.01) {
                continue;
            }
            if (std::abs(times - 5) > 0.01 && std::abs(times - 10) > 0.01) {
                others = std::max(others, stands);
            } else if (stands > most &&
                       std::min(columnPeriods[i].stands, rowPeriods[k].stands) > kSure) {
                most = stands;
                finer = {partOf(best.first, columns[i], columnPeriods[i]),
                         partOf(best.second, rows[k], rowPeriods[k])};
            }
        }
    }
    // Borders within cells, all alike, repeat in parts of the cell too, but much less.
    const double whole = best.first.period.stands + best.second.period.stands;
    if (most > kMore * others && most > kAsWhole * whole) {
        best = finer;
    }
}

} // namespace otherskein::trace::detail
