#include "trace/detail/line_cover.h"

#include <algorithm>

namespace otherskein::trace::detail {

SideCover sideCover(const Sheet& sheet, bool isUpright, int line, int place,
                    const EdgeExcess& excess, const cv::Vec3f& colour) {
    if (excess.over.empty()) {
        return {};
    }
    const auto at = static_cast<std::size_t>(excess.coreAt);
    const cv::Vec3f under = excess.under[at];
    const cv::Vec3f way = colour - under;
    const float half = way.dot(way) / 2;
    const int cell = sheet.cell;
    const int last = (isUpright ? sheet.straight.cols : sheet.straight.rows) - 1;
    const int across = std::clamp(line * cell + excess.from + excess.coreAt, 0, last);
    SideCover cover;
    for (int s = 0; s < cell; ++s) {
        const int along = place * cell + s;
        const cv::Vec3b& pixel = isUpright ? sheet.straight.at<cv::Vec3b>(along, across)
                                           : sheet.straight.at<cv::Vec3b>(across, along);
        const bool isOn = (cv::Vec3f(pixel) - under).dot(way) > half;
        (2 * s < cell ? cover.first : cover.second) += isOn ? 1.0F : 0.0F;
    }
    cover.first /= static_cast<float>((cell + 1) / 2);
    cover.second /= static_cast<float>(cell / 2);
    return cover;
}

} // namespace otherskein::trace::detail
