#include "trace/detail/assignment.h"

#include <limits>

namespace otherskein::trace::detail {

std::vector<std::optional<std::size_t>> assigned(const std::vector<std::vector<double>>& costs,
                                                 double without) {
    const std::size_t rows = costs.size();
    if (rows == 0) {
        return {};
    }
    // Each row may take a place of its own beside the columns, which stands for going without.
    const std::size_t real = costs[0].size();
    const std::size_t columns = real + rows;
    const auto cost = [&](std::size_t row, std::size_t column) {
        return column < real ? costs[row][column] : without;
    };
    constexpr double kFar = std::numeric_limits<double>::infinity();
    // Rows and columns count from 1; 0 is where a search begins.
    std::vector<double> rowPotential(rows + 1, 0);
    std::vector<double> columnPotential(columns + 1, 0);
    std::vector<std::size_t> rowOf(columns + 1, 0);
    std::vector<std::size_t> before(columns + 1, 0);
    for (std::size_t row = 1; row <= rows; ++row) {
        rowOf[0] = row;
        std::size_t at = 0;
        std::vector<double> least(columns + 1, kFar);
        std::vector<char> seen(columns + 1, 0);
        do {
            seen[at] = 1;
            const std::size_t from = rowOf[at];
            double step = kFar;
            std::size_t next = 0;
            for (std::size_t column = 1; column <= columns; ++column) {
                if (seen[column] != 0) {
                    continue;
                }
                const double reduced =
                    cost(from - 1, column - 1) - rowPotential[from] - columnPotential[column];
                if (reduced < least[column]) {
                    least[column] = reduced;
                    before[column] = at;
                }
                if (least[column] < step) {
                    step = least[column];
                    next = column;
                }
            }
            for (std::size_t column = 0; column <= columns; ++column) {
                if (seen[column] != 0) {
                    rowPotential[rowOf[column]] += step;
                    columnPotential[column] -= step;
                } else {
                    least[column] -= step;
                }
            }
            at = next;
        } while (rowOf[at] != 0);
        while (at != 0) {
            rowOf[at] = rowOf[before[at]];
            at = before[at];
        }
    }
    std::vector<std::optional<std::size_t>> result(rows);
    for (std::size_t column = 1; column <= real; ++column) {
        if (rowOf[column] != 0) {
            result[rowOf[column] - 1] = column - 1;
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
