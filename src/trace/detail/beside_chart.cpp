#include "trace/detail/beside_chart.h"

#include "trace/detail/median.h"
#include "trace/detail/sheet.h"
#include "trace/detail/views.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace otherskein::trace::detail {

namespace {

constexpr float kNear = 10;    // levels of a channel
constexpr double kLeast = 0.4; // of a cell's side
constexpr double kMost = 6;
constexpr double kLongest = 3; // times as long as high
constexpr double kFull = 0.85; // of its box
constexpr int kLeastPx = 5;
constexpr double kStep = 0.3;       // cells from one look at the band around a grid to the next
constexpr double kMostOfBand = 0.5; // numbers stand there too
constexpr double kMostOfCells = 0.8;

/// Where a page has a colour, outside of its grids: CV_8U.
cv::Mat placesOf(const Page& page, std::size_t number, std::span<const Piece> pieces,
                 const cv::Vec3f& colour) {
    // A tint near white is told from white.
    float white = 0;
    for (int channel = 0; channel < 3; ++channel) {
        white = std::max(white, 255 - colour[channel]);
    }
    const float near = std::min(kNear, white / 2);
    const cv::Mat view = viewOf(page.picture);
    const cv::Scalar paper = cv::mean(paperOf(view));
    cv::Scalar low;
    cv::Scalar high;
    for (int channel = 0; channel < 3; ++channel) {
        const double scale = paper[channel] / 255;
        low[channel] = scale * static_cast<double>(colour[channel] - near);
        high[channel] = scale * static_cast<double>(colour[channel] + near);
    }
    cv::Mat places;
    cv::inRange(view, low, high, places);
    for (const Piece& piece : pieces) {
        if (piece.page == number) {
            std::vector<cv::Point> outline;
            for (const QPointF& corner : piece.grid.outline) {
                outline.emplace_back(static_cast<int>(corner.x()), static_cast<int>(corner.y()));
            }
            cv::fillPoly(places, std::vector{outline}, cv::Scalar(0));
        }
    }
    return places;
}

/// The colour of a few pixels of a page; none beyond it.
std::optional<cv::Vec3f> colourAt(const cv::Mat& page, const cv::Point2d& at) {
    const cv::Rect box(static_cast<int>(std::lround(at.x)) - 1,
                       static_cast<int>(std::lround(at.y)) - 1, 3, 3);
    if ((box & cv::Rect({}, page.size())) != box) {
        return std::nullopt;
    }
    const cv::Scalar mean = cv::mean(page(box));
    return cv::Vec3f(static_cast<float>(mean[0]), static_cast<float>(mean[1]),
                     static_cast<float>(mean[2]));
}

bool isOneColour(const cv::Vec3f& one, const cv::Vec3f& other) {
    return cv::norm(one - other, cv::NORM_INF) <= static_cast<double>(kNear);
}

/// The usual colour in a band around a grid; none where there is no usual one, or no band.
std::optional<cv::Vec3f> colourAround(const cv::Mat& page, const Lattice& lattice) {
    std::vector<cv::Vec3f> band;
    double all = 0;
    const auto look = [&](double x, double y) {
        ++all;
        if (const auto one = colourAt(page, lattice.corner(x, y))) {
            band.push_back(*one);
        }
    };
    for (const double off : {0.7, 1.1, 1.5}) {
        for (double x = 0; x < lattice.columns; x += kStep) {
            look(x, -off);
            look(x, lattice.rows + off);
        }
        for (double y = 0; y < lattice.rows; y += kStep) {
            look(-off, y);
            look(lattice.columns + off, y);
        }
    }
    std::array<std::vector<float>, 3> channels;
    for (const cv::Vec3f& one : band) {
        for (int channel = 0; channel < 3; ++channel) {
            channels[static_cast<std::size_t>(channel)].push_back(one[channel]);
        }
    }
    const cv::Vec3f usual(medianOf(channels[0]), medianOf(channels[1]), medianOf(channels[2]));
    const auto same =
        std::ranges::count_if(band, [&](const cv::Vec3f& one) { return isOneColour(one, usual); });
    return static_cast<double>(same) > kMostOfBand * all ? std::optional(usual) : std::nullopt;
}

} // namespace

BesideChart::BesideChart(std::span<const Page> pages, std::span<const Piece> pieces)
    : m_pages(pages), m_pieces(pieces) {}

std::vector<double> BesideChart::patches(const cv::Vec3f& colour) const {
    std::vector<double> sizes;
    for (std::size_t p = 0; p < m_pages.size(); ++p) {
        const cv::Mat places = placesOf(m_pages[p], p, m_pieces, colour);
        cv::Mat labels;
        cv::Mat stats;
        cv::Mat centres;
        cv::connectedComponentsWithStats(places, labels, stats, centres, 4);
        const double cell = latticeOf(m_pieces[0].grid).pitch;
        for (int i = 1; i < stats.rows; ++i) {
            const int width = stats.at<int>(i, cv::CC_STAT_WIDTH);
            const int height = stats.at<int>(i, cv::CC_STAT_HEIGHT);
            const double size = std::sqrt(static_cast<double>(width) * height);
            if (std::min(width, height) >= kLeastPx && size > kLeast * cell &&
                size < kMost * cell &&
                std::max(width, height) < kLongest * std::min(width, height) &&
                stats.at<int>(i, cv::CC_STAT_AREA) > kFull * width * height) {
                sizes.push_back(size);
            }
        }
    }
    return sizes;
}

bool BesideChart::isAround(const std::vector<int>& cells) const {
    int first = 0;
    int same = 0;
    for (const Piece& piece : m_pieces) {
        const Lattice lattice = latticeOf(piece.grid);
        const cv::Mat page = viewOf(m_pages[piece.page].picture);
        const auto around = colourAround(page, lattice);
        for (const int cell : cells) {
            const int at = cell - first;
            if (around && at >= 0 && at < lattice.columns * lattice.rows) {
                const auto own = colourAt(
                    page, lattice.corner(at % lattice.columns + 0.5, at / lattice.columns + 0.5));
                same += own && isOneColour(*own, *around) ? 1 : 0;
            }
        }
        first += lattice.columns * lattice.rows;
    }
    return same > kMostOfCells * static_cast<double>(cells.size());
}

} // namespace otherskein::trace::detail
