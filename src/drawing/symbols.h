#pragma once

// The drawing folder: charts as pictures: symbols, flat and stitched cells, pictures in small.
// Paints on any QPainter or QImage; knows charts, not how a thread is chosen, and no widgets.

#include "chart/key.h"

#include <QColor>
#include <QRectF>
#include <QString>

#include <optional>
#include <vector>

class QPainter;

namespace otherskein::drawing {

/// Our own drawn set of symbols: shapes, not letters, that stay apart from each other at 12 px.
[[nodiscard]] int symbolCount();
/// What files call it: a short plain English name such as "ring" or "left wedge"; unique.
[[nodiscard]] QString symbolName(int symbol);
[[nodiscard]] std::optional<int> symbolNamed(const QString& name);

/// Fills or strokes the symbol inside `cell` (square) with `ink`.
void paintSymbol(QPainter& painter, int symbol, const QRectF& cell, const QColor& ink);

/// How a key row is marked in the chart: a drawn symbol, or letters where its file gave letters.
struct Mark {
    std::optional<int> symbol;
    QString letters; ///< one to three letters, when there is no drawn symbol

    bool operator==(const Mark&) const = default;
};
/// One a row: the row's `symbol` when it names one of ours; its letters when it holds some (at most
/// three) that no row before it has; else the next drawn symbol that no other row has. A key with
/// more rows than there are symbols gets pairs of letters in the end: no two marks are the same.
[[nodiscard]] std::vector<Mark> marksOf(const chart::Key& key);
/// Letters are shrunk to the cell.
void paintMark(QPainter& painter, const Mark& mark, const QRectF& cell, const QColor& ink);

/// Black or near-white, whichever stands off `colour` by the larger WCAG ratio.
[[nodiscard]] QColor inkOn(QRgb colour);

} // namespace otherskein::drawing
