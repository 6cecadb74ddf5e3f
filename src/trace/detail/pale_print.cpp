#include "trace/detail/pale_print.h"

#include "trace/detail/cell_light.h"
#include "trace/detail/colours_apart.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <bitset>
#include <cmath>
#include <numeric>
#include <optional>
#include <vector>

namespace otherskein::trace::detail {

namespace {

constexpr int kPalest = 249; // levels of the darkest channel: paper from there
constexpr int kDarkest = 205;
constexpr int kSame = 5;              // levels of a channel, by which pale print varies
constexpr float kApart = 246;         // light of pale print: above, paper's grain is as dark
constexpr double kOneColour = 0.6;    // of what is pale in cells without marks
constexpr double kInset = 0.15;       // of a cell, where lines lie
constexpr double kDepth = 0.15;       // of the strips at its sides
constexpr double kLeastClear = 0.1;   // of a cell or strip, that no mark leaves its rim on
constexpr double kMarksRim = 1 / 20.; // of a cell: so far a mark's soft edge reaches
constexpr double kSome = 0.15; // of a cell or strip: pale print is there, or does not fill it
constexpr double kHardly = 0.04;
constexpr double kHalf = 0.4;
constexpr double kFull = 0.9;
constexpr std::size_t kLeastCells = 10; // that an edge of it goes through
// How often it may stop at a line between two cells: of its edges' cells, or of the sides it
// passes.
constexpr double kMostEnding = 0.8;
constexpr double kEndingOfPassing = 0.25;
constexpr double kVaried = 0.5; // of those cells, that are like no other
constexpr int kPlaces = 4;      // a side, by which cells are compared

enum class Kind : uchar { paper, pale, other };

/// So much around each place that is not 0 is as it: a mark's edge is pale and yet no print of its
/// own.
cv::Mat withRim(const cv::Mat& marks, int cell) {
    const int rim = std::max(2, static_cast<int>(std::lround(kMarksRim * cell)));
    cv::Mat result;
    cv::dilate(marks, result, cv::Mat::ones(2 * rim + 1, 2 * rim + 1, CV_8U));
    return result;
}

/// Which of a sheet's pixels are paper, pale print or something else, with its rim.
cv::Mat kindsOf(const cv::Mat& soft, const cv::Vec3b& pale, int cell) {
    cv::Mat kinds(soft.size(), CV_8U);
    cv::parallel_for_({0, soft.rows}, [&](const cv::Range& range) {
        for (int y = range.start; y < range.end; ++y) {
            const auto* row = soft.ptr<cv::Vec3b>(y);
            uchar* out = kinds.ptr(y);
            for (int x = 0; x < soft.cols; ++x) {
                const cv::Vec3b& one = row[x];
                bool isPale = true;
                bool isPaper = true;
                for (int c = 0; c < 3; ++c) {
                    isPale &= one[c] >= pale[c] - kSame;
                    isPaper &= 2 * one[c] > pale[c] + 255;
                }
                out[x] = static_cast<uchar>(isPaper  ? Kind::paper
                                            : isPale ? Kind::pale
                                                     : Kind::other);
            }
        }
    });
    const cv::Mat others = kinds == static_cast<int>(Kind::other);
    kinds.setTo(static_cast<int>(Kind::other), withRim(others, cell));
    return kinds;
}

/// The share of what is clear of marks that pale print covers; none where too little is clear.
std::optional<double> paleShareOf(const cv::Mat& kinds) {
    const auto countOf = [&](Kind kind) {
        return static_cast<double>(cv::countNonZero(kinds == static_cast<int>(kind)));
    };
    const double pale = countOf(Kind::pale);
    const double clear = pale + countOf(Kind::paper);
    return clear < kLeastClear * static_cast<double>(kinds.total()) ? std::nullopt
                                                                    : std::optional(pale / clear);
}

class PalePrint {
  public:
    explicit PalePrint(const Sheet& sheet)
        : m_sheet(sheet), m_inset(static_cast<int>(std::ceil(kInset * sheet.cell))) {
        cv::blur(sheet.straight, m_soft, {3, 3});
    }

