#include "trace/detail/likeness.h"

#include "trace/detail/cell_light.h"
#include "trace/detail/median.h"
#include "trace/detail/pixel_phases.h"

#include <opencv2/imgproc.hpp>

#include <array>

namespace otherskein::trace::detail {

namespace {

/// Px of blur before comparing: an edge that moved by less than a pixel is then nearly linear in
/// how far it moved.
constexpr double kSoft = 0.6;
constexpr float kSheetsApart = 1e4F; // cells
constexpr int kTintPlaces = 2 * kPictureTints * kPictureTints;

// How far a cell may be from another that means the same: standard deviations.
constexpr float kShift = 0.45F;               // px
constexpr float kBlur = 0.22F;                // px², of the second derivative
constexpr float kSpread = 0.22F;              // px, by which ink is thicker
constexpr std::array<float, 2> kLine{30, 12}; // grey levels that a line leaves, by depth in px
constexpr double kLeastSymbol = 60;           // grey levels, of what is not bare
constexpr float kLineTint = 12;               // and of tint, at its side's quarter of the cell

void writePicture(const cv::Mat& part, int side, float* out) {
    for (int y = 0; y < side; ++y) {
        const auto* row = part.ptr<cv::Vec3f>(y);
        for (int x = 0; x < side; ++x) {
            *out++ = lightOf(row[x]) - 255;
        }
    }
    writeTints(part, kPictureTints, out);
}

cv::Mat derivative(const cv::Mat& light, int dx, int dy) {
    // Central differences; edges are repeated.
    cv::Mat padded;
    cv::copyMakeBorder(light, padded, 1, 1, 1, 1, cv::BORDER_REPLICATE);
    const cv::Rect inner(1, 1, light.cols, light.rows);
    const cv::Point by(dx, dy);
    return (padded(inner + by) - padded(inner - by)) * 0.5;
}

} // namespace

Pictures picturesOf(std::span<const Sheet> sheets) {
    Pictures pictures;
    const int cell = sheets.front().cell;
    const auto inset = static_cast<int>(std::ceil(kLookInset * cell));
    pictures.side = cell - 2 * inset;
    int count = 0;
    for (const Sheet& sheet : sheets) {
        count += sheet.columns * sheet.rows;
    }
    pictures.rows.create(count, pictures.lights() + kTintPlaces, CV_32F);
    int first = 0;
    pictures.phases.reserve(static_cast<std::size_t>(count));
    for (const Sheet& sheet : sheets) {
        cv::Mat soft;
        cv::GaussianBlur(sheet.straight, soft, {}, kSoft);
        const std::vector<cv::Point2f> fine = pixelPhasesOf(sheet);
        pictures.finePhases.insert(pictures.finePhases.end(), fine.begin(), fine.end());
        const float top = kSheetsApart * static_cast<float>(&sheet - sheets.data());
        for (int row = 0; row < sheet.rows; ++row) {
            for (int column = 0; column < sheet.columns; ++column) {
                const cv::Point2d at = sheet.lattice.corner(column + 0.5, row + 0.5);
                pictures.phases.emplace_back(static_cast<float>(at.x - std::floor(at.x)),
                                             static_cast<float>(at.y - std::floor(at.y)));
                pictures.places.emplace_back(static_cast<float>(column),
                                             static_cast<float>(row) + top);
            }
        }
        cv::parallel_for_({0, sheet.rows}, [&](const cv::Range& range) {
            cv::Mat part;
            for (int row = range.start; row < range.end; ++row) {
                for (int column = 0; column < sheet.columns; ++column) {
                    const cv::Rect box = sheet.box(column, row);
                    soft({box.x + inset, box.y + inset, pictures.side, pictures.side})
                        .convertTo(part, CV_32F);
                    writePicture(part, pictures.side,
                                 pictures.rows.ptr<float>(first + row * sheet.columns + column));
                }
            }
        });
        first += sheet.columns * sheet.rows;
    }
    return pictures;
}

Likeness::Likeness(const cv::Mat& mean, int side, const PrintNoise& noise, double share)
    : mean_(mean.clone()) {
    const cv::Mat light(side, side, CV_32F, mean_.ptr<float>(0));
    const cv::Mat dx = derivative(light, 1, 0);
    const cv::Mat dy = derivative(light, 0, 1);
    const cv::Mat dxx = derivative(dx, 1, 0);
    const cv::Mat dyy = derivative(dy, 0, 1);
    const cv::Mat dxy = derivative(dx, 0, 1);
    cv::Mat steep;
    cv::magnitude(dx, dy, steep);

    scale_.create(1, mean_.cols, CV_32F);
    const double plain = noise.plain * noise.plain * share + 1.5 * 1.5;
    const double edge = noise.edge * noise.edge * (0.3 + share);
    for (int i = 0; i < side * side; ++i) {
        const double slope = steep.at<float>(i / side, i % side);
        scale_.at<float>(i) = static_cast<float>(1 / std::sqrt(plain + edge * slope * slope));
    }
    for (int i = side * side; i < mean_.cols; ++i) {
        scale_.at<float>(i) =
            static_cast<float>(1 / std::sqrt(noise.tints * noise.tints * (0.3 + share) + 4));
    }

    // Tints are few and coarse; what moves or darkens a picture does so to them as well.
    const int lights = side * side;
    const float coarse = static_cast<float>(kPictureTints) / static_cast<float>(side);
    std::array<cv::Mat, 2> tints;
    for (int tint = 0; tint < 2; ++tint) {
        cv::Mat& one = tints[static_cast<std::size_t>(tint)];
        one.create(kPictureTints, kPictureTints, CV_32F);
        for (int i = 0; i < kPictureTints * kPictureTints; ++i) {
            one.at<float>(i / kPictureTints, i % kPictureTints) =
                mean_.at<float>(lights + 2 * i + tint);
        }
    }
    std::vector<cv::Mat> directions;
    const auto add = [&](const cv::Mat& picture, float spread,
                         const std::array<cv::Mat, 2>& ofTints = {}) {
        cv::Mat row = cv::Mat::zeros(1, mean_.cols, CV_32F);
        cv::Mat(picture.clone().reshape(1, 1) * spread).copyTo(row.colRange(0, lights));
        for (int tint = 0; tint < 2; ++tint) {
            const cv::Mat& one = ofTints[static_cast<std::size_t>(tint)];
            for (int i = 0; !one.empty() && i < kPictureTints * kPictureTints; ++i) {
                row.at<float>(lights + 2 * i + tint) =
                    one.at<float>(i / kPictureTints, i % kPictureTints) * spread;
            }
        }
        directions.push_back(row);
    };
    const auto moved = [&](int x, int y) {
        return std::array<cv::Mat, 2>{derivative(tints[0], x, y) * coarse,
                                      derivative(tints[1], x, y) * coarse};
    };
    add(dx, kShift, moved(1, 0));
    add(dy, kShift, moved(0, 1));
    add(dxx, kShift * kShift * 0.7F);
    add(dyy, kShift * kShift * 0.7F);
    add(dxy, kShift * kShift);
    add(dxx + dyy, kBlur);
    add(steep, kSpread);
    std::vector<float> sorted(light.begin<float>(), light.end<float>());
    const auto high = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() * 7 / 10);
    std::ranges::nth_element(sorted, high);
    std::array<cv::Mat, 2> inkTints;
    for (std::size_t tint = 0; tint < 2; ++tint) {
        std::vector<float> values(tints[tint].begin<float>(), tints[tint].end<float>());
        const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
        std::ranges::nth_element(values, middle);
        inkTints[tint] = tints[tint] - *middle;
    }
    add(light - *high, static_cast<float>(noise.ink), inkTints);
    add(cv::Mat(side, side, CV_32F, cv::Scalar(1)), static_cast<float>(noise.ground));
    for (int depth = 0; depth < 2; ++depth) {
        for (int edgeSide = 0; edgeSide < 4; ++edgeSide) {
            cv::Mat line = cv::Mat::zeros(side, side, CV_32F);
            const int at = edgeSide % 2 == 0 ? depth : side - 1 - depth;
            (edgeSide < 2 ? line.row(at) : line.col(at)).setTo(1);
            add(line, kLine[static_cast<std::size_t>(depth)]);
        }
    }
    // Such lines may be coloured. What single cells have there may be dirt, and bare cells show it
    // as what it is; where a program drew the page, so does a ground in a colour.
    const cv::Mat tintSizes = cv::abs(mean_.colRange(lights, mean_.cols));
    double lightest = 0;
    double darkest = 0;
    const int rim = side / 5;
    cv::minMaxLoc(light({rim, rim, side - 2 * rim, side - 2 * rim}), &darkest, nullptr);
    cv::minMaxLoc(light, nullptr, &lightest); // beside a large symbol, only the rim has ground
    const bool isOnPaper =
        medianOf(std::vector<float>(tintSizes.begin<float>(), tintSizes.end<float>())) < kLineTint;
    const bool mayHaveLineTint =
        share < 1 && (!noise.isDrawn || isOnPaper) && lightest - darkest > kLeastSymbol;
    lineTints_ = mayHaveLineTint ? static_cast<int>(directions.size()) : -1;
    groundTint_ = noise.tint;
    for (int tint = 0; tint < 2 && mayHaveLineTint; ++tint) {
        for (int edgeSide = 0; edgeSide < 4; ++edgeSide) {
            cv::Mat row = cv::Mat::zeros(1, mean_.cols, CV_32F);
            const int at = edgeSide % 2 == 0 ? 0 : kPictureTints - 1;
            for (int along = 0; along < kPictureTints; ++along) {
                const int place =
                    edgeSide < 2 ? at * kPictureTints + along : along * kPictureTints + at;
                row.at<float>(lights + 2 * place + tint) = kLineTint;
            }
            directions.push_back(row);
        }
    }
    for (int tint = 0; tint < 2; ++tint) {
        cv::Mat row = cv::Mat::zeros(1, mean_.cols, CV_32F);
        for (int i = side * side + tint; i < mean_.cols; i += 2) {
            row.at<float>(i) = 1;
        }
        directions.push_back(row * noise.tint);
    }
    basis_.create(static_cast<int>(directions.size()), mean_.cols, CV_32F);
    for (std::size_t i = 0; i < directions.size(); ++i) {
        cv::Mat(directions[i].mul(scale_)).copyTo(basis_.row(static_cast<int>(i)));
    }
    const cv::Mat products = basis_ * basis_.t();
    inner_ = (cv::Mat::eye(products.size(), CV_32F) + products).inv(cv::DECOMP_CHOLESKY);
}

