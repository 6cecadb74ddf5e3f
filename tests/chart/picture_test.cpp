#include "chart/picture.h"

#include "chart/png_with_chunk.h"
#include "chart/random_charts.h"
#include "fixtures/fixture_folder.h"

#include <catch2/catch.hpp>

#include <QImage>
#include <QStringList>

#include <set>

using namespace otherskein;
using namespace otherskein::chart;
using fixtures::Fixture;

namespace {

const QString kPictureSource = QStringLiteral("c.png");
const QString kPictureKey = QStringLiteral("c.key.csv");

/// As tests/fixtures/charts/make_charts.py writes it.
std::string shown(const Chart& chart) {
    QString text = QStringLiteral("%1 x %2\n").arg(chart.grid.columns()).arg(chart.grid.rows());
    for (const KeyRow& row : chart.key) {
        text += QStringLiteral("%1 %2 %3\n")
                    .arg(row.symbol, colour::toHex(row.pixel))
                    .arg(row.stitches);
    }
    for (int y = 0; y < chart.grid.rows(); ++y) {
        QStringList line;
        for (int x = 0; x < chart.grid.columns(); ++x) {
            const KeyIndex key = chart.grid.at({x, y});
            line.push_back(key == kBare ? QStringLiteral(".") : chart.key[key].symbol);
        }
        text += line.join(u' ') + u'\n';
    }
    return text.toStdString();
}

/// 3 x 2: red, bare, green; green, red, red.
Chart smallChart() {
    Chart chart;
    chart.key.resize(2);
    chart.key[0].pixel = {170, 52, 48};
    chart.key[1].pixel = {40, 110, 60};
    chart.grid = Grid(3, 2, {0, kBare, 1, 1, 0, 0});
    recount(chart);
    return chart;
}

std::string pictureRefusal(const QByteArray& png) {
    return fixtures::refusal(kPictureSource, [&] { (void)chartFromPicture(png, kPictureSource); });
}

std::string pictureRefusal(const QByteArray& png, const Key& key) {
    return fixtures::refusal(
        kPictureKey, [&] { (void)chartFromPicture(png, kPictureSource, key, kPictureKey); });
}

} // namespace

TEST_CASE("accepted pictures are read stitch by stitch") {
    const auto all = fixtures::fixturesIn("charts/accepted");
    CHECK(all.size() >= 75);
    for (const Fixture& one : all) {
        CAPTURE(one.path.toStdString());
        const Chart chart = chartFromPicture(one.bytes, one.path);
        CHECK(shown(chart) == one.expected.toStdString());
        CHECK(chart.isConsistent());
        for (const KeyRow& row : chart.key) {
            CHECK((row.lab == colour::labFromSrgb(row.pixel)));
            CHECK(row.card.isEmpty());
            CHECK(row.code.isEmpty());
        }
    }
}

TEST_CASE("refused pictures say what is wrong in one line") {
    const auto all = fixtures::fixturesIn("charts/refused");
    CHECK(all.size() >= 81);
    for (const Fixture& one : all) {
        CAPTURE(one.path.toStdString());
        CHECK(fixtures::refusal(one.path, [&] { (void)chartFromPicture(one.bytes, one.path); }) +
                  '\n' ==
              one.expected.toStdString());
    }
}

TEST_CASE("no part of a picture passes for the whole") {
    const Chart chart = samples::randomChart({40, 30, 20, 0, 0.3}, 5);
    const QByteArray png = pictureBytes(chart);
    for (qsizetype bytes = 0; bytes < png.size(); ++bytes) {
        CAPTURE(bytes);
        CHECK(pictureRefusal(png.left(bytes)) != "accepted");
    }
    CHECK(pictureRefusal(png) == "accepted");
}

TEST_CASE("no wrong byte of a picture goes unseen") {
    const QByteArray png = pictureBytes(smallChart());
    for (qsizetype at = 0; at < png.size(); ++at) {
        for (const int flip : {0x01, 0x20, 0x80}) {
            QByteArray bad = png;
            bad[at] = static_cast<char>(bad[at] ^ flip);
            CAPTURE(at, flip);
            CHECK(pictureRefusal(bad) != "accepted");
        }
    }
}

TEST_CASE("a picture with its key reads back as the same chart") {
    unsigned seed = 100;
    for (const samples::ChartShape& shape : samples::chartShapes()) {
        const Chart chart = samples::randomChart(shape, seed++);
        CAPTURE(shape.columns, shape.rows, seed);
        const Chart again =
            chartFromPicture(pictureBytes(chart), kPictureSource, chart.key, kPictureKey);
        CHECK((again.grid == chart.grid));
        CHECK((again.key == chart.key));
    }
}

