#include <catch2/catch.hpp>

#include "chart/motifs.h"
#include "drawing/samples.h"

using namespace otherskein;
using namespace otherskein::drawing;

namespace {

constexpr QRgb kUnder = qRgb(120, 130, 140);

QImage outlined(const View& view, const std::vector<std::uint32_t>& labels, int columns, int rows,
                std::optional<std::uint32_t> only = std::nullopt) {
    QImage image((view.size * view.pixelRatio).toSize(), QImage::Format_RGB32);
    image.setDevicePixelRatio(view.pixelRatio);
    image.fill(kUnder);
    QPainter painter(&image);
    paintOutlines(painter, view, labels, columns, rows, only);
    painter.end();
    image.setDevicePixelRatio(1);
    return image;
}

/// Six columns: two of label 0, two of label 1, two bare; four rows.
std::vector<std::uint32_t> sampleLabels() {
    std::vector<std::uint32_t> labels;
    for (int i = 0; i < 24; ++i) {
        const int column = i % 6;
        labels.push_back(column < 2 ? 0U : column < 4 ? 1U : chart::kNoMotif);
    }
    return labels;
}

} // namespace

TEST_CASE("outlines run only between different labels, dark and light side by side") {
    const QImage image = outlined(viewOf(10, {20, 20}), sampleLabels(), 6, 4);
    for (int x = 0; x < 240; ++x) {
        const bool isDark = x == 19 || x == 39 || x == 59;
        const bool isLight = x == 20 || x == 40 || x == 60;
        CAPTURE(x);
        CHECK((qGray(image.pixel(x, 45)) < 60) == isDark);
        CHECK((qGray(image.pixel(x, 45)) > 200) == isLight);
    }
    // Along the chart's edge where a label lies, not where it is bare.
    CHECK(qGray(image.pixel(45, 19)) < 60);
    CHECK(image.pixel(70, 19) == kUnder);
}

TEST_CASE("the outline of one label leaves the others alone") {
    const QImage image = outlined(viewOf(10, {20, 20}), sampleLabels(), 6, 4, 0U);
    CHECK(qGray(image.pixel(19, 45)) < 60);
    CHECK(qGray(image.pixel(39, 45)) < 60);
    CHECK(image.pixel(59, 45) == kUnder);
    CHECK(image.pixel(60, 45) == kUnder);
}

TEST_CASE("outlines are left out where cells are too small, and doubled at twice the pixels") {
    View small = viewOf(1.9, {20, 20});
    QImage plain(240, 160, QImage::Format_RGB32);
    plain.fill(kUnder);
    CHECK(outlined(small, sampleLabels(), 6, 4) == plain);
    const QImage fine = outlined(viewOf(10, {20, 20}, 2), sampleLabels(), 6, 4);
    CHECK(qGray(fine.pixel(78, 90)) < 60);
    CHECK(qGray(fine.pixel(79, 90)) < 60);
    CHECK(qGray(fine.pixel(80, 90)) > 200);
    CHECK(qGray(fine.pixel(81, 90)) > 200);
}
