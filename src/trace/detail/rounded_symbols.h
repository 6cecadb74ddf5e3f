#pragma once

#include "trace/detail/phase_parting.h"

#include <array>
#include <optional>

namespace otherskein::trace::detail {

/// Symbols whose edges a renderer puts at whole pixels: groups of one symbol may then be as unlike
/// as two symbols are, and only where their cells lie on the page's pixels tells which. `groups`
/// and `means` (of their pictures) are looked at, and belong to the caller.
class RoundedSymbols {
  public:
    RoundedSymbols(const std::vector<Group>& groups, const std::vector<cv::Mat>& means,
                   const Pictures& pictures, const PrintNoise& noise);

    /// To be told when the members of a group have changed.
    void forget(std::size_t group);

    /// Up to 1 for two that may be one, each edge being up to half a pixel off; never on a scan.
    [[nodiscard]] double apart(std::size_t a, std::size_t b);

    enum class Proof {
        shown, ///< the cells show that it is their phases
        open   ///< they are too few to show it, and do not speak against it
    };
    /// Whether two groups are one symbol, made two by phase, that far apart; none that either could
    /// be as well stands beside the other.
    [[nodiscard]] bool areOne(std::size_t a, std::size_t b, double apart, Proof proof);

  private:
    const std::vector<Group>& m_groups;
    const std::vector<cv::Mat>& m_means;
    int m_side;
    PrintNoise m_noise;
    PhaseMeetings m_meetings;
    std::vector<std::array<std::optional<Likeness>, 2>> m_likenesses;
};

/// Joins what is left of symbols on a page that is known to round: small groups that may well be
/// another picture of a larger one, with no proof. Their members are added to `unproven`.
[[nodiscard]] std::vector<Group> joinedUnproven(std::vector<Group> groups, const Pictures& pictures,
                                                const PrintNoise& noise,
                                                std::vector<int>& unproven);

} // namespace otherskein::trace::detail