TEST_CASE("a written picture is what any program reads: RGBA without a profile") {
    const Chart chart = smallChart();
    const QImage image = QImage::fromData(pictureBytes(chart));
    REQUIRE(image.size() == QSize(3, 2));
    CHECK(image.pixelColor(0, 0) == QColor(170, 52, 48));
    CHECK(image.pixelColor(1, 0).alpha() == 0);
    CHECK(image.pixelColor(0, 1) == QColor(40, 110, 60));
    CHECK_FALSE(pictureBytes(chart).contains("iCCP"));
}

TEST_CASE("a made key has a symbol of its own for each of 300 colours") {
    const Chart chart = samples::randomChart({300, 20, 300, 0, 0}, 9);
    const Chart read = chartFromPicture(pictureBytes(chart), kPictureSource);
    REQUIRE(read.key.size() == 300);
    std::set<QString> symbols;
    for (const KeyRow& row : read.key) {
        CHECK_FALSE(row.symbol.trimmed().isEmpty());
        symbols.insert(row.symbol);
    }
    CHECK(symbols.size() == 300);
    CHECK(read.key[0].symbol.toStdString() == "A");
    CHECK(read.key[23].symbol.toStdString() == "a");
    CHECK(read.key[46].symbol.toStdString() == "A1");
    CHECK(read.key[299].symbol.toStdString() == "a6");
}

TEST_CASE("rows of the key without stitches stay, and counts of the file give way to the picture") {
    const Chart chart = smallChart();
    Key key = chart.key;
    key.insert(key.begin(), KeyRow{});
    key[0].stitches = 77;
    key[1].stitches = 1000;
    key[2].stitches = 0;
    const Chart read = chartFromPicture(pictureBytes(chart), kPictureSource, key, kPictureKey);
    REQUIRE(read.key.size() == 3);
    CHECK(read.key[0].stitches == 0);
    CHECK(read.key[1].stitches == 3);
    CHECK(read.key[2].stitches == 2);
    CHECK(read.isConsistent());
}

TEST_CASE("a key keeps what it says of a thread, its Lab as well") {
    const Chart chart = smallChart();
    Key key = chart.key;
    key[0].lab = {41.5, 30, 20};
    key[0].code = QStringLiteral("Q-1");
    const Chart read = chartFromPicture(pictureBytes(chart), kPictureSource, key, kPictureKey);
    CHECK((read.key[0].lab == colour::Lab{41.5, 30, 20}));
    CHECK(read.key[0].code == key[0].code);
}

TEST_CASE("a key that does not cover the picture is refused with the colour and its place") {
    Chart chart = smallChart();
    const QByteArray png = pictureBytes(chart);
    CHECK(pictureRefusal(png, {chart.key[0]}) ==
          ": column srgb: expected a row for every colour of the picture, found none for #286e3c "
          "(2 stitches, first in column 3, row 1)");
    CHECK(pictureRefusal(png, {}) ==
          ": column srgb: expected a row for every colour of the picture, found none for #aa3430 "
          "(3 stitches, first in column 1, row 1)");
    chart.grid.set({2, 0}, 0);
    CHECK(pictureRefusal(pictureBytes(chart), {chart.key[0]}) ==
          ": column srgb: expected a row for every colour of the picture, found none for #286e3c "
          "(1 stitch, first in column 1, row 2)");
}

TEST_CASE("without a profile a colour that is one step off its row is not that row's") {
    const Chart chart = smallChart();
    Key key = chart.key;
    key[0].pixel.g = 53;
    CHECK(pictureRefusal(pictureBytes(chart), key) != "accepted");
}

TEST_CASE("a key of more than 300 rows is refused") {
    const Chart chart = smallChart();
    Key key = chart.key;
    for (int i = 0; key.size() <= kMostKeyRows; ++i) {
        KeyRow row;
        row.pixel = {0, static_cast<std::uint8_t>(i / 256), static_cast<std::uint8_t>(i)};
        key.push_back(row);
    }
    CHECK(pictureRefusal(pictureBytes(chart), key) == ": expected at most 300 rows, found 301");
    key.pop_back();
    CHECK(pictureRefusal(pictureBytes(chart), key) == "accepted");
}
