#pragma once

#include "thread/ground.h"

#include <QByteArray>

#include <vector>

namespace otherskein::thread {

/// Grounds as CSV: header `name,srgb,count,over,weave,width_cm,height_cm`; name and
/// srgb are required. A photo does not travel.
/// Errors: InputError with row and column.
[[nodiscard]] std::vector<Ground> parseGrounds(const QByteArray& bytes, const QString& source);
[[nodiscard]] QByteArray groundsCsv(const std::vector<Ground>& grounds);

} // namespace otherskein::thread
