#include "drawing/detail/resampling.h"

#include <algorithm>
#include <cmath>

namespace otherskein::drawing::detail {

std::vector<Sources> sourcesOf(int texels, int pixels) {
    std::vector<Sources> all;
    const double step = static_cast<double>(texels) / pixels;
    for (int i = 0; i < pixels; ++i) {
        Sources sources;
        if (step < 1) {
            const double middle = (i + 0.5) * step - 0.5;
            sources.first = static_cast<int>(std::floor(middle));
            const auto next = static_cast<float>(middle - sources.first);
            sources.share = {1 - next, next};
        } else {
            const double from = i * step;
            const double to = (i + 1) * step;
            sources.first = static_cast<int>(std::floor(from));
            for (int texel = sources.first; texel < to; ++texel) {
                sources.share.push_back(static_cast<float>(
                    (std::min(to, texel + 1.0) - std::max(from, static_cast<double>(texel))) /
                    step));
            }
        }
        all.push_back(std::move(sources));
    }
    return all;
}

} // namespace otherskein::drawing::detail
