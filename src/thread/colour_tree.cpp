#include "thread/colour_tree.h"

#include "colour/conversion.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace otherskein::thread {

namespace {

using Range = ColourTree::Range;
using Node = ColourTree::Node;

constexpr std::uint32_t kLeafSize = 8;

/// What the boxes bound, as one point.
struct Point {
    double y;
    double xMinusY;
    double yMinusZ;
};

const colour::Xyz& white() {
    static const colour::Xyz d50 = colour::xyzFromLab({100, 0, 0});
    return d50;
}

Point pointOf(const colour::Xyz& xyz) {
    const double y = xyz.Y / white().Y;
    return {y, xyz.X / white().X - y, y - xyz.Z / white().Z};
}

/// CIELAB's f: a cube root with a straight foot (CIE 15). Rising and concave.
double f(double t) {
    constexpr double kFoot = (24.0 / 116) * (24.0 / 116) * (24.0 / 116);
    return t <= kFoot ? (841.0 / 108) * t + 16.0 / 116 : std::cbrt(t);
}

Range mean(const Range& one, double p, const Range& other, double q) {
    constexpr double kRounding = 1e-12; // of conversions; white is 1
    return {p * one.least + q * other.least - kRounding, p * one.most + q * other.most + kRounding};
}

/// Least and most of f(y + d) - f(y). f is concave, so a step up is largest from the lowest y, and
/// a step down too.
Range stepOfF(const Range& y, const Range& fy, const Range& d) {
    const auto step = [&](double by, bool fromLow) {
        return fromLow ? f(y.least + by) - fy.least : f(y.most + by) - fy.most;
    };
    return {step(d.least, d.least < 0), step(d.most, d.most > 0)};
}

void widen(Range& range, double value) {
    range.least = std::min(range.least, value);
    range.most = std::max(range.most, value);
}

void widen(colour::DifferenceBound::LabBox& box, const colour::Lab& lab) {
    box = {std::min(box.leastL, lab.L), std::max(box.mostL, lab.L),  std::min(box.leastA, lab.a),
           std::max(box.mostA, lab.a),  std::min(box.leastB, lab.b), std::max(box.mostB, lab.b)};
}

class Builder {
  public:
    Builder(const std::vector<Point>& points, const std::vector<colour::Lab>& labs,
            std::vector<Node>& nodes, std::vector<std::uint32_t>& members)
        : m_points(points), m_labs(labs), m_nodes(nodes), m_members(members) {}

    std::uint32_t build(std::uint32_t begin, std::uint32_t end) {
        const auto index = static_cast<std::uint32_t>(m_nodes.size());
        m_nodes.push_back(boxOf(begin, end));
        if (end - begin > kLeafSize) {
            const auto axis = widestAxis(m_nodes[index]);
            const std::uint32_t middle = begin + (end - begin) / 2;
            const auto at = [this](std::uint32_t offset) { return m_members.begin() + offset; };
            std::nth_element(at(begin), at(middle), at(end), [&](std::uint32_t i, std::uint32_t j) {
                return m_points[i].*axis < m_points[j].*axis;
            });
            const std::uint32_t left = build(begin, middle);
            const std::uint32_t right = build(middle, end);
            m_nodes[index].left = left;
            m_nodes[index].right = right;
        }
        return index;
    }

  private:
    const std::vector<Point>& m_points;
    const std::vector<colour::Lab>& m_labs;
    std::vector<Node>& m_nodes;
    std::vector<std::uint32_t>& m_members;

    [[nodiscard]] Node boxOf(std::uint32_t begin, std::uint32_t end) const {
        const Point& first = m_points[m_members[begin]];
        const colour::Lab& lab = m_labs[m_members[begin]];
        Node node{.y = {first.y, first.y},
                  .xMinusY = {first.xMinusY, first.xMinusY},
                  .yMinusZ = {first.yMinusZ, first.yMinusZ},
                  .lab = {lab.L, lab.L, lab.a, lab.a, lab.b, lab.b},
                  .begin = begin,
                  .end = end};
        for (std::uint32_t i = begin; i < end; ++i) {
            const Point& point = m_points[m_members[i]];
            widen(node.y, point.y);
            widen(node.xMinusY, point.xMinusY);
            widen(node.yMinusZ, point.yMinusZ);
            widen(node.lab, m_labs[m_members[i]]);
        }
        return node;
    }

    /// The axis along which the group's Lab values spread most.
    static double Point::*widestAxis(const Node& node) {
        const Range fy{f(node.y.least), f(node.y.most)};
        const double spreadL = 116 * (fy.most - fy.least);
        const Range middle{(node.y.least + node.y.most) / 2, (node.y.least + node.y.most) / 2};
        const Range fMiddle{f(middle.least), f(middle.most)};
        const Range a = stepOfF(middle, fMiddle, node.xMinusY);
        const Range b = stepOfF(middle, fMiddle, node.yMinusZ);
        const double spreadA = 500 * (a.most - a.least);
        const double spreadB = 200 * (b.most - b.least);
        if (spreadL >= spreadA && spreadL >= spreadB) {
            return &Point::y;
        }
        return spreadA >= spreadB ? &Point::xMinusY : &Point::yMinusZ;
    }
};

bool holds(const Range& range, double value) {
    return range.least <= value && value <= range.most;
}

} // namespace

ColourTree::ColourTree(const std::vector<colour::Xyz>& threads,
                       const std::vector<colour::Lab>& labs)
    : m_members(threads.size()) {
    assert(threads.size() == labs.size());
    std::iota(m_members.begin(), m_members.end(), 0U);
    std::vector<Point> points;
    points.reserve(threads.size());
    std::ranges::transform(threads, std::back_inserter(points), pointOf);
    if (!threads.empty()) {
        Builder(points, labs, m_nodes, m_members)
            .build(0, static_cast<std::uint32_t>(threads.size()));
    }
}

colour::DifferenceBound::LabBox ColourTree::blendBox(const Node& one, int p, const Node& other,
                                                     int q) {
    const double wp = static_cast<double>(p) / (p + q);
    const double wq = static_cast<double>(q) / (p + q);
    const Range y = mean(one.y, wp, other.y, wq);
    const Range fy{f(y.least), f(y.most)};
    const Range a = stepOfF(y, fy, mean(one.xMinusY, wp, other.xMinusY, wq));
    // b* = 200 (f(y) - f(y - e)): the step down by e, turned round.
    const Range e = mean(one.yMinusZ, wp, other.yMinusZ, wq);
    const Range b = stepOfF(y, fy, {-e.most, -e.least});
    return {116 * fy.least - 16, 116 * fy.most - 16, 500 * a.least,
            500 * a.most,        -200 * b.most,      -200 * b.least};
}

bool ColourTree::isConsistent(const std::vector<colour::Xyz>& threads) const {
    std::vector<int> seen(threads.size(), 0);
    for (const Node& node : m_nodes) {
        for (std::uint32_t i = node.begin; i < node.end; ++i) {
            const Point point = pointOf(threads[m_members[i]]);
            if (!holds(node.y, point.y) || !holds(node.xMinusY, point.xMinusY) ||
                !holds(node.yMinusZ, point.yMinusZ)) {
                return false;
            }
            seen[m_members[i]] += node.isLeaf() ? 1 : 0;
        }
    }
    return std::ranges::all_of(seen, [](int times) { return times == 1; });
}

} // namespace otherskein::thread
