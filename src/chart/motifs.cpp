#include "chart/motifs.h"

#include "chart/detail/gaps.h"
#include "chart/detail/motif_cut.h"
#include "chart/detail/motif_list.h"
#include "chart/detail/necks.h"

#include <algorithm>
#include <array>
#include <map>

namespace otherskein::chart {

namespace {

/// Ours, found by looking at results (no source).
constexpr std::array<int, kPlainStep> kBridged{8, 5, 3, 2, 1};
/// Of the steps above kPlainStep: a neck is thinner than this share of the thinner body.
constexpr std::array<double, kMotifSteps - kPlainStep - 1> kNecks{0.28, 0.42, 0.54, 0.66, 0.85};

Labels labelsAt(const Grid& grid, int step, KeyBounds keyBounds) {
    assert(step >= 0 && step < kMotifSteps);
    Pieces pieces = findPieces(grid, keyBounds);
    const std::vector<std::uint32_t> homes = crumbHomes(grid, pieces, keyBounds);
    if (step > kPlainStep) {
        Labels labels =
            splitAtNecks(grid, pieces, kNecks[static_cast<std::size_t>(step - kPlainStep - 1)]);
        for (std::size_t i = 0; i < labels.of.size(); ++i) {
            if (const MotifIndex piece = pieces.of[i];
                piece != kNoMotif && homes[piece] != kNoHome) {
                labels.of[i] = labels.of[homes[piece]];
            }
        }
        return labels;
    }
    const auto count = static_cast<MotifIndex>(pieces.sizes.size());
    Joined joined(count);
    if (step < kPlainStep) {
        joinAcrossGaps(grid, pieces, keyBounds, bridgedGap(step), joined);
    }
    for (MotifIndex piece = 0; piece < count; ++piece) {
        if (homes[piece] != kNoHome) {
            joined.join(piece, pieces.of[homes[piece]]);
        }
    }
    for (MotifIndex& label : pieces.of) {
        label = label == kNoMotif ? kNoMotif : joined.find(label);
    }
    return {std::move(pieces.of), count};
}

/// Carries out edits on labels.
class Editing {
  public:
    Editing(const Grid& grid, int step, Labels labels)
        : m_grid(grid), m_reach(bridgedGap(step) + 1), m_labels(std::move(labels)) {}

    void operator()(const JoinMotifs& join) {
        const MotifIndex one = at(join.one);
        const MotifIndex other = at(join.other);
        if (one == kNoMotif || other == kNoMotif || one == other) {
            return;
        }
        std::ranges::replace(m_labels.of, other, one);
        if (m_names[one].isEmpty()) {
            m_names[one] = m_names[other];
        }
        m_names.erase(other);
    }
    void operator()(const CutMotif& cut) {
        cutMotif(m_grid, cut, m_reach, m_labels.of, m_labels.next);
    }
    void operator()(const NameMotif& name) {
        if (const MotifIndex motif = at(name.of); motif != kNoMotif) {
            m_names[motif] = name.name;
        }
    }

    [[nodiscard]] Motifs motifs() && { return motifsOf(m_grid, std::move(m_labels), m_names); }

  private:
    const Grid& m_grid;
    int m_reach;
    Labels m_labels;
    std::map<MotifIndex, QString> m_names;

    [[nodiscard]] MotifIndex at(const Cell& cell) const {
        return m_grid.contains(cell) ? m_labels.of[m_grid.indexOf(cell)] : kNoMotif;
    }
};

} // namespace

int bridgedGap(int step) {
    assert(step >= 0 && step < kMotifSteps);
    return step < kPlainStep ? kBridged[static_cast<std::size_t>(step)] : 0;
}

Motifs findMotifs(const Grid& grid, int step, KeyBounds keyBounds) {
    return motifsOf(grid, labelsAt(grid, step, keyBounds));
}

Motifs findMotifs(const Grid& grid, const MotifPlan& plan, KeyBounds keyBounds) {
    Editing editing(grid, plan.step, labelsAt(grid, plan.step, keyBounds));
    for (const MotifEdit& edit : plan.edits) {
        std::visit(editing, edit);
    }
    return std::move(editing).motifs();
}

} // namespace otherskein::chart
