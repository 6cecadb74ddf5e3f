#include "cli/detail/lengths.h"

#include "base/number.h"

#include <QCoreApplication>

#include <algorithm>
#include <array>

namespace otherskein::cli {

namespace {

struct LengthsTexts {
    Q_DECLARE_TR_FUNCTIONS(Lengths)
};

struct Unit {
    const char* name;
    double mm;
};
constexpr std::array kUnits{Unit{"mm", 1}, Unit{"cm", 10}, Unit{"in", colourway::kMmPerInch}};

/// The number before a unit; none where there is no known unit.
std::optional<std::pair<QString, double>> withoutUnit(const QString& word) {
    for (const Unit& unit : kUnits) {
        const QString name = QString::fromLatin1(unit.name);
        if (word.endsWith(name, Qt::CaseInsensitive)) {
            return std::pair(word.chopped(name.size()).trimmed(), unit.mm);
        }
    }
    return std::nullopt;
}

} // namespace

double lengthMm(const QString& option, const QString& word) {
    const auto parts = withoutUnit(word.trimmed());
    const auto value = parts ? base::parseNumber(parts->first) : std::nullopt;
    const double mm = value ? *value * parts->second : -1;
    if (mm < 0 || mm > thread::limits::kMostPieceMm) {
        throw badWord(option,
                      LengthsTexts::tr("a length with its unit up to 10 m, such as 3in or 7.5cm"),
                      base::quotedForMessage(word));
    }
    return mm;
}

colourway::Extent sizeMm(const QString& option, const QString& word) {
    const auto parts = withoutUnit(word.trimmed());
    const QStringList sides =
        parts ? parts->first.toLower().split(QLatin1Char('x')) : QStringList();
    const auto width = sides.size() == 2 ? base::parseNumber(sides[0].trimmed()) : std::nullopt;
    const auto height = sides.size() == 2 ? base::parseNumber(sides[1].trimmed()) : std::nullopt;
    if (width && height) {
        const colourway::Extent size{*width * parts->second, *height * parts->second};
        if (size.widthMm > 0 && size.heightMm > 0 &&
            std::max(size.widthMm, size.heightMm) <= thread::limits::kMostPieceMm) {
            return size;
        }
    }
    throw badWord(
        option,
        LengthsTexts::tr("WIDTHxHEIGHT with a unit, up to 10 m, such as 18x27in or 45x70cm"),
        base::quotedForMessage(word));
}

QString sizeText(const colourway::Extent& size) {
    const auto in = [&](double mm, double unit) { return QString::number(mm / unit, 'f', 1); };
    return LengthsTexts::tr("%1 × %2 in (%3 × %4 cm)")
        .arg(in(size.widthMm, colourway::kMmPerInch), in(size.heightMm, colourway::kMmPerInch),
             in(size.widthMm, 10), in(size.heightMm, 10));
}

} // namespace otherskein::cli
