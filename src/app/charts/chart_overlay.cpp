#include "app/charts/chart_overlay.h"

#include "app/frame/look.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QLocale>
#include <QPainter>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr double kSmallFrame = 5; // a frame keeps this side where cells are smaller, pixels
const QColor kDark(0x10, 0x10, 0x10);
const QColor kLight(0xff, 0xff, 0xff);

QRectF frameOf(const drawing::View& view, const chart::Cell& cell) {
    QRectF frame = cellRect(view, cell);
    const double grown = std::max(0.0, (kSmallFrame - view.cell) / 2);
    return frame.adjusted(-grown, -grown, grown, grown);
}

QRectF boundsIn(const drawing::View& view, const chart::Area& area) {
    return {drawing::fromCells(view, QPointF(area.left, area.top)),
            QSizeF(area.columns * view.cell, area.rows * view.cell)};
}

void drawTwice(QPainter& painter, double width, const auto& draw) {
    painter.setPen(QPen(kLight, width + 2, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
    draw();
    painter.setPen(QPen(kDark, width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
    draw();
}

} // namespace

QRectF cellRect(const drawing::View& view, const chart::Cell& cell) {
    return boundsIn(view, {cell.column, cell.row, 1, 1});
}

QRect frameRect(const drawing::View& view, const chart::Cell& cell) {
    return frameOf(view, cell).adjusted(-4, -4, 4, 4).toAlignedRect();
}

void paintFrame(QPainter& painter, const drawing::View& view, const chart::Cell& cell,
                std::optional<QRgb> fill) {
    const QRectF frame = frameOf(view, cell);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    if (fill) {
        painter.fillRect(frame, QColor(*fill));
    }
    painter.setBrush(Qt::NoBrush);
    drawTwice(painter, 1.5, [&] { painter.drawRect(frame); });
    painter.restore();
}

void paintMotifSigns(QPainter& painter, const drawing::View& view, const chart::Motifs& motifs,
                     std::span<const chart::MotifIndex> chosen, const QRectF& clip) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QFont font = scaledFont(0.88, 600);
    painter.setFont(font);
    const QFontMetricsF metrics(font);
    constexpr double kSide = 5; // of a plate beside its text
    for (chart::MotifIndex i = 0; i < motifs.motifs.size(); ++i) {
        const QRectF bounds = boundsIn(view, motifs.motifs[i].bounds);
        if (!bounds.adjusted(-4, -4, 4, 4).intersects(clip)) {
            continue;
        }
        const bool isChosen = std::ranges::find(chosen, i) != chosen.end();
        QString sign = shownMotif(motifs, i);
        if (metrics.horizontalAdvance(sign) + 2 * kSide > bounds.width()) {
            sign = QLocale().toString(i + 1);
        }
        const QSizeF size(metrics.horizontalAdvance(sign) + 2 * kSide, metrics.height() + 2);
        if (size.width() > bounds.width() || size.height() > bounds.height()) {
            continue;
        }
        QRectF plate({}, size);
        plate.moveCenter(bounds.center());
        painter.setPen(QPen(isChosen ? kLight : kDark, 1));
        painter.setBrush(isChosen ? kDark : kLight);
        painter.drawRoundedRect(plate, 4, 4);
        painter.drawText(plate, Qt::AlignCenter, sign);
    }
    painter.restore();
}

QImage motifVeil(const chart::Motifs& motifs, std::span<const chart::MotifIndex> chosen,
                 QRgb ground) {
    constexpr int kVeil = 199; // 78 % of 255
    const QRgb veiled = qPremultiply(qRgba(qRed(ground), qGreen(ground), qBlue(ground), kVeil));
    std::vector<QRgb> colours(motifs.motifs.size(), veiled);
    for (const chart::MotifIndex motif : chosen) {
        colours[motif] = 0;
    }
    QImage veil(motifs.columns, motifs.rows, QImage::Format_ARGB32_Premultiplied);
    for (int row = 0; row < motifs.rows; ++row) {
        auto* line = reinterpret_cast<QRgb*>(veil.scanLine(row));
        for (int column = 0; column < motifs.columns; ++column) {
            const chart::MotifIndex motif = motifs.at({column, row});
            line[column] = motif == chart::kNoMotif ? 0 : colours[motif];
        }
    }
    return veil;
}

void paintCut(QPainter& painter, const drawing::View& view, const QLineF& line) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    drawTwice(painter, 2, [&] {
        painter.drawLine(drawing::fromCells(view, line.p1()), drawing::fromCells(view, line.p2()));
    });
    painter.restore();
}

QString shownMotif(const chart::Motifs& motifs, chart::MotifIndex motif) {
    const QString& name = motifs.motifs[motif].name;
    return name.isEmpty() ? QLocale().toString(motif + 1) : name;
}

} // namespace otherskein::app
