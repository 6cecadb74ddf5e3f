#pragma once

#include "trace/detail/group.h"
#include "trace/detail/likeness.h"

namespace otherskein::trace::detail {

// A symbol does not lie at one place in all of its cells: a hand drew it, the paper curls, a
// lattice is a pixel off. Beyond a pixel that is more than Likeness explains, whose steps are
// linear.

/// By how many px, right and down, a picture is to be moved to be likest that mean; no more than
/// that explains.
[[nodiscard]] cv::Point2f stepOnto(const cv::Mat& mean, const cv::Mat& picture, int side,
                                   const PrintNoise& noise);
/// The picture moved by so much, its rim going on outwards; what of a symbol it then does not show
/// is as `beyond`.
[[nodiscard]] cv::Mat stepped(const cv::Mat& picture, int side, cv::Point2f step,
                              const cv::Mat& beyond = {});
/// Whether it is worth resampling for.
[[nodiscard]] bool isStep(cv::Point2f step);
/// What that much is in Unlikeness::moved.
[[nodiscard]] double movedBy(cv::Point2f step, const PrintNoise& noise);
/// What does not change where a symbol lies elsewhere: near for pictures that may be the same.
[[nodiscard]] cv::Mat placeless(const cv::Mat& picture, int side);

/// Moves pictures by so much more than they have been moved.
void movePictures(const std::vector<int>& rows, cv::Point2f step, Pictures& pictures);
/// Moves each member onto the mean of its group.
void placeMembers(const Group& group, Pictures& pictures, const PrintNoise& noise);

} // namespace otherskein::trace::detail