    /// Its colour, if there is any, or if the page is known to have print in one like it.
    [[nodiscard]] std::optional<cv::Vec3b> colour(const std::optional<cv::Vec3b>& known) {
        const std::optional<cv::Vec3b> pale = usualPale();
        if (!pale || (known && apart(*pale, *known) <= 2 * kSame)) {
            return pale;
        }
        m_kinds = kindsOf(m_soft, *pale, m_sheet.cell);
        return isAcross() ? pale : std::nullopt;
    }

  private:
    [[nodiscard]] cv::Rect inner(int column, int row) const {
        const cv::Rect box = m_sheet.box(column, row);
        const int side = m_sheet.cell - 2 * m_inset;
        return {box.x + m_inset, box.y + m_inset, side, side};
    }

    template <typename Each>
    void eachCell(const Each& each) const {
        for (int row = 0; row < m_sheet.rows; ++row) {
            for (int column = 0; column < m_sheet.columns; ++column) {
                each(column, row);
            }
        }
    }

    /// The colour that most of what is pale has, away from marks; none where it goes over into
    /// paper, as grain does.
    [[nodiscard]] std::optional<cv::Vec3b> usualPale() const {
        std::array<std::vector<int>, 3> counts;
        counts.fill(std::vector<int>(256));
        std::vector<int> lights(256);
        std::vector<cv::Vec3b> pales;
        cv::Mat isClear;
        cv::inRange(m_soft, cv::Scalar::all(kDarkest), cv::Scalar::all(255), isClear);
        isClear = ~withRim(~isClear, m_sheet.cell);
        cv::Mat isPale;
        cv::inRange(m_soft, cv::Scalar::all(kPalest), cv::Scalar::all(255), isPale);
        isPale = isClear & ~isPale;
        const std::size_t fewest = kLeastCells * static_cast<std::size_t>(m_sheet.cell);
        if (static_cast<std::size_t>(cv::countNonZero(isPale)) < fewest) {
            return std::nullopt; // on most sheets, without looking at each pixel
        }
        eachCell([&](int column, int row) {
            const cv::Rect box = inner(column, row);
            for (int y = box.y; y < box.br().y; ++y) {
                for (int x = box.x; x < box.br().x; ++x) {
                    if (isClear.at<uchar>(y, x) == 0) {
                        continue;
                    }
                    const cv::Vec3b& one = m_soft.at<cv::Vec3b>(y, x);
                    ++lights[static_cast<std::size_t>(std::lround(lightOf(one)))];
                    if (std::min({one[0], one[1], one[2]}) < kPalest) {
                        pales.push_back(one);
                    }
                }
            }
        });
        for (const cv::Vec3b& one : pales) {
            for (int c = 0; c < 3; ++c) {
                ++counts[static_cast<std::size_t>(c)][one[c]];
            }
        }
        if (pales.size() < fewest) {
            return std::nullopt;
        }
        cv::Vec3b usual;
        for (int c = 0; c < 3; ++c) {
            const std::vector<int>& all = counts[static_cast<std::size_t>(c)];
            usual[c] =
                static_cast<uchar>(std::distance(all.begin(), std::ranges::max_element(all)));
        }
        const auto around = [&](float light) {
            const auto at = lights.begin() + std::clamp(std::lround(light), 1L, 254L);
            return std::accumulate(at - 1, at + 2, 0);
        };
        const float light = lightOf(usual);
        const auto same = std::ranges::count_if(
            pales, [&](const cv::Vec3b& one) { return apart(one, usual) <= kSame; });
        const bool isOne =
            static_cast<double>(same) > kOneColour * static_cast<double>(pales.size());
        const bool isApart = light < kApart && around(light) > 2 * around((light + 255) / 2);
        return isOne && isApart ? std::optional(usual) : std::nullopt;
    }

    /// The strip of a cell along the side that `way` leads to.
    [[nodiscard]] cv::Mat strip(int column, int row, const cv::Point& way) const {
        cv::Rect box = inner(column, row);
        const int depth = std::max(2, static_cast<int>(kDepth * m_sheet.cell));
        if (way.x != 0) {
            box.x += way.x > 0 ? box.width - depth : 0;
            box.width = depth;
        } else {
            box.y += way.y > 0 ? box.height - depth : 0;
            box.height = depth;
        }
        return m_kinds(box);
    }

