#include "trace/detail/drawn_sides.h"

#include "trace/detail/median_colour.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace otherskein::trace::detail {

namespace {

// Shares of a cell.
constexpr double kCorner = 0.125; // where other lines cross
constexpr double kRing = 0.22;    // depth in a cell at which its ground is looked for
constexpr double kAcross = 0.3;   // to each side of a line, how far it is followed
constexpr double kOff = 0.06;     // a line's middle beside its side
constexpr double kMiddle = 0.05;  // around the side, where a line's own colour is
// Grey levels.
constexpr double kEven = 12; // along a line
constexpr double kSame = 40; // across it
constexpr double kSeen = 25; // off the cells' grounds
constexpr int kDots = 3;     // runs along a side, from which a line is dotted

double apart(const cv::Vec3b& one, const cv::Vec3b& other) {
    return cv::norm(one, other, cv::NORM_INF);
}

/// The colour that most has of a cell near its rim.
cv::Vec3b groundOf(const cv::Mat& cell) {
    const int size = cell.rows;
    const auto depth = static_cast<int>(kRing * size);
    std::vector<cv::Vec3b> ring;
    for (int i = depth; i < size - depth; ++i) {
        ring.push_back(cell.at<cv::Vec3b>(depth, i));
        ring.push_back(cell.at<cv::Vec3b>(size - 1 - depth, i));
        ring.push_back(cell.at<cv::Vec3b>(i, depth));
        ring.push_back(cell.at<cv::Vec3b>(i, size - 1 - depth));
    }
    return medianColourOf(ring);
}

/// What lies `t` px beside an upright side, if it is of one colour all along.
class Across {
  public:
    Across(const cv::Mat& straight, int cell, const cv::Point& top)
        : m_straight(straight), m_cell(cell), m_top(top) {}

    [[nodiscard]] std::optional<cv::Vec3b> at(int t) const {
        const auto corner = static_cast<int>(std::ceil(kCorner * m_cell));
        cv::Vec3b low(255, 255, 255);
        cv::Vec3b high(0, 0, 0);
        for (int y = corner; y < m_cell - corner; ++y) {
            const cv::Vec3b& one = m_straight.at<cv::Vec3b>(m_top.y + y, m_top.x + t);
            for (int c = 0; c < 3; ++c) {
                low[c] = std::min(low[c], one[c]);
                high[c] = std::max(high[c], one[c]);
            }
        }
        if (apart(low, high) > kEven) {
            return std::nullopt;
        }
        return m_straight.at<cv::Vec3b>(m_top.y + m_cell / 2, m_top.x + t);
    }

    /// What has another colour than the ground there: in how many runs, whether off the corners.
    struct Marks {
        int runs = 0;
        bool isInside = true;
    };
    [[nodiscard]] Marks marksAt(int t, const cv::Vec3b& ground) const {
        const auto corner = static_cast<int>(std::ceil(kCorner * m_cell));
        Marks marks;
        bool was = false;
        for (int y = corner; y < m_cell - corner; ++y) {
            const bool is =
                apart(m_straight.at<cv::Vec3b>(m_top.y + y, m_top.x + t), ground) > 2 * kSame;
            marks.runs += is && !was ? 1 : 0;
            marks.isInside = marks.isInside && !(is && (y == corner || y == m_cell - corner - 1));
            was = is;
        }
        return marks;
    }

  private:
    const cv::Mat& m_straight;
    int m_cell;
    cv::Point m_top;
};

/// How far a line reaches from its middle, and whether it goes on as a fill.
struct Reach {
    double to = 0; ///< px
    bool isFill = false;
};

Reach reachOf(const Across& across, int core, int way, int most, const cv::Vec3b& colour,
              const cv::Vec3b& ground) {
    int t = core;
    while (std::abs(t + way) <= most) {
        const auto next = across.at(t + way);
        if (!next || apart(*next, colour) > kSame) {
            // The pixel after may be the line's in part.
            double part = 0;
            if (next && apart(ground, colour) > kSame) {
                const cv::Vec3d whole = cv::Vec3d(colour) - cv::Vec3d(ground);
                part = std::clamp(
                    (cv::Vec3d(*next) - cv::Vec3d(ground)).dot(whole) / whole.dot(whole), 0.0, 1.0);
            }
            return {(way > 0 ? t + 1 : -t) + part, false};
        }
        t += way;
    }
    return {static_cast<double>(most), true};
}

SideLook lookOf(const Across& across, int cell, const cv::Vec3b& before, const cv::Vec3b& after) {
    SideLook look;
    look.ground = before;
    look.isBetweenLike = apart(before, after) <= kEven;
    const auto middle = static_cast<int>(std::ceil(kMiddle * cell));
    const auto most = static_cast<int>(kAcross * cell);
    double strongest = kSeen;
    int core = 0;
    bool isPart = false;
    bool isMarked = false;
    for (int t = -middle; t < middle; ++t) {
        const auto colour = across.at(t);
        if (!colour) {
            const Across::Marks marks = across.marksAt(t, t < 0 ? before : after);
            isPart = isPart || (marks.runs <= 1 && marks.isInside);
            isMarked = isMarked || marks.runs < kDots;
            continue;
        }
        // Between grounds of two colours an edge may have mixtures of them.
        const double nearer = std::min(apart(*colour, before), apart(*colour, after));
        const double farther = std::max(apart(*colour, before), apart(*colour, after));
        const double strength = nearer > kSame ? farther + 255 : farther;
        if (strength > strongest) {
            strongest = strength;
            core = t;
            look.colour = *colour;
        }
    }
    look.isPart = isPart && strongest <= kSeen;
    if (strongest <= kSeen) {
        look.isUntold = isMarked || (apart(before, after) <= kSame &&
                                     std::max({before[0], before[1], before[2]}) < 2 * kSame);
        return look;
    }
    const Reach left = reachOf(across, core, -1, most, look.colour, before);
    const Reach right = reachOf(across, core, 1, most, look.colour, after);
    if (left.isFill && right.isFill) {
        look.isUntold = true;
        return look;
    }
    if (left.isFill || right.isFill) { // a cell of the line's colour: its other half tells
        const double half = left.isFill ? right.to : left.to;
        look.width = half > kOff * cell ? static_cast<float>(2 * half) : 0;
        return look;
    }
    if (std::abs(right.to - left.to) / 2 <= std::max(1.0, kOff * cell)) {
        look.width = static_cast<float>(left.to + right.to);
    }
    return look;
}

} // namespace

DrawnSides drawnSides(const Sheet& drawn, bool isUpright) {
    cv::Mat straight = drawn.straight;
    if (!isUpright) {
        cv::transpose(drawn.straight, straight);
    }
    DrawnSides result;
    result.lines = straight.cols / drawn.cell + 1;
    result.along = straight.rows / drawn.cell;
    result.sides.resize(static_cast<std::size_t>(result.lines * result.along));
    const int cell = drawn.cell;
    cv::parallel_for_({0, result.along}, [&](const cv::Range& range) {
        for (int place = range.start; place < range.end; ++place) {
            cv::Vec3b before = groundOf(straight({0, place * cell, cell, cell}));
            for (int line = 1; line + 1 < result.lines; ++line) {
                const cv::Vec3b after = groundOf(straight({line * cell, place * cell, cell, cell}));
                const Across across(straight, cell, {line * cell, place * cell});
                result.sides[static_cast<std::size_t>(line * result.along + place)] =
                    lookOf(across, cell, before, after);
                before = after;
            }
        }
    });
    return result;
}

} // namespace otherskein::trace::detail