double Likeness::groundMoved(const cv::Mat& spreads) const {
    double moved = 0;
    for (int tint = 0; tint < 2 && lineTints_ >= 0; ++tint) {
        const cv::Mat sides = spreads.colRange(lineTints_ + 4 * tint, lineTints_ + 4 * tint + 4);
        double least = 0;
        double most = 0;
        cv::minMaxLoc(sides, &least, &most);
        const double common =
            static_cast<double>(kLineTint) * (std::max(least, 0.0) - std::min(most, 0.0));
        moved += common * common / (groundTint_ * groundTint_);
    }
    return moved;
}

std::vector<Unlikeness> Likeness::unlikeness(const cv::Mat& rows) const {
    cv::Mat steps(rows.size(), CV_32F);
    for (int i = 0; i < rows.rows; ++i) {
        const float* from = rows.ptr<float>(i);
        float* to = steps.ptr<float>(i);
        const auto* mean = mean_.ptr<float>();
        const auto* scale = scale_.ptr<float>();
        for (int k = 0; k < rows.cols; ++k) {
            to[k] = (from[k] - mean[k]) * scale[k];
        }
    }
    const cv::Mat along = steps * basis_.t();
    const cv::Mat spreads = along * inner_; // what of each variation explains the most
    const cv::Mat rests = steps - spreads * basis_;
    const int lights = rows.cols - kTintPlaces;
    std::vector<Unlikeness> result;
    for (int i = 0; i < rows.rows; ++i) {
        const double moved = spreads.row(i).dot(spreads.row(i)) + groundMoved(spreads.row(i));
        const cv::Mat rest = rests.row(i);
        const double ofLight = rest.colRange(0, lights).dot(rest.colRange(0, lights)) / lights;
        const double ofTint =
            rest.colRange(lights, rows.cols).dot(rest.colRange(lights, rows.cols)) / kTintPlaces;
        result.push_back({std::max(ofLight, ofTint), moved, ofTint});
    }
    return result;
}

