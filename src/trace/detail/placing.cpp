#include "trace/detail/placing.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kMostOfSide = 0.17;  // that a step may be of a picture's side
constexpr double kLeastContrast = 40; // grey levels; what has less shows no place
constexpr float kInk = 40;            // grey levels below the ground
constexpr int kCoarse = 8;
constexpr float kLeastStep = 0.2F; // px, worth resampling for

cv::Mat lightOfPicture(const cv::Mat& picture, int side) {
    return {side, side, CV_32F, const_cast<float*>(picture.ptr<float>())};
}

/// Mean square of what is left when the second has been moved by whole px over the first.
double leftAt(const cv::Mat& mean, const cv::Mat& light, cv::Point step) {
    const int side = mean.rows;
    double sum = 0;
    for (int y = 0; y < side; ++y) {
        const auto* one = mean.ptr<float>(y);
        const auto* other = light.ptr<float>(std::clamp(y - step.y, 0, side - 1));
        float line = 0;
        for (int x = 0; x < side; ++x) {
            const float left = one[x] - other[std::clamp(x - step.x, 0, side - 1)];
            line += left * left;
        }
        sum += static_cast<double>(line);
    }
    return sum;
}

cv::Point2d darkMiddle(const cv::Mat& light, double ground) {
    cv::Point2d sum;
    double all = 1e-3;
    for (int y = 0; y < light.rows; ++y) {
        for (int x = 0; x < light.cols; ++x) {
            const double dark =
                std::max(0.0, ground - 30 - static_cast<double>(light.at<float>(y, x)));
            sum += dark * cv::Point2d(x, y);
            all += dark;
        }
    }
    return sum / all;
}

} // namespace

bool isStep(cv::Point2f step) {
    return std::max(std::abs(step.x), std::abs(step.y)) > kLeastStep;
}

double movedBy(cv::Point2f step, const PrintNoise& noise) {
    return static_cast<double>(step.dot(step)) / (noise.step * noise.step);
}

cv::Mat placeless(const cv::Mat& picture, int side) {
    const cv::Mat light = lightOfPicture(picture, side);
    double lightest = 0;
    cv::minMaxLoc(light, nullptr, &lightest);
    const cv::Point2d off = cv::Point2d(0.5, 0.5) * (side - 1) - darkMiddle(light, lightest);
    const double most = kMostOfSide * side;
    cv::Mat moved = stepped(picture, side,
                            {static_cast<float>(std::clamp(off.x, -most, most)),
                             static_cast<float>(std::clamp(off.y, -most, most))});
    cv::Mat small;
    cv::resize(cv::Mat(side, side, CV_32F, moved.ptr<float>()), small, {kCoarse, kCoarse}, 0, 0,
               cv::INTER_AREA);
    cv::Mat result = small.reshape(1, 1);
    cv::hconcat(result, moved.colRange(side * side, moved.cols), result);
    return result;
}

