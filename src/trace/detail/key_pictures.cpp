#include "trace/detail/key_pictures.h"

#include "trace/detail/key_cuts.h"
#include "trace/detail/sheet.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

namespace otherskein::trace::detail {

namespace {

constexpr double kColourNoise = 6;   // grey levels by which a printed colour differs in a key
constexpr double kShapeShare = 0.55; // of a symbol's own strength: unlikeness of strangers

/// A look's light without the fading at its rim.
cv::Mat lightOf(const cv::Mat& look) {
    const auto rim = [](int at) {
        const int from = std::min(at, kLookSide - 1 - at);
        return from == 0 ? 0.4F : from == 1 ? 0.8F : 1.0F;
    };
    cv::Mat light(kLookSide, kLookSide, CV_32F);
    for (int y = 0; y < kLookSide; ++y) {
        for (int x = 0; x < kLookSide; ++x) {
            light.at<float>(y, x) = 255 + look.at<float>(y * kLookSide + x) / (rim(x) * rim(y));
        }
    }
    return light;
}

double greyOf(const colour::Srgb8& one) {
    return 0.114 * one.b + 0.587 * one.g + 0.299 * one.r;
}

/// Beyond that distance a picture is not the group's.
double limitOf(const GroupLook& group) {
    const cv::Mat light = group.mean.colRange(0, kLookSide * kLookSide);
    return kColourNoise * kLookSide +
           kShapeShare * cv::norm(light - cv::mean(light)[0], cv::NORM_L2);
}

/// Where a cell of the grid would lie in a key: its middle from the anchor, and its scale.
struct Seat {
    cv::Point2d middle;
    double scale = 1;
};

/// A cut looked at as a cell of the grid.
cv::Mat lookAt(const Cut& cut, const Seat& seat, const cv::Size2d& cell) {
    constexpr int kFine = 3 * kLookSide;
    Sheet sheet;
    const double inset = kLookInset;
    const double width = seat.scale * cell.width;
    const double height = seat.scale * cell.height;
    // Straight from the cut to a cell whose inside is kFine px.
    const auto side = static_cast<int>(std::lround(kFine / (1 - 2 * inset)));
    const cv::Point2d corner = seat.middle - cut.toLocal - cv::Point2d(width / 2, height / 2);
    const cv::Matx23d map(width / side, 0, corner.x + width / side / 2 - 0.5, 0, height / side,
                          corner.y + height / side / 2 - 0.5);
    cv::Mat straight;
    cv::warpAffine(cut.bgr, straight, map, {side, side}, cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                   cv::BORDER_REPLICATE);
    // A key's symbols are often larger than the grid's, so sharper: as much blur as the pixels of
    // the page and putting straight give a cell.
    const double pixel = side / std::min(cell.width, cell.height);
    const double more = std::max(0.0, 2 - 1 / (seat.scale * seat.scale)) / 12;
    if (const double blur = pixel * std::sqrt(more); blur > 0.3) {
        cv::GaussianBlur(straight, straight, {}, blur);
    }
    straight.convertTo(sheet.straight, CV_8UC3);
    sheet.cell = side;
    sheet.columns = 1;
    sheet.rows = 1;
    return looksOf(sheet);
}

double distance(const cv::Mat& one, const cv::Mat& other) {
    return cv::norm(one, other, cv::NORM_L2);
}

/// A group as the search for the seat needs it.
struct Shape {
    const GroupLook* group = nullptr;
    double limit = 0;
    std::optional<Spread> ink; ///< from the cell's middle, px of the page
};

std::vector<Shape> shapesOf(const std::vector<GroupLook>& groups, const cv::Size2d& cell) {
    std::vector<Shape> shapes;
    for (const GroupLook& group : groups) {
        Shape shape{&group, limitOf(group), {}};
        shape.ink = spreadOf(inkOf(lightOf(group.mean), greyOf(group.ground)));
        if (shape.ink) {
            const double place = (1 - 2 * kLookInset) / kLookSide;
            const auto middle = (kLookSide - 1) / 2.0;
            shape.ink->centre = {(shape.ink->centre.x - middle) * place * cell.width,
                                 (shape.ink->centre.y - middle) * place * cell.height};
            shape.ink->x *= place * cell.width;
            shape.ink->y *= place * cell.height;
        }
        shapes.push_back(shape);
    }
    return shapes;
}

/// Seats that would lay the ink of a line's picture onto a group's, best supported first.
std::vector<Seat> supportedSeats(const std::vector<Cut>& cuts, const std::vector<Shape>& shapes,
                                 const cv::Size2d& cell) {
    struct Vote {
        Seat seat;
        std::size_t line;
    };
    std::vector<Vote> votes;
    for (std::size_t l = 0; l < cuts.size(); ++l) {
        for (const Shape& shape : shapes) {
            if (!cuts[l].ink || !shape.ink) {
                continue;
            }
            const double across = cuts[l].ink->x / shape.ink->x;
            const double down = cuts[l].ink->y / shape.ink->y;
            const double scale = std::sqrt(across * down);
            if (std::abs(std::log(across / down)) < 0.15 && scale > 0.3 && scale < 4) {
                votes.push_back({{cuts[l].ink->centre - scale * shape.ink->centre, scale}, l});
            }
        }
    }
    std::vector<std::pair<std::size_t, std::size_t>> support; // lines, vote
    const double side = std::min(cell.width, cell.height);
    std::vector<char> seen(cuts.size());
    for (std::size_t v = 0; v < votes.size(); ++v) {
        std::ranges::fill(seen, 0);
        const Seat& seat = votes[v].seat;
        for (const Vote& other : votes) {
            if (std::abs(std::log(other.seat.scale / seat.scale)) < 0.08 &&
                cv::norm(other.seat.middle - seat.middle) < 0.08 * side * seat.scale) {
                seen[other.line] = 1;
            }
        }
        support.emplace_back(std::accumulate(seen.begin(), seen.end(), std::size_t{0}), v);
    }
    std::ranges::stable_sort(support, std::greater<>(), [](const auto& one) { return one.first; });
    std::vector<Seat> seats;
    for (const auto& [count, v] : support) {
        const Seat& seat = votes[v].seat;
        const bool isNew = std::ranges::none_of(seats, [&](const Seat& other) {
            return std::abs(std::log(other.scale / seat.scale)) < 0.12 &&
                   cv::norm(other.middle - seat.middle) < 0.12 * side * seat.scale;
        });
        if (isNew && seats.size() < 4) {
            seats.push_back(seat);
        }
    }
    return seats;
}

/// How badly the lines fit the groups on the whole where the key's cells lie at `seat`.
double misfit(const std::vector<Cut>& cuts, const std::vector<Shape>& shapes, const Seat& seat,
              const cv::Size2d& cell) {
    std::vector<double> least(cuts.size(), 1);
    cv::parallel_for_({0, static_cast<int>(cuts.size())}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            const auto at = static_cast<std::size_t>(i);
            if (!cuts[at].bgr.empty()) {
                const cv::Mat look = lookAt(cuts[at], seat, cell);
                for (const Shape& shape : shapes) {
                    least[at] =
                        std::min(least[at], distance(look, shape.group->mean) / shape.limit);
                }
            }
        }
    });
    return std::accumulate(least.begin(), least.end(), 0.0);
}