Unlikeness Likeness::unlikenessSeen(const cv::Mat& row, const cv::Mat& seen) const {
    cv::Mat basis(basis_.size(), CV_32F);
    for (int i = 0; i < basis.rows; ++i) {
        cv::multiply(basis_.row(i), seen, basis.row(i));
    }
    const cv::Mat step = (row - mean_).mul(scale_).mul(seen);
    const cv::Mat inner = cv::Mat(cv::Mat::eye(basis.rows, basis.rows, CV_32F) + basis * basis.t());
    cv::Mat spreads;
    cv::solve(inner, cv::Mat(basis * step.t()), spreads, cv::DECOMP_CHOLESKY);
    const cv::Mat rest = step - spreads.t() * basis;
    return {rest.dot(rest) / std::max(1.0, cv::sum(seen)[0]), spreads.dot(spreads)};
}

cv::Mat Likeness::scaledRests(const cv::Mat& rows) const {
    cv::Mat steps(rows.size(), CV_32F);
    for (int i = 0; i < rows.rows; ++i) {
        const cv::Mat step = (rows.row(i) - mean_).mul(scale_);
        cv::Mat(step - step * basis_.t() * inner_ * basis_).copyTo(steps.row(i));
    }
    return steps;
}

cv::Mat Likeness::rests(const cv::Mat& rows) const {
    cv::Mat rests = scaledRests(rows);
    for (int i = 0; i < rests.rows; ++i) {
        cv::divide(rests.row(i), scale_, rests.row(i));
    }
    return rests;
}

} // namespace otherskein::trace::detail
