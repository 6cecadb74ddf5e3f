#pragma once

#include "trace/detail/group.h"
#include "trace/detail/likeness.h"

#include <vector>

namespace otherskein::trace::detail {

/// Where a cell that lines lie over belongs.
struct Belonging {
    int group = 0;
    float sure = 0;
};

/// The group that each hidden picture is likest by what is seen of it. `seen`: for each picture of
/// `hidden` a row of kLookSide × kLookSide places and more, as looks: 1 where seen, 0 where not.
/// `groups` has members. Several that are alike and like none of these are a symbol of their own,
/// numbered on from the last group, and never sure.
[[nodiscard]] std::vector<Belonging> belongingsOf(const cv::Mat& hidden, const cv::Mat& seen,
                                                  const std::vector<Group>& groups,
                                                  const Pictures& pictures,
                                                  const PrintNoise& noise);

} // namespace otherskein::trace::detail
