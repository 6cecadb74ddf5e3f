#include "trace/detail/backstitch.h"

#include "trace/detail/groups.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

namespace otherskein::trace::detail {

namespace {

constexpr double kReach = 0.3;    // of a cell, to either side of a grid line
constexpr double kNear = 0.13;    // beyond it are symbols
constexpr float kDark = 66;       // grey levels by which a line is darker than both its sides
constexpr double kThicker = 0.06; // of a cell, that it is thicker than the grid's own line
constexpr double kDiagonalSide = 0.15;

enum Where : unsigned char { Top = 1, Right = 2, Bottom = 4, Left = 8, Falling = 16, Rising = 32 };

/// How thick and dark a line along one side of a cell is.
struct SideLine {
    float mass = 0; ///< px of full black
    float dark = 0;
};

/// `across(t, s)`: colour at t px from the line, s px along the side.
template <typename Colour>
SideLine sideLine(int cell, const Colour& across) {
    const int reach = std::max(3, static_cast<int>(cell * kReach));
    std::vector<cv::Vec3f> profile;
    for (int t = -reach; t < reach; ++t) {
        cv::Vec3f sum;
        int count = 0;
        for (int s = cell / 5; s < cell - cell / 5; ++s) {
            sum += across(t, s);
            ++count;
        }
        profile.push_back(sum / count);
    }
    const auto half = static_cast<int>(profile.size()) / 2;
    const int near = std::max(2, static_cast<int>(cell * kNear));
    const cv::Vec3f before = (profile[0] + profile[1]) / 2;
    const cv::Vec3f after = (profile[profile.size() - 1] + profile[profile.size() - 2]) / 2;
    SideLine line;
    for (int t = -near; t < near; ++t) {
        const auto i = static_cast<std::size_t>(half + t);
        float dark = 0;
        for (int c = 0; c < 3; ++c) {
            dark = std::max(dark, std::min(before[c], after[c]) - profile[i][c]);
        }
        line.mass += dark / 255;
        line.dark = std::max(line.dark, dark);
    }
    return line;
}

/// Sides along lines of one way, thick against the line's other sides. `lines` are by grid line,
/// then by cell along it.
std::set<std::pair<int, int>> thick(const std::vector<std::vector<SideLine>>& lines, int cell) {
    std::set<std::pair<int, int>> result;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        std::vector<float> masses;
        for (const SideLine& one : lines[i]) {
            masses.push_back(one.mass);
        }
        const auto middle = masses.begin() + static_cast<std::ptrdiff_t>(masses.size() / 2);
        std::ranges::nth_element(masses, middle);
        const double usual = *middle;
        for (std::size_t k = 0; k < lines[i].size(); ++k) {
            const SideLine& one = lines[i][k];
            if (one.dark > kDark &&
                static_cast<double>(one.mass) > usual * 1.6 + std::max(1.0, kThicker * cell)) {
                result.insert({static_cast<int>(i), static_cast<int>(k)});
            }
        }
    }
    return result;
}

cv::Vec3f colourAt(const cv::Mat& picture, int x, int y) {
    return picture.at<cv::Vec3b>(std::clamp(y, 0, picture.rows - 1),
                                 std::clamp(x, 0, picture.cols - 1));
}

/// A line from corner to corner of a cell, darker than what lies at either side all the way.
bool hasDiagonal(const Sheet& sheet, int column, int row, bool falling) {
    const int cell = sheet.cell;
    const double side = kDiagonalSide * cell;
    int dark = 0;
    constexpr int kSteps = 14;
    for (int k = 0; k <= kSteps; ++k) {
        const double along = 0.07 + 0.86 * k / kSteps;
        const double x = column * cell + along * cell;
        const double y = row * cell + (falling ? along : 1 - along) * cell;
        const auto at = [&](double dx, double dy) {
            return colourAt(sheet.straight, static_cast<int>(x + dx), static_cast<int>(y + dy));
        };
        const cv::Vec3f middle = at(0, 0);
        const double turn = falling ? -1 : 1;
        const cv::Vec3f one = at(side, turn * side);
        const cv::Vec3f other = at(-side, -turn * side);
        float most = 0;
        for (int c = 0; c < 3; ++c) {
            most = std::max(most, std::min(one[c], other[c]) - middle[c]);
        }
        const bool isEnd = k == 0 || k == kSteps;
        if (most > kDark) {
            ++dark;
        } else if (isEnd) {
            return false;
        }
    }
    return dark >= kSteps - 1;
}

/// A piece of line from one corner to another, in cells.
struct Stroke {
    int x1;
    int y1;
    int x2;
    int y2;

