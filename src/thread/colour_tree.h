#pragma once

#include "colour/difference_bound.h"
#include "colour/lab.h"

#include <cstdint>
#include <vector>

namespace otherskein::thread {

/// Threads gathered by colour into a binary tree of boxes, so that a search can pass over whole
/// groups of threads, or of pairs, at once. A blend's XYZ is a mean, so the box of a mean is the
/// mean of boxes.
class ColourTree {
  public:
    struct Range {
        double least = 0;
        double most = 0;
    };

    /// A group of threads. X and Z are held as their distance from Y (each relative to white):
    /// these and Y bound a* and b* far closer than X, Y and Z would, since the three rise and fall
    /// together.
    struct Node {
        Range y;
        Range xMinusY;
        Range yMinusZ;
        colour::DifferenceBound::LabBox lab{}; ///< of the threads themselves
        std::uint32_t begin = 0;               ///< into `members`
        std::uint32_t end = 0;
        std::uint32_t left = 0; ///< children; both 0 for a leaf
        std::uint32_t right = 0;

        [[nodiscard]] bool isLeaf() const { return right == 0; }
        [[nodiscard]] std::uint32_t size() const { return end - begin; }
    };

    ColourTree() = default;
    /// Shapes: `labs[i]` and `threads[i]` are the same thread (asserted: equal lengths).
    ColourTree(const std::vector<colour::Xyz>& threads, const std::vector<colour::Lab>& labs);

    [[nodiscard]] const std::vector<Node>& nodes() const { return m_nodes; } ///< the root is 0
    [[nodiscard]] const std::vector<std::uint32_t>& members() const { return m_members; }

    /// The Lab values that p of one + q of other can have, for threads of these two groups.
    [[nodiscard]] static colour::DifferenceBound::LabBox blendBox(const Node& one, int p,
                                                                  const Node& other, int q);

    /// For tests: every thread is in exactly one leaf and every box holds its threads.
    [[nodiscard]] bool isConsistent(const std::vector<colour::Xyz>& threads) const;

  private:
    std::vector<Node> m_nodes;
    std::vector<std::uint32_t> m_members;
};

} // namespace otherskein::thread
