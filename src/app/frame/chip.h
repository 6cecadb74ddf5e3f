#pragma once

#include "colour/srgb.h"
#include "thread/thread.h"

#include <QColor>
#include <QRect>

class QPainter;

namespace otherskein::app {

[[nodiscard]] QColor toQColor(const colour::Srgb8& srgb);
[[nodiscard]] colour::Srgb8 toSrgb8(const QColor& colour);

/// Two colours side by side on the ground they are seen on, touching with no gap, so that the eye
/// compares them and nothing else. The ground shows as a band all round.
void paintAbutting(QPainter& painter, const QRect& rect, const QColor& left, const QColor& right,
                   const QColor& ground, int band = 12);

/// Marks on a chip for what a flat colour cannot say: small ticks for metallic, a split corner for
/// variegated.
void paintFinishMark(QPainter& painter, const QRect& rect, thread::Finish finish,
                     const QColor& chip);

/// Black or white, whichever stands off `colour` by the larger WCAG ratio.
[[nodiscard]] QColor inkOn(const QColor& colour);

} // namespace otherskein::app
