#include "app/ground/photo_view.h"

#include "app/frame/look.h"
#include "colour/conversion.h"
#include "colour/mixing.h"
#include "thread/ground.h"

#include <QBuffer>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kMostSide = 1200;
constexpr int kAbout =
    40; // a click takes a fortieth of the picture each way, and at least 5 pixels

} // namespace

colour::Lab meanColour(const QImage& picture, const QRect& area) {
    const QRect inside = area & picture.rect();
    colour::Xyz sum;
    double pixels = 0;
    // Rows apart are enough of a large area: a mean of ten thousand pixels is known well.
    const int step = std::max(1, std::max(inside.width(), inside.height()) / 100);
    for (int y = inside.top(); y <= inside.bottom(); y += step) {
        for (int x = inside.left(); x <= inside.right(); x += step) {
            const QRgb pixel = picture.pixel(x, y);
            const colour::Xyz xyz = colour::xyzFromLab(colour::labFromSrgb(
                {static_cast<std::uint8_t>(qRed(pixel)), static_cast<std::uint8_t>(qGreen(pixel)),
                 static_cast<std::uint8_t>(qBlue(pixel))}));
            sum = {sum.X + xyz.X, sum.Y + xyz.Y, sum.Z + xyz.Z};
            pixels += 1;
        }
    }
    return pixels > 0 ? colour::labFromXyz({sum.X / pixels, sum.Y / pixels, sum.Z / pixels})
                      : colour::Lab{100, 0, 0};
}

QByteArray keptPhoto(const QImage& photo) {
    QImage image = photo;
    for (int side = kMostSide; side > 0; side = side * 2 / 3) {
        if (image.width() > side || image.height() > side) {
            image = photo.scaled(side, side, Qt::KeepAspectRatio, Qt::SmoothTransformation);
        }
        QByteArray bytes;
        QBuffer buffer(&bytes);
        buffer.open(QIODevice::WriteOnly);
        if (image.save(&buffer, "PNG") && bytes.size() <= thread::limits::kMostPhotoBytes) {
            return bytes;
        }
    }
    return {};
}

PhotoView::PhotoView(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Photo of the fabric"));
    setCursor(Qt::CrossCursor);
    setMinimumSize(220, 150);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

void PhotoView::setPhoto(const QImage& photo) {
    m_photo = photo;
    m_taken = {};
    setVisible(!photo.isNull());
    update();
}

QRect PhotoView::shownAt() const {
    const QSize size = m_photo.size().scaled(this->size(), Qt::KeepAspectRatio);
    return {QPoint(0, 0), size};
}

QPoint PhotoView::toPhoto(const QPoint& point) const {
    const QRect shown = shownAt();
    const auto along = [](int at, int length, int of) {
        return std::clamp(at * of / std::max(1, length), 0, of - 1);
    };
    return {along(point.x(), shown.width(), m_photo.width()),
            along(point.y(), shown.height(), m_photo.height())};
}

void PhotoView::paintEvent(QPaintEvent* /*event*/) {
    if (m_photo.isNull()) {
        return;
    }
    QPainter painter(this);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    const QRect shown = shownAt();
    painter.drawImage(shown, m_photo);
    if (!m_taken.isEmpty()) {
        const double scale = static_cast<double>(shown.width()) / m_photo.width();
        const QRectF taken(m_taken.x() * scale, m_taken.y() * scale, m_taken.width() * scale,
                           m_taken.height() * scale);
        painter.setPen(QPen(Qt::white, 3));
        painter.drawRect(taken);
        painter.setPen(QPen(Qt::black, 1));
        painter.drawRect(taken);
    }
}

void PhotoView::mousePressEvent(QMouseEvent* event) {
    m_from = event->position().toPoint();
}

void PhotoView::mouseMoveEvent(QMouseEvent* event) {
    m_taken = QRect(toPhoto(m_from), toPhoto(event->position().toPoint())).normalized();
    update();
}

void PhotoView::mouseReleaseEvent(QMouseEvent* event) {
    if (m_photo.isNull()) {
        return;
    }
    const QPoint to = event->position().toPoint();
    constexpr int kDrag = 6;
    if ((to - m_from).manhattanLength() < kDrag) {
        const int reach = std::max(2, std::min(m_photo.width(), m_photo.height()) / (2 * kAbout));
        const QPoint at = toPhoto(to);
        m_taken = QRect(at - QPoint(reach, reach), at + QPoint(reach, reach)) & m_photo.rect();
    } else {
        m_taken = QRect(toPhoto(m_from), toPhoto(to)).normalized();
    }
    update();
    Q_EMIT colourTaken(meanColour(m_photo, m_taken));
}

} // namespace otherskein::app
