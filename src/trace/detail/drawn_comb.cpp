#include "trace/detail/drawn_comb.h"

#include "trace/detail/drawn_cells.h"
#include "trace/detail/median.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kMostPlaces = 3;

} // namespace

cv::Mat changesOf(const cv::Mat& grey, bool alongX, int cell) {
    constexpr int kStrips = 5;
    cv::Mat steps;
    cv::Sobel(grey, steps, CV_16S, alongX ? 0 : 1, alongX ? 1 : 0, 1);
    cv::Mat sizes = cv::abs(steps);
    if (alongX) {
        cv::transpose(sizes, sizes);
    }
    sizes.convertTo(sizes, CV_32F);
    cv::Mat changes;
    cv::resize(sizes, changes, {sizes.cols, std::max(1, sizes.rows * kStrips / cell)}, 0, 0,
               cv::INTER_AREA);
    return changes;
}

namespace {

std::vector<float> blurred(std::vector<float> profile) {
    cv::Mat view(1, static_cast<int>(profile.size()), CV_32F, profile.data());
    cv::GaussianBlur(view, view, {7, 1}, 0.8);
    return profile;
}

/// Their mean, compressed, so that bold lines speak no louder than all the others.
std::vector<float> meanChanges(const cv::Mat& changes) {
    cv::Mat mean;
    cv::reduce(changes, mean, 0, cv::REDUCE_AVG);
    std::vector<float> profile(mean.begin<float>(), mean.end<float>());
    const float usual = std::max(0.5F, medianOf(profile));
    double sum = 0;
    for (float& one : profile) {
        one = std::log1p(one / usual);
        sum += static_cast<double>(one);
    }
    for (float& one : profile) {
        one -= static_cast<float>(sum / static_cast<double>(profile.size()));
    }
    return blurred(std::move(profile));
}

/// What most strips have: lines, which go through all of them, not symbols.
std::vector<float> throughChanges(const cv::Mat& changes) {
    constexpr double kOfMean = 0.2; // of dashes little goes through
    std::vector<float> profile;
    std::vector<float> column(static_cast<std::size_t>(changes.rows));
    for (int x = 0; x < changes.cols; ++x) {
        for (int y = 0; y < changes.rows; ++y) {
            column[static_cast<std::size_t>(y)] = changes.at<float>(y, x);
        }
        const auto low = column.begin() + changes.rows * 35 / 100;
        std::ranges::nth_element(column, low);
        profile.push_back(std::log1p(*low) +
                          static_cast<float>(kOfMean * std::log1p(cv::mean(changes.col(x))[0])));
    }
    return blurred(std::move(profile));
}

float between(const std::vector<float>& values, double place) {
    const int whole = static_cast<int>(std::floor(place));
    if (whole < 0 || whole + 1 >= static_cast<int>(values.size())) {
        return 0;
    }
    const auto part = static_cast<float>(place - whole);
    const auto at = static_cast<std::size_t>(whole);
    return values[at] * (1 - part) + values[at + 1] * part;
}

/// The pitch near `start` at which the profile is most like itself, over all of its length.
double ownPitch(const std::vector<float>& profile, double start, int cells) {
    // A quarter of a cell over all of its length, of large charts somewhat more.
    const double mostOff = std::max(0.003, 0.25 / cells); // of the pitch
    const std::size_t size = profile.size();
    std::vector<float> likeness(size);
    cv::parallel_for_({0, static_cast<int>(size)}, [&](const cv::Range& range) {
        for (auto shift = static_cast<std::size_t>(range.start);
             shift < static_cast<std::size_t>(range.end); ++shift) {
            float sum = 0;
            for (std::size_t k = 0; k + shift < size; ++k) {
                sum += profile[k] * profile[k + shift];
            }
            likeness[shift] = sum;
        }
    });
    double best = start;
    float most = -1e30F;
    const double step = 0.05 / cells;
    for (double pitch = start * (1 - mostOff); pitch <= start * (1 + mostOff); pitch += step) {
        float sum = 0;
        for (int k = 1; k < cells; ++k) {
            sum += between(likeness, k * pitch);
        }
        if (sum > most) {
            most = sum;
            best = pitch;
        }
    }
    return best;
}

} // namespace

