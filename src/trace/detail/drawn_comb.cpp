#include "trace/detail/drawn_comb.h"

#include "trace/detail/drawn_cells.h"
#include "trace/detail/median.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kMostPlaces = 3;

} // namespace

cv::Mat changesOf(const cv::Mat& grey, bool alongX, int cell) {
    constexpr int kStrips = 5; // of a cell
    constexpr int kMany = 160; // of more, some
    // What is beyond the next pixel less what is before the last one; none at the ends.
    cv::Mat sizes = cv::Mat::zeros(grey.size(), CV_8U);
    const cv::Point step = alongX ? cv::Point(0, 2) : cv::Point(2, 0);
    const cv::Rect first(0, 0, grey.cols - step.x, grey.rows - step.y);
    cv::absdiff(grey(first), grey(first + step), sizes(first + step / 2));
    const int along = alongX ? grey.cols : grey.rows;
    const int all = std::max(1, along * kStrips / cell);
    const int every = std::max(1, all / kMany);
    const int strips = (all + every - 1) / every;
    cv::Mat changes(strips, alongX ? grey.rows : grey.cols, CV_32F);
    cv::parallel_for_({0, strips}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            const auto placeOf = [&](int strip) {
                return static_cast<int>(static_cast<long long>(strip) * along / all);
            };
            const cv::Range part(placeOf(i * every), placeOf(i * every + 1));
            cv::Mat mean;
            if (alongX) {
                cv::reduce(sizes.colRange(part), mean, 1, cv::REDUCE_AVG, CV_32F);
                mean = mean.t();
            } else {
                cv::reduce(sizes.rowRange(part), mean, 0, cv::REDUCE_AVG, CV_32F);
            }
            mean.copyTo(changes.row(i));
        }
    });
    return changes;
}

