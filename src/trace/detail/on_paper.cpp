#include "trace/detail/on_paper.h"

#include <QColorSpace>
#include <QPainter>

namespace otherskein::trace::detail {

QImage printed(QImage picture) {
    if (picture.colorSpace().isValid() && picture.colorSpace() != QColorSpace(QColorSpace::SRgb)) {
        picture.convertToColorSpace(QColorSpace(QColorSpace::SRgb));
    }
    if (!picture.hasAlphaChannel()) {
        return picture.convertToFormat(QImage::Format_BGR888);
    }
    QImage paper(picture.size(), QImage::Format_RGB32);
    paper.fill(Qt::white);
    QPainter painter(&paper);
    painter.drawImage(0, 0, picture);
    painter.end();
    return paper.convertToFormat(QImage::Format_BGR888);
}

} // namespace otherskein::trace::detail