Seat settledSeat(const std::vector<Cut>& all, const std::vector<Shape>& shapes, Seat seat,
                 const cv::Size2d& cell, double& least) {
    constexpr std::size_t kEnough = 16; // lines that tell the seat
    std::vector<Cut> cuts;
    for (std::size_t i = 0; i < all.size(); i += 1 + all.size() / kEnough) {
        cuts.push_back(all[i]);
    }
    least = misfit(cuts, shapes, seat, cell);
    double step = 0.06;
    while (step > 0.008) {
        const Seat before = seat;
        const double side = std::min(cell.width, cell.height) * seat.scale;
        for (const Seat& next : {Seat{before.middle, before.scale * (1 + step)},
                                 Seat{before.middle, before.scale / (1 + step)},
                                 Seat{before.middle + cv::Point2d(step * side, 0), before.scale},
                                 Seat{before.middle - cv::Point2d(step * side, 0), before.scale},
                                 Seat{before.middle + cv::Point2d(0, step * side), before.scale},
                                 Seat{before.middle - cv::Point2d(0, step * side), before.scale}}) {
            if (const double one = misfit(cuts, shapes, next, cell); one < least - 1e-6) {
                least = one;
                seat = next;
            }
        }
        if (seat.middle == before.middle && seat.scale == before.scale) {
            step /= 2;
        }
    }
    least /= static_cast<double>(std::max<std::size_t>(1, cuts.size()));
    return seat;
}

} // namespace

std::vector<std::vector<double>> unlikeness(const std::vector<KeyLine>& lines, const cv::Mat& bgr,
                                            const cv::Mat& paper,
                                            const std::vector<GroupLook>& groups,
                                            const cv::Size2d& cell) {
    const std::vector<Shape> shapes = shapesOf(groups, cell);
    std::vector<Cut> best;
    Seat seat;
    double least = 1e9;
    // In a table the picture may be the nearest to the text, or a number may stand between.
    for (std::size_t nth = 0; nth < 3; ++nth) {
        std::vector<cv::Rect> marks;
        std::size_t further = 0;
        for (const KeyLine& line : lines) {
            further += nth < line.marks.size() ? 1 : 0;
            marks.push_back(line.marks[std::min(nth, line.marks.size() - 1)]);
        }
        if (further == 0) {
            break;
        }
        const std::optional<cv::Rect2d> box = commonBox(lines, marks, bgr, paper);
        if (!box) {
            marks = withinRules(marks, bgr, paper);
        }
        std::vector<Cut> cuts;
        for (std::size_t l = 0; l < lines.size(); ++l) {
            cuts.push_back(cutOf(lines[l], marks[l], box, bgr, paper));
        }
        std::vector<Seat> seats = supportedSeats(cuts, shapes, cell);
        if (box) {
            seats.push_back({{box->x + box->width / 2, box->y + box->height / 2},
                             std::min(box->width / cell.width, box->height / cell.height)});
        }
        for (const Seat& start : seats) {
            double one = 0;
            const Seat settled = settledSeat(cuts, shapes, start, cell, one);
            if (one < least) {
                least = one;
                seat = settled;
                best = cuts;
            }
        }
    }
    std::vector<std::vector<double>> result(lines.size(), std::vector<double>(groups.size(), 1e3));
    const double side = std::min(cell.width, cell.height) * seat.scale;
    for (std::size_t l = 0; l < best.size(); ++l) {
        if (best[l].bgr.empty()) {
            continue;
        }
        // Text does not stand to the pixel; each line's picture may lie a little off.
        for (const double dx : {-0.04, 0.0, 0.04}) {
            for (const double dy : {-0.04, 0.0, 0.04}) {
                Seat near = seat;
                near.middle += cv::Point2d(dx * side, dy * side);
                const cv::Mat look = lookAt(best[l], near, cell);
                for (std::size_t g = 0; g < groups.size(); ++g) {
                    result[l][g] =
                        std::min(result[l][g], distance(look, groups[g].mean) / shapes[g].limit);
                }
            }
        }
    }
    return result;
}

} // namespace otherskein::trace::detail