Comb bestComb(const cv::Mat& changes, const Comb& start, int cells) {
    constexpr double kFar = 0.25;  // of the pitch from where the middle line is thought to be
    constexpr double kUsual = 0.1; // of the pitch, standard deviation
    constexpr double kAround = 5;  // px to each side
    constexpr double kNear = 2;    // px, within which a line's sides are expected
    Comb best{ownPitch(meanChanges(changes), start.pitch, cells), 0};
    const std::vector<float> through = throughChanges(changes);
    const double middle = (start.pitch - best.pitch) * cells / 2;
    const double from = start.from + middle;
    const double far = kFar * start.pitch + std::abs(middle); // one end may have been right
    const auto folded = [&](double place) {
        float sum = 0;
        for (int k = 0; k <= cells; ++k) {
            sum += between(through, place + k * best.pitch);
        }
        return sum / static_cast<float>(cells + 1);
    };
    constexpr double kStep = 0.125;
    std::vector<float> period; // from − far − kAround on
    for (double off = -far - kAround; off <= far + kAround + kStep; off += kStep) {
        period.push_back(folded(from + off));
    }
    struct Place {
        double off;
        double likely;
    };
    std::vector<Place> places;
    for (double off = -far; off <= far; off += kStep) {
        double sum = 0;
        for (double around = 0; around <= kAround; around += kStep) {
            const auto at = [&](double place) {
                const auto index = std::lround((place + far + kAround) / kStep);
                return period[std::min(period.size() - 1, static_cast<std::size_t>(index))];
            };
            sum += std::exp(-around * around / (2 * kNear * kNear)) *
                   static_cast<double>(at(off - around) * at(off + around));
        }
        const double odd = std::max(0.0, std::abs(off) - std::abs(middle)) / (kUsual * start.pitch);
        places.push_back({off, sum * std::exp(-odd * odd / 2)});
    }
    std::vector<Place> peaks;
    for (std::size_t i = 1; i + 1 < places.size(); ++i) {
        if (places[i].likely >= places[i - 1].likely && places[i].likely > places[i + 1].likely) {
            peaks.push_back(places[i]);
        }
    }
    if (peaks.empty()) {
        best.from = from;
        return best;
    }
    std::ranges::sort(peaks, std::greater{}, &Place::likely);
    peaks.resize(std::min(kMostPlaces, peaks.size()));
    best.from = from + peaks[0].off;
    for (const Place& one : peaks) {
        best.others.push_back(one.off - peaks[0].off);
    }
    best.others.push_back(-peaks[0].off); // where they were thought to be
    best.others.erase(best.others.begin());
    return best;
}

namespace {

/// How many kinds of cells there are, of some of them, if the first begins at `first`. Kinds differ
/// by a block's mean colour; an edge that is moved by part of a pixel makes no other kind.
std::size_t kindsAt(const cv::Mat& picture, const cv::Point& first, int cell, int columns,
                    int rows) {
    constexpr int kLookedAt = 1200; // cells
    constexpr double kInset = 0.1;  // of a cell: lines
    constexpr int kBlocks = 6;      // each way
    constexpr double kUnlike = 25;  // grey levels
    const int inset = static_cast<int>(std::ceil(kInset * cell));
    const cv::Size inner(cell - 2 * inset, cell - 2 * inset);
    const int step = std::max(1, columns * rows / kLookedAt);
    std::vector<cv::Mat> kinds;
    for (int i = 0; i < columns * rows; i += step) {
        const cv::Point at =
            first + cell * cv::Point(i % columns, i / columns) + cv::Point(inset, inset);
        cv::Mat blocks;
        cv::resize(picture(cv::Rect(at, inner)), blocks, {kBlocks, kBlocks}, 0, 0, cv::INTER_AREA);
        const bool isKnown = std::ranges::any_of(kinds, [&](const cv::Mat& kind) {
            return cv::norm(kind, blocks, cv::NORM_INF) <= kUnlike;
        });
        if (!isKnown) {
            kinds.push_back(blocks);
        }
    }
    return kinds.size();
}

} // namespace

cv::Point fewestKinds(const cv::Mat& picture, const cv::Point& first, int cell, int columns,
                      int rows, const std::vector<double>& alongX,
                      const std::vector<double>& alongY) {
    constexpr std::size_t kFew = 8;   // kinds that need no other place
    constexpr double kClearly = 0.75; // of the kinds
    const std::size_t now = kindsAt(picture, first, cell, columns, rows);
    if (now <= kFew) {
        return {};
    }
    std::vector<cv::Point> shifts;
    const auto offsetsOf = [](const std::vector<double>& places) {
        std::vector<int> offsets{0};
        for (const double one : places) {
            const int offset = static_cast<int>(std::lround(one));
            if (std::ranges::find(offsets, offset) == offsets.end()) {
                offsets.push_back(offset);
            }
        }
        return offsets;
    };
    const cv::Rect within({0, 0}, picture.size());
    std::size_t fewest = static_cast<std::size_t>(kClearly * static_cast<double>(now));
    cv::Point best;
    for (const int x : offsetsOf(alongX)) {
        for (const int y : offsetsOf(alongY)) {
            const cv::Rect all(first + cv::Point(x, y), cv::Size(columns * cell, rows * cell));
            if ((all & within) != all || (x == 0 && y == 0)) {
                continue;
            }
            const std::size_t kinds = kindsAt(picture, all.tl(), cell, columns, rows);
            if (kinds < fewest) {
                fewest = kinds;
                best = {x, y};
            }
        }
    }
    return best;
}

} // namespace otherskein::trace::detail