    auto operator<=>(const Stroke&) const = default;
};

/// Strokes that go on straight become one line.
std::vector<chart::Line> runs(std::set<Stroke> strokes) {
    std::vector<chart::Line> lines;
    while (!strokes.empty()) {
        const Stroke first = *strokes.begin();
        const int dx = first.x2 - first.x1;
        const int dy = first.y2 - first.y1;
        Stroke whole = first;
        strokes.erase(first);
        while (strokes.erase({whole.x2, whole.y2, whole.x2 + dx, whole.y2 + dy}) > 0) {
            whole.x2 += dx;
            whole.y2 += dy;
        }
        while (strokes.erase({whole.x1 - dx, whole.y1 - dy, whole.x1, whole.y1}) > 0) {
            whole.x1 -= dx;
            whole.y1 -= dy;
        }
        lines.push_back({2 * whole.x1, 2 * whole.y1, 2 * whole.x2, 2 * whole.y2, chart::kBare});
    }
    return lines;
}

/// Diagonals that touch no other stroke are symbols.
void dropAlone(std::set<Stroke>& strokes) {
    std::map<std::pair<int, int>, int> ends;
    for (const Stroke& one : strokes) {
        ++ends[{one.x1, one.y1}];
        ++ends[{one.x2, one.y2}];
    }
    std::erase_if(strokes, [&](const Stroke& one) {
        const bool isDiagonal = one.x1 != one.x2 && one.y1 != one.y2;
        return isDiagonal && ends[{one.x1, one.y1}] < 2 && ends[{one.x2, one.y2}] < 2;
    });
}

/// Cells with strokes at all four sides are symbols that are outlines.
void dropOutlines(std::set<Stroke>& strokes, int columns, int rows) {
    std::set<Stroke> dropped;
    for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) {
            const std::array<Stroke, 4> around{Stroke{column, row, column + 1, row},
                                               {column, row + 1, column + 1, row + 1},
                                               {column, row, column, row + 1},
                                               {column + 1, row, column + 1, row + 1}};
            if (std::ranges::all_of(around,
                                    [&](const Stroke& one) { return strokes.contains(one); })) {
                dropped.insert(around.begin(), around.end());
            }
        }
    }
    std::erase_if(strokes, [&](const Stroke& one) { return dropped.contains(one); });
}

std::set<Stroke> strokesOf(const Sheet& sheet) {
    const int cell = sheet.cell;
    std::vector<std::vector<SideLine>> down;
    for (int i = 0; i <= sheet.columns; ++i) {
        down.emplace_back();
        for (int row = 0; row < sheet.rows; ++row) {
            down.back().push_back(sideLine(cell, [&](int t, int s) {
                return colourAt(sheet.straight, i * cell + t, row * cell + s);
            }));
        }
    }
    std::vector<std::vector<SideLine>> across;
    for (int i = 0; i <= sheet.rows; ++i) {
        across.emplace_back();
        for (int column = 0; column < sheet.columns; ++column) {
            across.back().push_back(sideLine(cell, [&](int t, int s) {
                return colourAt(sheet.straight, column * cell + s, i * cell + t);
            }));
        }
    }
    std::set<Stroke> strokes;
    for (const auto& [column, row] : thick(down, cell)) {
        if (column > 0 && column < sheet.columns) { // a border is no backstitch
            strokes.insert({column, row, column, row + 1});
        }
    }
    for (const auto& [row, column] : thick(across, cell)) {
        if (row > 0 && row < sheet.rows) {
            strokes.insert({column, row, column + 1, row});
        }
    }
    for (int row = 0; row < sheet.rows; ++row) {
        for (int column = 0; column < sheet.columns; ++column) {
            if (hasDiagonal(sheet, column, row, true)) {
                strokes.insert({column, row, column + 1, row + 1});
            }
            if (hasDiagonal(sheet, column, row, false)) {
                strokes.insert({column, row + 1, column + 1, row});
            }
        }
    }
    dropOutlines(strokes, sheet.columns, sheet.rows);
    dropAlone(strokes);
    return strokes;
}

} // namespace

Backstitch backstitchOf(const Sheet& sheet) {
    const std::set<Stroke> strokes = strokesOf(sheet);
    Backstitch result;
    const std::size_t cells =
        static_cast<std::size_t>(sheet.columns) * static_cast<std::size_t>(sheet.rows);
    result.over.assign(cells, 0);
    result.where.assign(cells, 0);
    const auto mark = [&](int column, int row, Where where) {
        if (column >= 0 && row >= 0 && column < sheet.columns && row < sheet.rows) {
            const auto i = static_cast<std::size_t>(row * sheet.columns + column);
            result.over[i] = 1;
            result.where[i] = static_cast<unsigned char>(result.where[i] | where);
        }
    };
    for (const Stroke& one : strokes) {
        if (one.x1 == one.x2) {
            mark(one.x1 - 1, one.y1, Right);
            mark(one.x1, one.y1, Left);
        } else if (one.y1 == one.y2) {
            mark(one.x1, one.y1 - 1, Bottom);
            mark(one.x1, one.y1, Top);
        } else {
            mark(one.x1, std::min(one.y1, one.y2), one.y1 < one.y2 ? Falling : Rising);
        }
    }
    result.lines = runs(strokes);
    return result;
}

cv::Mat visibleOf(const Sheet& sheet, const Backstitch& backstitch) {
    cv::Mat visible(sheet.columns * sheet.rows, kLookSize, CV_32F, cv::Scalar(1));
    const auto hide = [](unsigned char where, double x, double y) {
        constexpr double kRim = 0.24;
        constexpr double kBand = 0.2;
        return ((where & Top) != 0 && y < kRim) || ((where & Bottom) != 0 && y > 1 - kRim) ||
               ((where & Left) != 0 && x < kRim) || ((where & Right) != 0 && x > 1 - kRim) ||
               ((where & Falling) != 0 && std::abs(x - y) < kBand) ||
               ((where & Rising) != 0 && std::abs(x + y - 1) < kBand);
    };
    for (int i = 0; i < visible.rows; ++i) {
        const unsigned char where = backstitch.where[static_cast<std::size_t>(i)];
        if (where == 0) {
            continue;
        }
        float* out = visible.ptr<float>(i);
        const auto fill = [&](int side, int values) {
            for (int y = 0; y < side; ++y) {
                for (int x = 0; x < side; ++x) {
                    const double step = (1 - 2 * kLookInset) / side;
                    const bool hidden =
                        hide(where, kLookInset + step * (x + 0.5), kLookInset + step * (y + 0.5));
                    for (int v = 0; v < values; ++v) {
                        *out++ = hidden ? 0.0F : 1.0F;
                    }
                }
            }
        };
        fill(kLookSide, 1);
        fill(kLookTints, 2);
    }
    return visible;
}

} // namespace otherskein::trace::detail
