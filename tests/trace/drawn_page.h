#pragma once

#include "trace/page.h"

#include <QPainter>

#include <functional>
#include <random>

/// A page that a test draws itself: cells of `pitch` px from `left`, `top`.
struct DrawnPage {
    int columns = 24;
    int rows = 18;
    double pitch = 30;
    double left = 160;
    double top = 140;
    double turn = 0; ///< degrees
    QColor paper = Qt::white;
    /// Draws what stands in a cell; the painter's cell is the square from 0, 0 to 100, 100.
    std::function<void(QPainter&, int column, int row)> cell;
    std::function<void(QPainter&)> over = {}; ///< over all, in page px

    [[nodiscard]] otherskein::trace::Page page() const {
        QImage picture(1100, 900, QImage::Format_RGB32);
        picture.fill(paper);
        QPainter painter(&picture);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.translate(550, 450);
        painter.rotate(turn);
        painter.translate(-550, -450);
        for (int row = 0; row < rows; ++row) {
            for (int column = 0; column < columns; ++column) {
                painter.save();
                painter.translate(left + pitch * column, top + pitch * row);
                painter.scale(pitch / 100, pitch / 100);
                if (cell) {
                    cell(painter, column, row);
                }
                painter.restore();
            }
        }
        for (int i = 0; i <= columns; ++i) {
            painter.setPen(QPen(QColor(90, 90, 90), i % 10 == 0 ? 3 : 1));
            painter.drawLine(QPointF(left + pitch * i, top),
                             QPointF(left + pitch * i, top + pitch * rows));
        }
        for (int i = 0; i <= rows; ++i) {
            painter.setPen(QPen(QColor(90, 90, 90), i % 10 == 0 ? 3 : 1));
            painter.drawLine(QPointF(left, top + pitch * i),
                             QPointF(left + pitch * columns, top + pitch * i));
        }
        if (over) {
            over(painter);
        }
        painter.end();
        otherskein::trace::Page result;
        result.source = QStringLiteral("drawn");
        result.picture = picture.convertToFormat(QImage::Format_BGR888);
        return result;
    }
};

/// Which of `kinds` stands in a cell: about half of them bare (−1), the same for every run.
inline int kindAt(int column, int row, int kinds) {
    std::mt19937 random(static_cast<unsigned>(column * 977 + row * 131 + 7));
    random.discard(3);
    const int value = static_cast<int>(random() % static_cast<unsigned>(2 * kinds));
    return value < kinds ? value : -1;
}

/// Five shapes that are hard to tell apart: open and filled circle and square, a small circle.
inline void drawShape(QPainter& painter, int kind) {
    const QRectF box(22, 22, 56, 56);
    painter.setPen(QPen(Qt::black, 8));
    painter.setBrush(kind % 2 == 1 ? QBrush(Qt::black) : QBrush(Qt::NoBrush));
    if (kind < 2) {
        painter.drawEllipse(box);
    } else if (kind < 4) {
        painter.drawRect(box);
    } else {
        painter.drawEllipse(box.adjusted(16, 16, -16, -16));
    }
}