cv::Point2f stepOnto(const cv::Mat& mean, const cv::Mat& picture, int side,
                     const PrintNoise& noise) {
    const cv::Mat one = lightOfPicture(mean, side);
    const cv::Mat other = lightOfPicture(picture, side);
    double darkest = 0;
    double lightest = 0;
    cv::minMaxLoc(one, &darkest, &lightest);
    if (lightest - darkest < kLeastContrast) {
        return {};
    }
    const int most = std::max(1, static_cast<int>(std::lround(kMostOfSide * side)));
    const double unit = 2 * noise.plain * noise.plain + 9;
    std::array<double, 64 * 64> known;
    known.fill(-1);
    const auto cost = [&](cv::Point at) {
        double& value = known[static_cast<std::size_t>((at.y + 32) * 64 + at.x + 32)];
        if (value < 0) {
            value = leftAt(one, other, at) / unit + movedBy(at, noise);
        }
        return value;
    };
    const auto downFrom = [&](cv::Point at) {
        while (true) {
            cv::Point best = at;
            for (const cv::Point step : {cv::Point(1, 0), {-1, 0}, {0, 1}, {0, -1}}) {
                const cv::Point next = at + step;
                if (std::max(std::abs(next.x), std::abs(next.y)) <= most &&
                    cost(next) < cost(best)) {
                    best = next;
                }
            }
            if (best == at) {
                return at;
            }
            at = best;
        }
    };
    cv::Point at = downFrom({});
    const cv::Point2d apart = darkMiddle(one, lightest) - darkMiddle(other, lightest);
    const cv::Point start(std::clamp(static_cast<int>(std::lround(apart.x)), -most, most),
                          std::clamp(static_cast<int>(std::lround(apart.y)), -most, most));
    if (std::max(std::abs(start.x), std::abs(start.y)) > 1) {
        const cv::Point second = downFrom(start);
        at = cost(second) < cost(at) ? second : at;
    }
    const auto within = [&](cv::Point step) {
        const double before = cost(at - step);
        const double after = cost(at + step);
        const double bend = before + after - 2 * cost(at);
        return bend > 0 ? static_cast<float>(std::clamp((before - after) / (2 * bend), -0.5, 0.5))
                        : 0;
    };
    return {static_cast<float>(at.x) + within({1, 0}), static_cast<float>(at.y) + within({0, 1})};
}

cv::Mat stepped(const cv::Mat& picture, int side, cv::Point2f step, const cv::Mat& beyond) {
    const auto moved = [&](cv::Mat result, int rim) {
        const auto move = [rim](const cv::Mat& from, cv::Mat& to, cv::Point2f by, int how) {
            const cv::Matx23f map(1, 0, by.x, 0, 1, by.y);
            cv::warpAffine(from, to, map, from.size(), how, rim);
        };
        cv::Mat light(side, side, CV_32F, result.ptr<float>());
        move(lightOfPicture(picture, side), light, step, cv::INTER_CUBIC);
        const cv::Mat tints(kPictureTints, kPictureTints, CV_32FC2,
                            const_cast<float*>(picture.ptr<float>()) + side * side);
        cv::Mat movedTints(kPictureTints, kPictureTints, CV_32FC2,
                           result.ptr<float>() + side * side);
        move(tints, movedTints,
             step * (static_cast<float>(kPictureTints) / static_cast<float>(side)),
             cv::INTER_LINEAR);
        return result;
    };
    cv::Mat result = moved(picture.clone(), cv::BORDER_REPLICATE);
    if (beyond.empty()) {
        return result;
    }
    // A symbol that reaches the rim may go on as it likes; beside it there is ground.
    double lightest = 0;
    cv::minMaxLoc(lightOfPicture(picture, side), nullptr, &lightest);
    const cv::Mat filled = moved(beyond.clone(), cv::BORDER_TRANSPARENT);
    for (int i = 0; i < side * side; ++i) {
        if (result.at<float>(i) < static_cast<float>(lightest) - kInk) {
            result.at<float>(i) = filled.at<float>(i);
        }
    }
    return result;
}

void movePictures(const std::vector<int>& rows, cv::Point2f step, Pictures& pictures) {
    if (pictures.unmoved.empty()) {
        pictures.unmoved = pictures.rows.clone();
        pictures.steps.assign(static_cast<std::size_t>(pictures.rows.rows), {});
    }
    for (const int row : rows) {
        cv::Point2f& all = pictures.steps[static_cast<std::size_t>(row)];
        all += step;
        stepped(pictures.unmoved.row(row), pictures.side, all).copyTo(pictures.rows.row(row));
    }
}

void placeMembers(const Group& group, Pictures& pictures, const PrintNoise& noise) {
    if (group.members.size() < 2) {
        return;
    }
    const cv::Mat mean = meanOf(group.members, pictures.rows);
    for (const int row : group.members) {
        const cv::Point2f step = stepOnto(mean, pictures.rows.row(row), pictures.side, noise);
        if (isStep(step)) {
            movePictures({row}, step, pictures);
        }
    }
}

} // namespace otherskein::trace::detail
