#include "drawing/detail/shapes.h"

#include <QPainterPathStroker>
#include <QPolygonF>
#include <QTransform>

#include <cmath>
#include <numbers>

namespace otherskein::drawing::detail {

QPainterPath enlarged(const QPainterPath& path) {
    return QTransform::fromScale(kUnit, kUnit).map(path);
}

QPainterPath disc(double x, double y, double radius) {
    QPainterPath path;
    path.addEllipse(QPointF(x, y), radius, radius);
    return enlarged(path);
}

QPainterPath box(double left, double top, double right, double bottom) {
    QPainterPath path;
    path.addRect(QRectF(QPointF(left, top), QPointF(right, bottom)));
    return enlarged(path);
}

QPainterPath polygon(std::initializer_list<QPointF> corners) {
    QPainterPath path;
    path.addPolygon(QPolygonF(QList<QPointF>(corners)));
    path.closeSubpath();
    return enlarged(path);
}

QPainterPath band(std::initializer_list<QPointF> points, double width) {
    QPainterPath path;
    path.addPolygon(QPolygonF(QList<QPointF>(points)));
    QPainterPathStroker stroker;
    stroker.setWidth(width * kUnit);
    stroker.setCapStyle(Qt::FlatCap);
    stroker.setJoinStyle(Qt::MiterJoin);
    stroker.setMiterLimit(6);
    return stroker.createStroke(enlarged(path)).simplified();
}

QPainterPath stroked(const QPainterPath& path, double width) {
    QPainterPathStroker stroker;
    stroker.setWidth(width * kUnit);
    stroker.setCapStyle(Qt::RoundCap);
    stroker.setJoinStyle(Qt::RoundJoin);
    return stroker.createStroke(enlarged(path)).simplified();
}

QPainterPath star(int points, double outer, double inner) {
    QPolygonF corners;
    for (int i = 0; i < 2 * points; ++i) {
        const double angle = std::numbers::pi * (i / static_cast<double>(points) - 0.5);
        const double radius = i % 2 == 0 ? outer : inner;
        corners << QPointF(radius * std::cos(angle), radius * std::sin(angle));
    }
    QPainterPath path;
    path.addPolygon(corners);
    path.closeSubpath();
    return enlarged(path);
}

QPainterPath turned(const QPainterPath& path, int quarters) {
    return QTransform().rotate(90.0 * quarters).map(path);
}

QPainterPath mirrored(const QPainterPath& path) {
    return QTransform::fromScale(-1, 1).map(path);
}

QPainterPath moved(const QPainterPath& path, double dx, double dy) {
    return path.translated(dx * kUnit, dy * kUnit);
}

} // namespace otherskein::drawing::detail
