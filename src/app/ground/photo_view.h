#pragma once

#include "colour/lab.h"

#include <QImage>
#include <QWidget>

namespace otherskein::app {

/// A photo of a fabric. A click takes the mean colour about that point, a dragged rectangle the
/// mean of it: woven cloth has no colour of one pixel.
class PhotoView : public QWidget {
    Q_OBJECT

  public:
    explicit PhotoView(QWidget* parent = nullptr);

    void setPhoto(const QImage& photo);
    [[nodiscard]] const QImage& photo() const { return m_photo; }

  Q_SIGNALS:
    void colourTaken(const otherskein::colour::Lab& lab);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;

  private:
    QImage m_photo;
    QRect m_taken; ///< in the photo
    QPoint m_from; ///< in the widget

    [[nodiscard]] QRect shownAt() const;
    [[nodiscard]] QPoint toPhoto(const QPoint& point) const;
};

/// Mean of an area in linear light, as the eye mixes it. Errors: none; the area is clipped to the
/// picture, an empty one is white.
[[nodiscard]] colour::Lab meanColour(const QImage& picture, const QRect& area);

/// The photo as the workbox keeps it: at most 1,200 pixels a side, under the workbox's limit.
[[nodiscard]] QByteArray keptPhoto(const QImage& photo);

} // namespace otherskein::app