namespace {

std::vector<float> blurred(std::vector<float> profile) {
    cv::Mat view(1, static_cast<int>(profile.size()), CV_32F, profile.data());
    cv::GaussianBlur(view, view, {7, 1}, 0.8);
    return profile;
}

/// Each strip compressed, so that bold lines speak no louder than all the others, and about 0.
cv::Mat levelChanges(const cv::Mat& changes) {
    std::vector<float> all(changes.begin<float>(), changes.end<float>());
    const float usual = std::max(0.5F, medianOf(std::move(all)));
    cv::Mat level;
    cv::log(changes * (1 / usual) + 1, level);
    cv::GaussianBlur(level, level, {7, 1}, 0.8);
    for (int strip = 0; strip < level.rows; ++strip) {
        level.row(strip) -= cv::mean(level.row(strip))[0];
    }
    return level;
}

constexpr int kFiner = 4; // places a px: else whole px would seem the likeliest

/// How much all strips have of themselves so many px further, by Wiener and Khinchin's theorem.
std::vector<float> ownLikeness(const cv::Mat& level) {
    const int length = cv::getOptimalDFTSize(2 * level.cols);
    cv::Mat padded;
    cv::copyMakeBorder(level, padded, 0, 0, 0, length - level.cols, cv::BORDER_CONSTANT, 0);
    cv::Mat spectrum;
    cv::dft(padded, spectrum, cv::DFT_ROWS | cv::DFT_COMPLEX_OUTPUT);
    std::vector<cv::Mat> parts;
    cv::split(spectrum, parts);
    cv::Mat power;
    cv::reduce(parts[0].mul(parts[0]) + parts[1].mul(parts[1]), power, 0, cv::REDUCE_SUM);
    cv::Mat finer = cv::Mat::zeros(1, kFiner * length, CV_32FC2);
    for (int k = 0; k <= (length - 1) / 2; ++k) {
        const cv::Vec2f value(power.at<float>(k), 0);
        finer.at<cv::Vec2f>(k) = value;
        finer.at<cv::Vec2f>((finer.cols - k) % finer.cols) = value;
    }
    cv::Mat likeness;
    cv::dft(finer, likeness, cv::DFT_INVERSE | cv::DFT_ROWS | cv::DFT_REAL_OUTPUT | cv::DFT_SCALE);
    return {likeness.begin<float>(), likeness.begin<float>() + kFiner * level.cols};
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

/// The pitch near `start` at which the strips are most like themselves, over all of their length.
double ownPitch(const cv::Mat& level, double start, int cells) {
    // A quarter of a cell over all of its length, of large charts somewhat more.
    const double mostOff = std::max(0.003, 0.25 / cells); // of the pitch
    const std::vector<float> likeness = ownLikeness(level);
    double best = start;
    float most = -1e30F;
    const double step = 0.05 / cells;
    for (double pitch = start * (1 - mostOff); pitch <= start * (1 + mostOff); pitch += step) {
        float sum = 0;
        for (int k = 1; k < cells; ++k) {
            sum += between(likeness, k * pitch * kFiner);
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
    Comb best{ownPitch(levelChanges(changes), start.pitch, cells), 0};
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

/// Of the sides between cells, how many something is printed across, here and there: at lines it
/// is all along a side or nowhere.
double crossedAt(const cv::Mat& grey, const cv::Point& first, int cell, int columns, int rows) {
    constexpr double kInset = 0.1;
    constexpr double kLeast = 0.1; // of a side
    constexpr double kMost = 0.8;
    constexpr int kMuch = 100; // grey levels that change around a place, both ways together
    const int inset = static_cast<int>(std::ceil(kInset * cell));
    const int length = cell - 2 * inset;
    const auto isEdge = [&](int x, int y) {
        const uchar* row = grey.ptr(y);
        return std::abs(row[x + 1] - row[x - 1]) +
                   std::abs(grey.at<uchar>(y + 1, x) - grey.at<uchar>(y - 1, x)) >
               kMuch;
    };
    int crossed = 0;
    int all = 0;
    for (const bool isUpright : {true, false}) {
        for (int row = isUpright ? 0 : 1; row < rows; ++row) {
            for (int column = isUpright ? 1 : 0; column < columns; ++column) {
                const cv::Point at = first + cell * cv::Point(column, row);
                int printed = 0;
                for (int k = inset; k < inset + length; ++k) { // both pixels beside the side
                    printed += isUpright ? isEdge(at.x - 1, at.y + k) || isEdge(at.x, at.y + k)
                                         : isEdge(at.x + k, at.y - 1) || isEdge(at.x + k, at.y);
                }
                crossed += printed > kLeast * length && printed < kMost * length ? 1 : 0;
                ++all;
            }
        }
    }
    return static_cast<double>(crossed) / std::max(1, all);
}

} // namespace

cv::Point fewestKinds(const cv::Mat& picture, const cv::Point& first, int cell, int columns,
                      int rows, const std::vector<double>& alongX,
                      const std::vector<double>& alongY) {
    constexpr std::size_t kFew = 8;   // kinds that need no other place
    constexpr double kClearly = 0.75; // of the kinds
    constexpr double kMuch = 0.1;     // of the sides, that something is printed across
    constexpr double kMuchLess = 0.3; // of as many
    constexpr double kAsFew = 0.02;
    constexpr double kNoMore = 1.3; // of the kinds
    struct Place {
        cv::Point shift;
        double crossed;
        std::size_t kinds;
    };
    cv::Mat grey;
    cv::cvtColor(picture, grey, cv::COLOR_BGR2GRAY);
    const auto placeAt = [&](const cv::Point& shift) {
        return Place{shift, crossedAt(grey, first + shift, cell, columns, rows),
                     kindsAt(picture, first + shift, cell, columns, rows)};
    };
    const Place now = placeAt({});
    if (now.kinds <= kFew && now.crossed < kMuch) {
        return {};
    }
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
    std::vector<Place> places;
    for (const int x : offsetsOf(alongX)) {
        for (const int y : offsetsOf(alongY)) {
            const cv::Rect all(first + cv::Point(x, y), cv::Size(columns * cell, rows * cell));
            if ((all & within) == all && (x != 0 || y != 0)) {
                places.push_back(placeAt({x, y}));
            }
        }
    }
    std::erase_if(places, [&](const Place& one) {
        return static_cast<double>(one.kinds) > kNoMore * static_cast<double>(now.kinds);
    });
    if (places.empty()) {
        return {};
    }
    const double least = std::ranges::min_element(places, {}, &Place::crossed)->crossed;
    const bool isClear = now.crossed >= kMuch && least < kMuchLess * now.crossed;
    if (isClear) {
        std::erase_if(places, [&](const Place& one) { return one.crossed > least + kAsFew; });
    }
    const Place& best = *std::ranges::min_element(places, {}, &Place::kinds);
    return isClear || static_cast<double>(best.kinds) < kClearly * static_cast<double>(now.kinds)
               ? best.shift
               : cv::Point();
}

} // namespace otherskein::trace::detail
