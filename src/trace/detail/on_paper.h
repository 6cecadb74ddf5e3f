#pragma once

#include <QImage>

namespace otherskein::trace::detail {

/// A picture as on paper: clear parts become white, colours sRGB; Format_BGR888.
[[nodiscard]] QImage printed(QImage picture);

} // namespace otherskein::trace::detail
