#pragma once

#include "trace/detail/group.h"
#include "trace/detail/likeness.h"

#include <array>

namespace otherskein::trace::detail {

/// Of the smaller group, the share that lies in the middle third of the way from one mean to the
/// other: near nothing between two symbols, much where one cloud of noise was cut in two.
[[nodiscard]] double bridgeOf(const Group& one, const Group& other, const cv::Mat& from,
                              const cv::Mat& to, const cv::Mat& rows);

/// Members of two groups that lie next to each other on the page.
struct Frontier {
    std::vector<int> one;
    std::vector<int> other;
};
[[nodiscard]] Frontier frontierOf(const Group& one, const Group& other,
                                  const std::vector<cv::Point2f>& places, std::size_t most);

/// The pictures of these cells, those of the other moved by `step` onto the one.
using Sides = std::array<cv::Mat, 2>;
[[nodiscard]] Sides sidesOf(const Frontier& cells, const Pictures& pictures, cv::Point2f step);
[[nodiscard]] cv::Mat meanOfAll(const cv::Mat& rows);

/// The share of these cells that are likest the others of their own side: about a half where the
/// sides are one symbol, all where they are two.
[[nodiscard]] double toldApart(const Sides& cells, const Likeness& likeness);
/// Whether cells where two groups meet are of two kinds with nothing between them: each is on the
/// side of its own, and none lies half way.
[[nodiscard]] bool areTwoKinds(const Sides& cells, const Likeness& likeness);

} // namespace otherskein::trace::detail
