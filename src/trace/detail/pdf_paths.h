#pragma once

#include <QByteArray>

#include <opencv2/core.hpp>

#include <compare>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace otherskein::trace::detail {

/// Where in a PDF's page a path is painted: in the page's own content (stream 0) or in a form that
/// it draws, and which of the painting operators there.
struct PathPlace {
    int stream = 0;
    int painting = 0;

    auto operator<=>(const PathPlace&) const = default;
};

/// A straight line that is drawn, in points from the top left of the page as it is shown.
struct PathLine {
    cv::Point2d from;
    cv::Point2d to;
    double width = 0;
};

/// A path of a page: stroked, or filled and as narrow as a line, or round.
struct PaintedPath {
    PathPlace place;
    /// Its straight parts; none where it has curves, or is an area that is only filled.
    std::vector<PathLine> lines;
    bool isClosed = false;           ///< stroked back to where it began
    bool isFilled = false;           ///< stroked, and its area is filled too
    bool isNarrow = false;           ///< not stroked: its lines are areas
    std::optional<cv::Rect2d> round; ///< its box, where it is a circle or nearly so
    /// All that says how it is painted (colour, width, dashes): equal where they are.
    std::string look;
    std::optional<cv::Vec3b> colour; ///< BGR, where it is said as grey or RGB
};

/// A piece of text that a page shows at once.
struct ShownText {
    PathPlace place;    ///< counted by themselves
    cv::Point2d origin; ///< of its first sign, points as of lines
    int bytes = 0;      ///< that say it, one or two a sign
};

/// A path that is only filled and is no line: a symbol, a sign of text as an outline, a ground.
struct FilledArea {
    PathPlace place;
    cv::Rect2d box;
};

/// What a page paints as paths, in order, and where it shows text.
struct PagePaths {
    cv::Size2d size; ///< of the page as it is shown, points
    std::vector<PaintedPath> paths;
    std::vector<FilledArea> areas;
    std::vector<ShownText> texts;
    double longestCurve = 0; ///< of those that are stroked, from end to end, points
};

/// What a page is not to paint.
struct GonePaths {
    std::set<PathPlace> paths;
    std::set<PathPlace> strokes; ///< of paths that go on being filled
    std::set<PathPlace> texts;

    [[nodiscard]] bool isEmpty() const { return paths.empty() && strokes.empty() && texts.empty(); }
    void add(const GonePaths& more);
};

/// The paths of a page (from 1), by qpdf; ISO 32000-1, 8.5. None where the file cannot be read so,
/// or the page has far more than a chart needs.
[[nodiscard]] std::optional<PagePaths> pathsOf(const QByteArray& pdf, int page);

/// The file, but the page does not paint some things. Empty where that cannot be done.
[[nodiscard]] QByteArray withoutPaths(const QByteArray& pdf, int page, const GonePaths& gone);

} // namespace otherskein::trace::detail
