#include "trace/detail/cell_light.h"
#include "trace/detail/groups.h"

#include <opencv2/imgproc.hpp>

namespace otherskein::trace::detail {

namespace {

constexpr int kSide = kLookSide;
constexpr int kTints = kLookTints;
/// Weight of a place by how near the cell's rim it is: a bold or red line reaches in there.
float rim(int at) {
    const int from = std::min(at, kSide - 1 - at);
    return from == 0 ? 0.4F : from == 1 ? 0.8F : 1.0F;
}

} // namespace

cv::Vec3f colourOfLook(float light, float blueTint, float redTint) {
    const float blue = light + blueTint / kBlueTintWeight;
    const float red = light + redTint / kRedTintWeight;
    return {blue, (light - 0.114F * blue - 0.299F * red) / 0.587F, red};
}

cv::Mat looksOf(const Sheet& sheet) {
    cv::Mat looks(sheet.columns * sheet.rows, kLookSize, CV_32F);
    cv::parallel_for_({0, sheet.rows}, [&](const cv::Range& range) {
        cv::Mat part;
        cv::Mat small;
        for (int row = range.start; row < range.end; ++row) {
            for (int column = 0; column < sheet.columns; ++column) {
                const cv::Rect box = sheet.box(column, row);
                const auto inset = static_cast<int>(std::ceil(kLookInset * sheet.cell));
                const cv::Rect inner(box.x + inset, box.y + inset, box.width - 2 * inset,
                                     box.height - 2 * inset);
                sheet.straight(inner).convertTo(part, CV_32F);
                cv::resize(part, small, {kSide, kSide}, 0, 0,
                           inner.width >= kSide ? cv::INTER_AREA : cv::INTER_LINEAR);
                float* out = looks.ptr<float>(row * sheet.columns + column);
                for (int y = 0; y < kSide; ++y) {
                    for (int x = 0; x < kSide; ++x) {
                        const cv::Vec3f& one = small.at<cv::Vec3f>(y, x);
                        // Counted from white, so that the rim, where lines reach in, can fade.
                        *out++ = rim(x) * rim(y) * (lightOf(one) - 255);
                    }
                }
                writeTints(part, kTints, out);
            }
        }
    });
    return looks;
}

} // namespace otherskein::trace::detail
