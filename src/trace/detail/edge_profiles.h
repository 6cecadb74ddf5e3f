#pragma once

#include "trace/detail/sheet.h"

#include <span>
#include <vector>

namespace otherskein::trace::detail {

/// The profile of the page across one side of a cell, between the nearest places to either side of
/// it that have the ground of the cell there: beyond the side's line, short of a symbol.
struct EdgeProfile {
    cv::Vec3f before; ///< colour of the ground to the left or above
    cv::Vec3f after;
    int from = 0; ///< the profile's places between those two, in px from the side
    int to = 0;
    std::vector<cv::Vec3f> colours; ///< of all places from −reach to reach

    [[nodiscard]] int reach() const { return static_cast<int>(colours.size()) / 2; }
    [[nodiscard]] const cv::Vec3f& at(int t) const {
        return colours[static_cast<std::size_t>(t + reach())];
    }
    /// Colour of the cells at `t` px, were there no line: a step that lies `shift` px off.
    [[nodiscard]] cv::Vec3f ground(int t, float shift) const;
};

/// What lies along one side of a cell that is more than the grid's own line.
struct EdgeExcess {
    std::vector<cv::Vec3f> under; ///< cells and grid line, for the places from `from`
    std::vector<cv::Vec3f> over;  ///< page less `under`
    std::vector<cv::Vec3f> bare;  ///< the cells alone
    int from = 0;
    cv::Vec3f core; ///< the page's colour in the middle of the excess
    int coreAt = 0; ///< index of that place

    /// Whether most of what darkens the cells there is more than the grid's line.
    [[nodiscard]] bool isOwn() const;
    float mass = 0; ///< px · grey levels

    /// Sets core and mass from the rest.
    void measure();

    enum class Part { Both, Before, After }; ///< of the side: left or above, right or below

    /// How much a line of `colour` along the side would explain.
    struct Fit {
        float width = 0;     ///< px that are seen
        float hidden = 0;    ///< px of a line of `width` px that lie on what cannot be told from it
        float explained = 0; ///< share of the excess
        float place = 0;     ///< px from the side
        float due = 0;       ///< where it would be, of a line of `width` px that is seen in part
    };
    [[nodiscard]] Fit fit(const cv::Vec3f& colour, float width, Part part = Part::Both) const;
};

/// A line as one of one ink.
struct LineLook {
    cv::Vec3f colour;
    float width = 0;           ///< px
    bool isBeyondBold = false; ///< darker than the grid's bold lines, where it has such
};

/// Sides that run one way. Upright ones: line i of columns + 1, then row by row; level ones: line i
/// of rows + 1, then column by column.
struct EdgeLines {
    int lines = 0;
    int along = 0;
    std::vector<EdgeExcess> edges; ///< `along` for each line
    /// Bolder lines of the grid's own: every `boldStep`-th from `boldStart` on; 0 where there are
    /// none.
    int boldStep = 0;
    int boldStart = 0;
    /// By line: what it has all along where it is darker than those that are not bold.
    std::vector<LineLook> looks;

    [[nodiscard]] bool isBold(int line) const {
        return boldStep > 0 && line % boldStep == boldStart;
    }

    [[nodiscard]] EdgeExcess& at(int line, int place) {
        return edges[static_cast<std::size_t>(line * along + place)];
    }
    [[nodiscard]] const EdgeExcess& at(int line, int place) const {
        return edges[static_cast<std::size_t>(line * along + place)];
    }
};

/// What lies along sides of cells beyond the grid's own lines, whose profile is learnt from each
/// whole line; of the lines that are `known` not to be the grid's own, from all others.
[[nodiscard]] EdgeLines uprightEdges(const Sheet& sheet, const std::vector<cv::Vec3f>& grounds,
                                     std::span<const int> known = {});
[[nodiscard]] EdgeLines levelEdges(const Sheet& sheet, const std::vector<cv::Vec3f>& grounds,
                                   std::span<const int> known = {});

} // namespace otherskein::trace::detail
