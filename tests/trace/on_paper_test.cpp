#include "trace/detail/on_paper.h"

#include <catch2/catch.hpp>

#include <QPainter>

using namespace otherskein;

TEST_CASE("a picture that is clear in part lies on white as if painted there") {
    // Every level of ink under every clearness; green and blue go other ways than red.
    QImage picture(256, 256, QImage::Format_ARGB32);
    for (int y = 0; y < 256; ++y) {
        for (int x = 0; x < 256; ++x) {
            picture.setPixel(x, y, qRgba(x, 255 - x, (x * 7 + y * 3) % 256, y));
        }
    }
    QImage painted(picture.size(), QImage::Format_RGB32);
    painted.fill(Qt::white);
    QPainter painter(&painted);
    painter.drawImage(0, 0, picture);
    painter.end();
    const QImage laid = trace::detail::printed(picture);
    CHECK(laid.format() == QImage::Format_BGR888);
    CHECK(laid.convertToFormat(QImage::Format_RGB32) == painted);
}
