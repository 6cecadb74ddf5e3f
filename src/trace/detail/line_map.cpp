#include "trace/detail/line_map.h"

#include <algorithm>
#include <array>
#include <vector>

namespace otherskein::trace::detail {

namespace {

constexpr double kScale = 2; // faint changes are told apart to half a level, strong ones not

/// Sums of `strip` pixels along y: plane by channel, row by strip, column by place.
std::array<cv::Mat, 3> sumsAlongY(const cv::Mat& bgr, int strip) {
    const int strips = bgr.rows / strip;
    std::array<cv::Mat, 3> result;
    for (cv::Mat& plane : result) {
        plane.create(strips, bgr.cols, CV_16U);
    }
    cv::parallel_for_({0, strips}, [&](const cv::Range& range) {
        std::vector<ushort> sum(static_cast<std::size_t>(bgr.cols) * 3);
        for (int s = range.start; s < range.end; ++s) {
            std::ranges::fill(sum, ushort{0});
            for (int y = s * strip; y < (s + 1) * strip; ++y) {
                const uchar* row = bgr.ptr(y);
                for (std::size_t i = 0; i < sum.size(); ++i) {
                    sum[i] = static_cast<ushort>(sum[i] + row[i]);
                }
            }
            for (std::size_t c = 0; c < 3; ++c) {
                auto* out = result[c].ptr<ushort>(s);
                for (int x = 0; x < bgr.cols; ++x) {
                    out[x] = sum[static_cast<std::size_t>(x) * 3 + c];
                }
            }
        }
    });
    return result;
}

/// The same along x; the rows of the result are strips again.
std::array<cv::Mat, 3> sumsAlongX(const cv::Mat& bgr, int strip) {
    const int strips = bgr.cols / strip;
    std::array<cv::Mat, 3> result;
    for (cv::Mat& plane : result) {
        plane.create(strips, bgr.rows, CV_16U);
    }
    constexpr int kTogether = 32; // rows, so that what is written lies together
    const int parts = (bgr.rows + kTogether - 1) / kTogether;
    cv::parallel_for_({0, parts}, [&](const cv::Range& range) {
        for (int y = range.start * kTogether; y < std::min(bgr.rows, range.end * kTogether); ++y) {
            const uchar* pixel = bgr.ptr(y);
            for (int s = 0; s < strips; ++s) {
                unsigned blue = 0;
                unsigned green = 0;
                unsigned red = 0;
                for (int i = 0; i < strip; ++i, pixel += 3) {
                    blue += pixel[0];
                    green += pixel[1];
                    red += pixel[2];
                }
                result[0].at<ushort>(s, y) = static_cast<ushort>(blue);
                result[1].at<ushort>(s, y) = static_cast<ushort>(green);
                result[2].at<ushort>(s, y) = static_cast<ushort>(red);
            }
        }
    });
    return result;
}

/// The largest change of a channel from the place before to the place behind, as 16 bits.
cv::Mat changeOf(const std::array<cv::Mat, 3>& sums) {
    cv::Mat change(sums[0].size(), CV_16U, cv::Scalar(0));
    const int places = change.cols;
    cv::parallel_for_({0, change.rows}, [&](const cv::Range& range) {
        for (int s = range.start; s < range.end; ++s) {
            auto* out = change.ptr<ushort>(s);
            for (const cv::Mat& plane : sums) {
                const auto* in = plane.ptr<ushort>(s);
                for (int k = 1; k + 1 < places; ++k) {
                    const auto one = static_cast<ushort>(std::max(in[k + 1], in[k - 1]) -
                                                         std::min(in[k + 1], in[k - 1]));
                    out[k] = std::max(out[k], one);
                }
            }
        }
    });
    return change;
}

LineMap mapOf(const std::array<cv::Mat, 3>& sums, int strip) {
    LineMap map{strip, {}};
    changeOf(sums).convertTo(map.strength, CV_8U, kScale / strip);
    return map;
}

} // namespace

LineMaps lineMapsOf(const cv::Mat& bgr, int strip) {
    return {mapOf(sumsAlongX(bgr, strip), strip), mapOf(sumsAlongY(bgr, strip), strip)};
}

LineSheet lineSheetOf(const LineMap& map, bool alongX, const Lattice& lattice, const cv::Rect& area,
                      int steps, int bins) {
    const int along = (alongX ? area.width : area.height) * steps;
    const int across = (alongX ? area.height : area.width) * bins;
    LineSheet sheet{cv::Mat(along, across, CV_8U, cv::Scalar(0)), steps, bins};
    const cv::Size2d most(static_cast<double>(map.strength.rows) * map.strip - 0.5,
                          map.strength.cols - 1.0);
    cv::parallel_for_({0, along}, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            uchar* out = sheet.strength.ptr(i);
            const double a = (i + 0.5) / steps;
            const auto placeOf = [&](double b) {
                return alongX ? lattice.toPage * cv::Vec3d(area.x + a, area.y + b, 1)
                              : lattice.toPage * cv::Vec3d(area.x + b, area.y + a, 1);
            };
            cv::Vec3d at = placeOf(0.5 / bins);
            const cv::Vec3d step = placeOf(1.5 / bins) - at;
            for (int k = 0; k < across; ++k, at += step) {
                const double whole = 1 / at[2];
                const double px = (alongX ? at[0] : at[1]) * whole;
                const double place = (alongX ? at[1] : at[0]) * whole;
                if (!(px >= 0 && px < most.width && place >= 0 && place < most.height)) {
                    continue;
                }
                const int strip = static_cast<int>((px + 0.5) / map.strip);
                const int left = static_cast<int>(place);
                const uchar* row = map.strength.ptr(strip);
                const auto part = static_cast<int>((place - left) * 256);
                out[k] =
                    static_cast<uchar>((row[left] * (256 - part) + row[left + 1] * part) / 256);
            }
        }
    });
    return sheet;
}

} // namespace otherskein::trace::detail
