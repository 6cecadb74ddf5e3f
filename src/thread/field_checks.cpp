#include "thread/field_checks.h"

#include "base/number.h"

namespace otherskein::thread {

base::InputError badCell(const CellPlace& place, const QString& expected, const QString& found) {
    return base::InputError({place.source, place.row, place.column, expected, found});
}

double numberIn(const CellPlace& place, const QString& cell, double least, double most) {
    const auto value = base::parseNumber(cell);
    if (!value || *value < least || *value > most) {
        throw badCell(place,
                      QStringLiteral("a number from %1 to %2")
                          .arg(base::formatNumber(least), base::formatNumber(most)),
                      base::quotedForMessage(cell));
    }
    return *value;
}

int wholeNumberIn(const CellPlace& place, const QString& cell, int least, int most) {
    const auto value = base::parseWholeNumber(cell);
    if (!value || *value < least || *value > most) {
        throw badCell(place, QStringLiteral("a whole number from %1 to %2").arg(least).arg(most),
                      base::quotedForMessage(cell));
    }
    return *value;
}

} // namespace otherskein::thread
