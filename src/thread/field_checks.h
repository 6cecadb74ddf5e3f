#pragma once

#include "base/input_error.h"

#include <QString>

namespace otherskein::thread {

/// Where a cell stands, for the one line of an error.
struct CellPlace {
    QString source;
    int row = 0;
    QString column;
};

[[nodiscard]] base::InputError badCell(const CellPlace& place, const QString& expected,
                                       const QString& found);

/// A number in `least`..`most`, both allowed. Errors: InputError.
[[nodiscard]] double numberIn(const CellPlace& place, const QString& cell, double least,
                              double most);
[[nodiscard]] int wholeNumberIn(const CellPlace& place, const QString& cell, int least, int most);

} // namespace otherskein::thread