    [[nodiscard]] bool isAcross() const {
        struct Edged {
            std::bitset<kPlaces * kPlaces> pattern;
            cv::Point place;
        };
        std::vector<Edged> edged;
        eachCell([&](int column, int row) {
            const cv::Mat kinds = m_kinds(inner(column, row));
            const double pale = paleShareOf(kinds).value_or(0);
            if (pale < kSome || pale > 1 - kSome) {
                return;
            }
            std::bitset<kPlaces * kPlaces> pattern;
            for (std::size_t i = 0; i < pattern.size(); ++i) {
                const auto place = static_cast<int>(i);
                const int each = kinds.cols / kPlaces;
                const cv::Rect part(place % kPlaces * each, place / kPlaces * each, each, each);
                pattern[i] = paleShareOf(kinds(part)).value_or(0) > 0.5;
            }
            edged.push_back({pattern, {column, row}});
        });
        if (edged.size() < kLeastCells) {
            return false;
        }
        // A straight edge along a row or column goes through its cells all in one way.
        const auto single = std::ranges::count_if(edged, [&](const Edged& one) {
            return std::ranges::count_if(edged, [&](const Edged& other) {
                       return one.pattern == other.pattern && one.place.x != other.place.x &&
                              one.place.y != other.place.y;
                   }) < 2;
        });
        int passing = 0;
        int ending = 0;
        eachCell([&](int column, int row) {
            for (const cv::Point way : {cv::Point(1, 0), {-1, 0}, {0, 1}, {0, -1}}) {
                const int nextColumn = column + way.x;
                const int nextRow = row + way.y;
                if (nextColumn < 0 || nextRow < 0 || nextColumn >= m_sheet.columns ||
                    nextRow >= m_sheet.rows) {
                    continue;
                }
                const auto pale = paleShareOf(strip(column, row, way));
                const auto beyond = paleShareOf(strip(nextColumn, nextRow, -way));
                if (pale && beyond) {
                    passing += *pale > kHalf && *beyond > kSome ? 1 : 0;
                    ending += *pale > kFull && *beyond < kHardly ? 1 : 0;
                }
            }
        });
        const auto count = static_cast<double>(edged.size());
        return static_cast<double>(single) > kVaried * count &&
               passing >= static_cast<int>(kLeastCells) &&
               ending < std::max(kMostEnding * count, kEndingOfPassing * passing);
    }

    const Sheet& m_sheet;
    int m_inset;
    cv::Mat m_soft;
    cv::Mat m_kinds;
};

} // namespace

bool hasFlatPale(const Sheet& drawn) {
    constexpr int kStep = 3; // px from one place that is looked at to the next
    const cv::Mat& picture = drawn.straight;
    int flat = 0;
    for (int y = 0; y + kStep < picture.rows; y += kStep) {
        const auto* row = picture.ptr<cv::Vec3b>(y);
        const auto* below = picture.ptr<cv::Vec3b>(y + kStep - 1);
        for (int x = 0; x + kStep < picture.cols; x += kStep) {
            const cv::Vec3b& one = row[x];
            flat += std::min({one[0], one[1], one[2]}) < kPalest &&
                            std::min({one[0], one[1], one[2]}) >= kDarkest - kSame &&
                            one == row[x + kStep - 1] && one == below[x]
                        ? 1
                        : 0;
        }
    }
    return flat >= static_cast<int>(kLeastCells) * drawn.cell / (2 * kStep * kStep);
}

std::optional<cv::Vec3b> liftPalePrint(Sheet& sheet, const std::optional<cv::Vec3b>& known) {
    const std::optional<cv::Vec3b> pale = PalePrint(sheet).colour(known);
    if (!pale) {
        return pale;
    }
    cv::Mat isLifted;
    cv::inRange(sheet.straight,
                cv::Scalar((*pale)[0] - 2 * kSame, (*pale)[1] - 2 * kSame, (*pale)[2] - 2 * kSame),
                cv::Scalar::all(255), isLifted);
    sheet.straight.setTo(cv::Scalar::all(255), isLifted);
    return pale;
}

} // namespace otherskein::trace::detail
