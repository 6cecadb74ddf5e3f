#include "trace/detail/edge_numbers.h"

#include "trace/detail/views.h"

#include <cmath>
#include <map>

namespace otherskein::trace::detail {

namespace {

constexpr double kReach = 4;       // cells from the edge, up to which a number is of the grid
constexpr double kTolerance = 0.4; // cells by which a number may stand beside its line or cell

/// What most numbers say the first is; none where fewer than two agree or others say otherwise.
std::optional<int> agreed(const std::map<int, int>& votes) {
    int all = 0;
    std::optional<int> best;
    int most = 1;
    for (const auto& [first, count] : votes) {
        all += count;
        if (count > most) {
            most = count;
            best = first;
        }
    }
    return most * 3 > all * 2 ? best : std::nullopt;
}

} // namespace

void readEdgeNumbers(const std::vector<Word>& words, FoundGrid& grid) {
    const cv::Matx33d toCells = latticeOf(grid).toPage.inv();
    std::map<int, int> columnsAtCell;
    std::map<int, int> columnsAtLine;
    std::map<int, int> rowsAtCell;
    std::map<int, int> rowsAtLine;
    const auto vote = [](double at, int number, std::map<int, int>& atCell,
                         std::map<int, int>& atLine) {
        const double middle = at - 0.5; // of cell 0, 1 …
        if (std::abs(middle - std::round(middle)) < 0.5 - kTolerance / 2) {
            ++atCell[number - static_cast<int>(std::round(middle))];
        }
        if (std::abs(at - std::round(at)) < kTolerance) {
            ++atLine[number - static_cast<int>(std::round(at)) + 1]; // the line behind its cell
        }
    };
    for (const Word& word : words) {
        bool isNumber = false;
        const int number = word.text.toInt(&isNumber);
        if (!isNumber || number < 1) {
            continue;
        }
        const QPointF middle = word.box.center();
        const cv::Vec3d at = toCells * cv::Vec3d(middle.x(), middle.y(), 1);
        const double column = at[0] / at[2];
        const double row = at[1] / at[2];
        const bool beside = row > 0 && row < grid.rows &&
                            ((column < 0 && column > -kReach) ||
                             (column > grid.columns && column < grid.columns + kReach));
        const bool above =
            column > 0 && column <= grid.columns + 0.5 &&
            ((row < 0 && row > -kReach) || (row > grid.rows && row < grid.rows + kReach));
        if (above) {
            vote(column, number, columnsAtCell, columnsAtLine);
        } else if (beside || (row >= grid.rows && row < grid.rows + 0.5 && column < 0)) {
            vote(row, number, rowsAtCell, rowsAtLine);
        }
    }
    const auto total = [](const std::map<int, int>& votes) {
        int most = 0;
        for (const auto& [first, count] : votes) {
            most = std::max(most, count);
        }
        return most;
    };
    const bool line =
        total(columnsAtLine) + total(rowsAtLine) > total(columnsAtCell) + total(rowsAtCell);
    grid.firstColumn = agreed(line ? columnsAtLine : columnsAtCell);
    grid.firstRow = agreed(line ? rowsAtLine : rowsAtCell);
}

} // namespace otherskein::trace::detail
