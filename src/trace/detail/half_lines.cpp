#include "trace/detail/half_lines.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace otherskein::trace::detail {

double lengthOf(const HalfLine& line) {
    return std::hypot(line[2] - line[0], line[3] - line[1]) / 2;
}

bool liesUnder(const std::set<HalfLine>& below, const std::set<HalfLine>& above) {
    constexpr double kSameLines = 0.8; // of one look's lines that lie under another's
    const auto under =
        std::ranges::count_if(below, [&](const HalfLine& line) { return above.contains(line); });
    return static_cast<double>(under) >= kSameLines * static_cast<double>(below.size());
}

bool areMarks(const std::set<HalfLine>& lines) {
    std::map<std::array<int, 2>, int> ends;
    for (const HalfLine& line : lines) {
        ++ends[{line[0], line[1]}];
        ++ends[{line[2], line[3]}];
    }
    const auto marks = std::ranges::count_if(lines, [&](const HalfLine& line) {
        return std::max(line[2] - line[0], std::abs(line[3] - line[1])) <= 1 &&
               ends[{line[0], line[1]}] == 1 && ends[{line[2], line[3]}] == 1;
    });
    return 2 * static_cast<std::size_t>(marks) > lines.size();
}

} // namespace otherskein::trace::detail
