#include "trace/detail/other_grids.h"

#include "trace/detail/median.h"
#include "trace/detail/views.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <numeric>
#include <set>

namespace otherskein::trace::detail {

namespace {

constexpr double kAtRim = 1.5; // cells from the picture's rim: too few for numbers and margins
constexpr int kRims = 3;       // of four
constexpr int kDigits = 9;
constexpr int kLeastDigits = 17; // that make such a puzzle have one answer

constexpr double kNumberDark = 35; // grey levels by which a small number is darker than its cell
constexpr double kNumberLeast = 0.015; // of its corner
constexpr double kElsewhere = 0.004;   // of the rest of the cell: dust
constexpr double kOfBegun = 0.8;       // of the words have a number, and of the numbers a word
constexpr int kLeastWords = 10;
constexpr double kBlack = 110;      // grey levels
constexpr double kMostBlack = 0.7;  // of a black cell
constexpr double kMostOthers = 0.1; // of the cells may have anything else in them

enum class WordCell : std::uint8_t { Black, Open, Numbered, Other };

WordCell wordCellOf(const cv::Mat& grey, const cv::Rect& box) {
    const int rim = box.width / 10;
    const cv::Mat cell =
        grey({box.x + rim, box.y + rim, box.width - 2 * rim, box.height - 2 * rim});
    const double all = cell.size().area();
    if (cv::countNonZero(cell < kBlack) > kMostBlack * all) {
        return WordCell::Black;
    }
    cv::Mat sorted;
    cv::sort(cell.clone().reshape(1, 1), sorted, cv::SORT_EVERY_ROW | cv::SORT_ASCENDING);
    const double ground = sorted.at<uchar>(0, 3 * sorted.cols / 4);
    const cv::Mat dark = cell < ground - kNumberDark;
    const cv::Rect corner(0, 0, cell.cols / 2, cell.rows / 2);
    const int inCorner = cv::countNonZero(dark(corner));
    if (cv::countNonZero(dark) - inCorner > kElsewhere * all) {
        return WordCell::Other;
    }
    return inCorner > kNumberLeast * corner.area() ? WordCell::Numbered : WordCell::Open;
}

} // namespace

double takingTurns(const cv::Mat& looks, std::span<const LookGrid> grids) {
    int all = 0;
    int like = 0;
    for (const LookGrid& grid : grids) {
        const auto at = [&](int column, int row) {
            return looks.row(grid.first + row * grid.columns + column);
        };
        for (int row = 1; row + 1 < grid.rows; ++row) {
            for (int column = 1; column + 1 < grid.columns; ++column) {
                const cv::Mat sides = at(column - 1, row) + at(column + 1, row) +
                                      at(column, row - 1) + at(column, row + 1);
                const cv::Mat across = at(column - 1, row - 1) + at(column + 1, row - 1) +
                                       at(column - 1, row + 1) + at(column + 1, row + 1);
                const cv::Mat own = 4 * at(column, row);
                ++all;
                like += cv::norm(own, across) < cv::norm(own, sides) ? 1 : 0;
            }
        }
    }
    return all > 0 ? static_cast<double>(like) / all : 0;
}

bool fillPictures(std::span<const Page> pages, std::span<const Piece> pieces) {
    return std::ranges::all_of(pieces, [&](const Piece& piece) {
        const Page& page = pages[piece.page];
        const Lattice lattice = latticeOf(piece.grid);
        const double columns = lattice.columns;
        const double rows = lattice.rows;
        const cv::Rect2d picture(0, 0, page.picture.width(), page.picture.height());
        int rims = 0;
        for (const cv::Point2d& beyond :
             {cv::Point2d(columns / 2, -kAtRim), cv::Point2d(columns / 2, rows + kAtRim),
              cv::Point2d(-kAtRim, rows / 2), cv::Point2d(columns + kAtRim, rows / 2)}) {
            rims += picture.contains(lattice.corner(beyond.x, beyond.y)) ? 0 : 1;
        }
        return page.pdf.isEmpty() && rims >= kRims;
    });
}

bool isDigitPuzzle(std::span<const int> kinds, int columns, int rows) {
    if (columns != kDigits || rows != kDigits) {
        return false;
    }
    std::set<std::array<int, 3>> seen; // way, which row or column, kind
    int filled = 0;
    for (int i = 0; i < kDigits * kDigits; ++i) {
        const int kind = kinds[static_cast<std::size_t>(i)];
        if (kind < 0) {
            continue;
        }
        ++filled;
        const int row = i / kDigits;
        const int column = i % kDigits;
        if (!seen.insert({0, row, kind}).second || !seen.insert({1, column, kind}).second) {
            return false;
        }
    }
    return filled >= kLeastDigits;
}

bool isBoard(std::span<const int> kinds, int columns, int rows) {
    constexpr int kFewest = 8; // squares a side
    constexpr int kMost = 12;
    constexpr double kPure = 0.75; // of a square's cells are as they must be
    constexpr double kAll = 0.75;  // of either colour's squares: the others have pieces on them
    const auto isBoardOf = [&](int across, int down) {
        const int wide = columns / across;
        const int high = rows / down;
        if (wide * high < 2) {
            return false; // a small chart may be so
        }
        // Squares of each colour that are pure, if the first square is bare, and if not.
        std::array<std::array<int, 2>, 2> pure{};
        std::array<int, 2> all{};
        for (int square = 0; square < across * down; ++square) {
            const int x = square % across;
            const int y = square / across;
            int bare = 0;
            for (int i = 0; i < wide * high; ++i) {
                const int at = (y * high + i / wide) * columns + x * wide + i % wide;
                bare += kinds[static_cast<std::size_t>(at)] < 0 ? 1 : 0;
            }
            const double share = static_cast<double>(bare) / (wide * high);
            const std::size_t colour = static_cast<std::size_t>(x + y) % 2;
            ++all[colour];
            pure[0][colour] += (colour == 0 ? share : 1 - share) >= kPure ? 1 : 0;
            pure[1][colour] += (colour == 0 ? 1 - share : share) >= kPure ? 1 : 0;
        }
        return std::ranges::any_of(pure, [&](const std::array<int, 2>& one) {
            return one[0] >= kAll * all[0] && one[1] >= kAll * all[1];
        });
    };
    for (int across = kFewest; across <= kMost; ++across) {
        for (int down = kFewest; down <= kMost; ++down) {
            if (columns % across == 0 && rows % down == 0 && isBoardOf(across, down)) {
                return true;
            }
        }
    }
    return false;
}

bool isWindowFront(std::span<const int> kinds, int columns, int rows) {
    constexpr int kFewest = 4;        // windows each way
    constexpr double kWall = 0.97;    // of the cells between windows are wall
    constexpr double kGlass = 0.2;    // and so few of the windows' are: a blind may be as pale
    constexpr std::size_t kKinds = 8; // that windows are of
    const auto isFront = [&](int step, int firstColumn, int firstRow) {
        std::map<int, int> between;
        std::map<int, int> within;
        for (int i = 0; i < columns * rows; ++i) {
            const bool isBetween =
                i % columns % step == firstColumn || i / columns % step == firstRow;
            ++(isBetween ? between : within)[kinds[static_cast<std::size_t>(i)]];
        }
        const auto countOf = [](const std::map<int, int>& counts) {
            return std::accumulate(counts.begin(), counts.end(), 0.0,
                                   [](double sum, const auto& one) { return sum + one.second; });
        };
        const auto wall =
            std::ranges::max_element(between, {}, [](const auto& one) { return one.second; });
        return within.size() >= kKinds && wall->second >= kWall * countOf(between) &&
               within[wall->first] <= kGlass * countOf(within);
    };
    for (const int step : {3, 4}) {
        for (int first = 0; first < step * step && std::min(columns, rows) >= kFewest * step - 1;
             ++first) {
            if (isFront(step, first % step, first / step)) {
                return true;
            }
        }
    }
    return false;
}

bool isWordPuzzle(const Sheet& sheet) {
    cv::Mat grey;
    cv::cvtColor(sheet.straight, grey, cv::COLOR_BGR2GRAY);
    std::vector<WordCell> cells;
    for (int i = 0; i < sheet.columns * sheet.rows; ++i) {
        cells.push_back(wordCellOf(grey, sheet.box(i % sheet.columns, i / sheet.columns)));
    }
    const auto isBlack = [&](int column, int row) {
        return column < 0 || row < 0 || column >= sheet.columns || row >= sheet.rows ||
               cells[static_cast<std::size_t>(row * sheet.columns + column)] == WordCell::Black;
    };
    int begun = 0;
    int numbered = 0;
    int both = 0;
    int others = 0;
    for (int row = 0; row < sheet.rows; ++row) {
        for (int column = 0; column < sheet.columns; ++column) {
            if (isBlack(column, row)) {
                continue;
            }
            const WordCell one = cells[static_cast<std::size_t>(row * sheet.columns + column)];
            const bool begins = (isBlack(column - 1, row) && !isBlack(column + 1, row)) ||
                                (isBlack(column, row - 1) && !isBlack(column, row + 1));
            begun += begins ? 1 : 0;
            numbered += one == WordCell::Numbered ? 1 : 0;
            both += begins && one == WordCell::Numbered ? 1 : 0;
            others += one == WordCell::Other ? 1 : 0;
        }
    }
    return both >= kLeastWords && both > kOfBegun * begun && both > kOfBegun * numbered &&
           others < kMostOthers * static_cast<double>(cells.size());
}

bool isSquareCode(const Sheet& sheet) {
    constexpr int kEye = 7;
    constexpr int kLeastSide = 21;
    constexpr int kMostCut = 2; // lines that were not found at a side
    const int side = std::max(sheet.columns, sheet.rows);
    if (side - std::min(sheet.columns, sheet.rows) > kMostCut || side < kLeastSide) {
        return false;
    }
    cv::Mat small; // a pixel a cell
    cv::resize(sheet.straight, small, {sheet.columns, sheet.rows}, 0, 0, cv::INTER_AREA);
    cv::cvtColor(small, small, cv::COLOR_BGR2GRAY);
    const cv::Rect all({}, small.size());
    // With the light cells around it; `first` is where the code begins.
    const auto isEye = [&](const cv::Point& first, bool atRight, bool atBottom) {
        for (int y = 0; y <= kEye; ++y) {
            for (int x = 0; x <= kEye; ++x) {
                const int ring = std::max(std::abs(x - kEye / 2), std::abs(y - kEye / 2));
                const cv::Point at =
                    first + cv::Point(atRight ? side - 1 - x : x, atBottom ? side - 1 - y : y);
                if (all.contains(at) && (small.at<uchar>(at) < kBlack) != (ring == 3 || ring < 2)) {
                    return false;
                }
            }
        }
        return true;
    };
    for (const int left : {0, sheet.columns - side}) {
        for (const int top : {0, sheet.rows - side}) {
            const cv::Point first(left, top);
            if (isEye(first, false, false) + isEye(first, true, false) + isEye(first, false, true) +
                    isEye(first, true, true) ==
                3) {
                return true;
            }
        }
    }
    return false;
}

double runningOver(const Sheet& sheet) {
    constexpr double kFrom = 0.1;  // of a cell from its side: beyond the grid's own line
    constexpr double kDeep = 0.1;  // of a cell: how much further
    constexpr double kDark = 50;   // grey levels below what is usual along the side
    constexpr double kMark = 0.03; // of a cell within its sides
    cv::Mat grey;
    cv::cvtColor(sheet.straight, grey, cv::COLOR_BGR2GRAY);
    const int cell = sheet.cell;
    const int from = std::max(1, static_cast<int>(std::lround(kFrom * cell)));
    const int deep = std::max(1, static_cast<int>(std::lround(kDeep * cell)));
    // What is dark in a strip along a side, as a row.
    const auto darkIn = [&](const cv::Rect& strip, bool isUpright) {
        cv::Mat along;
        cv::reduce(grey(strip), along, isUpright ? 1 : 0, cv::REDUCE_AVG, CV_32F);
        along = along.reshape(1, 1);
        const std::vector<float> levels(along.begin<float>(), along.end<float>());
        return cv::Mat(along < static_cast<double>(medianOf(levels)) - kDark);
    };
    const int length = cell - 2 * from;
    const auto isOver = [&](const cv::Rect& one, const cv::Rect& other, bool isUpright) {
        return cv::countNonZero(darkIn(one, isUpright) & darkIn(other, isUpright)) > 0;
    };
    std::vector<char> isCrossed(static_cast<std::size_t>(sheet.columns * sheet.rows), 0);
    const auto cross = [&](int column, int row) {
        isCrossed[static_cast<std::size_t>(row * sheet.columns + column)] = 1;
    };
    int marked = 0;
    for (int row = 0; row < sheet.rows; ++row) {
        for (int column = 0; column < sheet.columns; ++column) {
            const cv::Rect box = sheet.box(column, row);
            const cv::Rect strip(box.x + from, box.br().y - from - deep, length, deep);
            if (row + 1 < sheet.rows &&
                isOver(strip, {strip.x, box.br().y + from, length, deep}, false)) {
                cross(column, row);
                cross(column, row + 1);
            }
            const cv::Rect side(box.br().x - from - deep, box.y + from, deep, length);
            if (column + 1 < sheet.columns &&
                isOver(side, {box.br().x + from, side.y, deep, length}, true)) {
                cross(column, row);
                cross(column + 1, row);
            }
            const cv::Mat inner = grey({box.x + from, box.y + from, length, length});
            const double light = cv::mean(inner)[0];
            marked += cv::countNonZero(inner < light - kDark) > kMark * length * length ? 1 : 0;
        }
    }
    const auto crossed = std::ranges::count(isCrossed, 1);
    return std::min(1.0, static_cast<double>(crossed) / std::max(1, marked));
}

} // namespace otherskein::trace::detail
