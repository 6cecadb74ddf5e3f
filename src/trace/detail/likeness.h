#pragma once

#include "trace/detail/sheet.h"

#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// Cells at the sheet's own size, for comparing two of them closely: a row each, CV_32F, of the
/// light of side × side places (0 is white) and two tints of kPictureTints × kPictureTints. Grid
/// lines around the cell are left out.
inline constexpr int kPictureTints = 4;
struct Pictures {
    cv::Mat rows;
    int side = 0;
    /// Of each row, where its cell's middle lies on the page's pixels, 0 to 1 both ways.
    std::vector<cv::Point2f> phases;
    /// The same by the grid's own lines, where a program drew them; see pixelPhasesOf.
    std::vector<cv::Point2f> finePhases;
    /// And where the cell itself lies, in cells; sheets lie far apart.
    std::vector<cv::Point2f> places;

    /// Where symbols were found to lie elsewhere in their cells: the rows as they were, and by how
    /// many px each has been moved since; empty where none.
    cv::Mat unmoved = {};
    std::vector<cv::Point2f> steps = {};

    [[nodiscard]] int lights() const { return side * side; }
};
[[nodiscard]] Pictures picturesOf(std::span<const Sheet> sheets);

/// What printing and scanning do to each place of a cell.
struct PrintNoise {
    double plain = 3;    ///< standard deviation where the picture is flat, grey levels
    double ground = 2.5; ///< of a whole cell's light
    double tint = 2.5;   ///< and of its tints
    double tints = 2;    ///< of a place's tint where the cell's is taken out
    double ink = 0.08;   ///< of a symbol's darkness, as a share of it
    double edge = 0.1;   ///< of the place of an edge, px, beyond what moving the whole cell does
    /// A program drew the page: there is next to no noise, and pixels are those of the drawing.
    bool isDrawn = false;
    double step = 0.45; ///< of where a symbol lies in its cell, px
};

struct Unlikeness {
    /// Mean square of what cannot be explained, in noise: of the light or of the tints, which is
    /// more.
    double rest = 0;
    double moved = 0;  ///< sum of squares of what explains the rest, each in its usual spread
    double ofTint = 0; ///< of the rest, the tints'
};

/// How cells that mean the same differ: moved a little, blurred, inked stronger, a line reaching in
/// at a side, and noise at each place. A cell's distance from a mean is Mahalanobis's under that
/// covariance, diag + B·Bᵀ, by Woodbury's identity.
class Likeness {
  public:
    Likeness(const cv::Mat& mean, int side, const PrintNoise& noise, double share);

    [[nodiscard]] std::vector<Unlikeness> unlikeness(const cv::Mat& rows) const;
    /// The same by the places of a row that are seen: `seen` is 1 there and 0 elsewhere.
    [[nodiscard]] Unlikeness unlikenessSeen(const cv::Mat& row, const cv::Mat& seen) const;
    /// What is left of rows when everything that may vary has been taken out; grey levels.
    [[nodiscard]] cv::Mat rests(const cv::Mat& rows) const;
    /// The same in noise.
    [[nodiscard]] cv::Mat scaledRests(const cv::Mat& rows) const;

  private:
    /// What tints at all four sides have in common is the ground's, and as rare as such.
    [[nodiscard]] double groundMoved(const cv::Mat& spreads) const;

    cv::Mat mean_;
    int lineTints_ = -1; ///< the first of eight directions, if lines may be coloured
    double groundTint_ = 1;
    cv::Mat scale_; ///< 1 / standard deviation of each place
    cv::Mat basis_; ///< rows: scaled directions times their spread
    cv::Mat inner_; ///< (I + B·Bᵀ)⁻¹
};

} // namespace otherskein::trace::detail
