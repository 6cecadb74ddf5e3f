#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace otherskein::trace::detail {

/// The middle one of the values, of two middle ones the greater; `none` where there are none.
template <typename Number>
[[nodiscard]] Number medianOf(std::vector<Number> values, Number none = {}) {
    if (values.empty()) {
        return none;
    }
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::ranges::nth_element(values, middle);
    return *middle;
}

} // namespace otherskein::trace::detail
