#pragma once

#include "trace/detail/sheet.h"
#include "trace/detail/views.h"

#include <QPainter>

#include <functional>

/// A sheet of cells, 40 px each, filled by `draw`.
inline otherskein::trace::detail::Sheet sheetWith(int columns,
                                                  const std::function<void(QPainter&, int)>& draw) {
    otherskein::trace::detail::Sheet sheet;
    sheet.cell = 40;
    sheet.columns = columns;
    sheet.rows = 1;
    QImage image(columns * 40, 40, QImage::Format_BGR888);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    for (int i = 0; i < columns; ++i) {
        painter.save();
        painter.translate(40 * i, 0);
        draw(painter, i);
        painter.restore();
    }
    painter.end();
    sheet.straight = otherskein::trace::detail::viewOf(image).clone();
    return sheet;
}
