#include "app/ground/ground_words.h"

#include <QCoreApplication>
#include <QLocale>

namespace otherskein::app {

namespace {

struct GroundWords {
    Q_DECLARE_TR_FUNCTIONS(Ground)
};

} // namespace

QString verdictText(colourway::Verdict verdict) {
    switch (verdict) {
    case colourway::Verdict::Vanishes:
        return GroundWords::tr("vanishes");
    case colourway::Verdict::Soft:
        return GroundWords::tr("soft");
    case colourway::Verdict::Clear:
        break;
    }
    return GroundWords::tr("clear");
}

QString verdictLimitsText() {
    return GroundWords::tr(
               "Judged by ΔE00 between what the eye sees, thread and the fabric that "
               "shows through, and the bare fabric: under %1 it vanishes, from %2 on it "
               "is clear, between it is soft. We chose these limits by what is lost at "
               "arm's length; they are no standard.")
        .arg(colourway::kVanishesBelow)
        .arg(colourway::kClearFrom);
}

QString figure(double value, int decimals) {
    return QLocale().toString(value, 'f', decimals).replace(QLatin1Char('-'), QChar(0x2212));
}

QString sizeText(double widthMm, double heightMm, bool inches) {
    const double unit = inches ? 25.4 : 10;
    return (inches ? GroundWords::tr("%1 × %2 in") : GroundWords::tr("%1 × %2 cm"))
        .arg(figure(widthMm / unit), figure(heightMm / unit));
}

QString countText(const thread::Ground& ground) {
    return GroundWords::tr("%1 over %2").arg(ground.count).arg(ground.over);
}

} // namespace otherskein::app
