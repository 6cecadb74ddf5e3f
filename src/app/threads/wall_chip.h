#pragma once

#include "app/threads/thread_item.h"

#include <QColor>
#include <QRect>

class QPainter;

namespace otherskein::app {

/// What a chip has room to say besides its colour.
enum class ChipText { None, Code, CodeAndName };
[[nodiscard]] ChipText chipText(const QSize& chip);

/// A chip of the wall: the flat colour to the edges of `rect`, and marks in black or white over it.
/// A small square says that it is in the stash, a line across the lower corner that it is out of
/// stock, two that it is discontinued; the finish has its mark in the upper corner (frame/chip.h).
void paintWallChip(QPainter& painter, const QRect& rect, const ThreadItem& item, bool nearSearch);

/// A double outline, black and white, that shows on any colour.
void paintChosenOutline(QPainter& painter, const QRect& rect);

void paintStashMark(QPainter& painter, const QRect& rect, const QColor& ink);
void paintStockMark(QPainter& painter, const QRect& rect, thread::Stock stock, const QColor& ink);

} // namespace otherskein::app
