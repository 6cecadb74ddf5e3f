#pragma once

#include "chart/motifs.h"
#include "drawing/chart_painter.h"

#include <QImage>
#include <QLineF>

#include <span>

namespace otherskein::app {

// What is drawn over a chart while it is worked on. Every mark has a light and a dark side, so that
// it is seen on any colour.

/// Where a cell lies in the widget.
[[nodiscard]] QRectF cellRect(const drawing::View& view, const chart::Cell& cell);
/// The part of the widget that the frame of a cell takes up.
[[nodiscard]] QRect frameRect(const drawing::View& view, const chart::Cell& cell);
/// A frame round a cell, filled where a colour is about to go there.
void paintFrame(QPainter& painter, const drawing::View& view, const chart::Cell& cell,
                std::optional<QRgb> fill);

/// The number or name of each motif that is large enough for it; the chosen ones stand out.
void paintMotifSigns(QPainter& painter, const drawing::View& view, const chart::Motifs& motifs,
                     std::span<const chart::MotifIndex> chosen, const QRectF& clip);

/// One pixel a cell, see-through but for the stitches of motifs that are not chosen: these take on
/// the ground's colour, so that the chosen ones stand out.
[[nodiscard]] QImage motifVeil(const chart::Motifs& motifs,
                               std::span<const chart::MotifIndex> chosen, QRgb ground);

/// The line that is about to cut a motif; in cells.
void paintCut(QPainter& painter, const drawing::View& view, const QLineF& line);

/// What a motif is called: its name, or its number.
[[nodiscard]] QString shownMotif(const chart::Motifs& motifs, chart::MotifIndex motif);

} // namespace otherskein::app
