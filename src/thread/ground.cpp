#include "thread/ground.h"

#include "colour/conversion.h"

#include <utility>

namespace otherskein::thread {

Ground groundOfSrgb(QString name, const colour::Srgb8& srgb) {
    Ground ground;
    ground.name = std::move(name);
    ground.lab = colour::labFromSrgb(srgb);
    ground.shown = srgb;
    return ground;
}

Weave weaveOf(const QString& text) {
    const auto says = [&](QLatin1String word) { return text.contains(word, Qt::CaseInsensitive); };
    if (says(QLatin1String("block"))) {
        return Weave::Block;
    }
    return says(QLatin1String("linen")) || says(QLatin1String("flax")) ? Weave::Linen : Weave::Even;
}

double cellSideMm(const Ground& ground) {
    constexpr double kMmPerInch = 25.4;
    return kMmPerInch * ground.over / ground.count;
}

} // namespace otherskein::thread
