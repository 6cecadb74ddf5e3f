#include "folder.h"

#include <QImage>
#include <QJsonArray>

using Catch::Matchers::WithinAbs;

namespace {

QString harbourChart() {
    return QStringLiteral("quantities --chart %1 --known %2 ")
        .arg(demo("harbour-evening.png"), demo("lanternfold-cotton.csv"));
}

} // namespace

TEST_CASE("quantities answers with sizes, pieces and skeins that add up") {
    const Answer answer =
        ask(harbourChart() + QStringLiteral("--count 14 --over 1 --strands 2 --piece 18x27in "
                                            "--piece 30x45cm --piece 36x43cm --json"));
    REQUIRE(answer.exitCode == 0);
    const QJsonObject json = answer.json();
    const QJsonObject size = json[QStringLiteral("stitched")].toObject();
    CHECK(size[QStringLiteral("columns")].toInt() == 150);
    CHECK(size[QStringLiteral("rows")].toInt() == 110);
    CHECK_THAT(size[QStringLiteral("width_in")].toDouble(), WithinAbs(150 / 14.0, 1e-9));
    CHECK_THAT(size[QStringLiteral("height_cm")].toDouble(), WithinAbs(110 / 14.0 * 2.54, 1e-9));
    const QJsonObject needed = json[QStringLiteral("with_margin")].toObject();
    CHECK_THAT(needed[QStringLiteral("width_in")].toDouble(), WithinAbs(150 / 14.0 + 6, 1e-9));
    const QJsonArray pieces = json[QStringLiteral("pieces")].toArray();
    REQUIRE(pieces.size() == 3);
    CHECK(pieces[0][QStringLiteral("fits")] == QStringLiteral("yes"));
    CHECK(pieces[1][QStringLiteral("fits")] == QStringLiteral("no"));
    CHECK(pieces[1][QStringLiteral("short_mm")][0].toDouble() +
              pieces[1][QStringLiteral("short_mm")][1].toDouble() >
          0);
    CHECK(pieces[2][QStringLiteral("fits")] == QStringLiteral("turned"));
    // 30 × 45 cm: 150 wide and 110 high have to fit 14.76 and 8.81 in, or turned 8.81 and 14.76,
    // less 6 in: turned needs 150 / 5.81 = 26 a inch, straight 110 / 5.81 = 19 with its width along
    // the 45 cm. Worked by hand: 110 / (300 / 25.4 - 6) = 18.9.
    CHECK(pieces[1][QStringLiteral("laid_turned")] == true);
    CHECK(pieces[1][QStringLiteral("fits_from_count")] == 19);
    CHECK(pieces[0][QStringLiteral("fits_from_count")].toInt() <= 14);

    int stitches = 0;
    int buy = 0;
    for (const QJsonValue& one : json[QStringLiteral("threads")].toArray()) {
        stitches += one[QStringLiteral("stitches")].toInt();
        buy += one[QStringLiteral("buy")].toInt();
        const double metres = one[QStringLiteral("metres")].toDouble();
        // By hand: 8.7598 mm a cross, 5.4429 mm a cell of backstitch.
        CHECK_THAT(metres, WithinAbs((one[QStringLiteral("stitches")].toInt() * 2 * 8.760146 +
                                      one[QStringLiteral("line_cells")].toDouble() * 5.44286) /
                                         1000,
                                     1e-3));
        CHECK_THAT(one[QStringLiteral("skeins")].toDouble(),
                   WithinAbs(metres * 1.2 /
                                 (one[QStringLiteral("plies")].toInt() *
                                  one[QStringLiteral("skein_m")].toDouble()),
                             1e-9));
        CHECK_FALSE(one[QStringLiteral("assumed")].toBool());
    }
    // Counted in the picture itself.
    const QImage picture(demo("harbour-evening.png"));
    int pixels = 0;
    for (int y = 0; y < picture.height(); ++y) {
        for (int x = 0; x < picture.width(); ++x) {
            pixels += qAlpha(picture.pixel(x, y)) > 0 ? 1 : 0;
        }
    }
    CHECK(stitches == pixels);
    const Answer text = ask(harbourChart() + QStringLiteral("--count 14 --over 1 --strands 2 "
                                                            "--margin 7.5cm --piece 30x45cm"));
    CHECK(text.out.contains(QStringLiteral("Stitches: %1. Metres: ").arg(pixels)));
    CHECK(text.out.contains(QStringLiteral("With 3.0 in (7.5 cm) of bare cloth on every side: ")));
    // Turned, 110 / 14 in + 15 cm = 34.957 cm lie across 30 cm.
    CHECK(text.out.contains(QStringLiteral("too small, turned, by 0 mm in the chart's width, 50 mm "
                                           "in its height; fits from 19 count over 1 on\n")));
    CHECK(buy == json[QStringLiteral("skeins_to_buy")].toInt());
}

TEST_CASE("without cards quantities takes usual skeins for granted and says so") {
    const Answer answer = ask(QStringLiteral("quantities --chart %1").arg(demo("boathouses.png")));
    CHECK(answer.exitCode == 0);
    CHECK(answer.out.contains(QStringLiteral("six plies of 8 m")));
    CHECK(answer.out.contains(QStringLiteral("173 × 98 stitches on 36 count over 2: 9.6 × 5.4 in "
                                             "(24.4 × 13.8 cm)")));
    CHECK(answer.out.contains(QStringLiteral("Dye lots differ")));
}

TEST_CASE("one skein that was counted takes the place of the waste") {
    const QString words =
        harbourChart() + QStringLiteral("--count 14 --over 1 --one-skein 1800 --json");
    const QJsonObject json = ask(words).json();
    // 48 m / (1800 · 2 · 8.760146 mm) - 1
    CHECK_THAT(json[QStringLiteral("usage")][QStringLiteral("waste")].toDouble(),
               WithinAbs(0.52204, 1e-4));
}

TEST_CASE("the ends that a refused skein names are themselves taken") {
    // 48 m / (2 · 6.8134 mm) = 3522.4 crosses without waste; a third of it 1174.1, twice 7044.9.
    const QString words =
        QStringLiteral("quantities --chart %1 --one-skein ").arg(demo("boathouses.png"));
    for (const char* taken : {"1175", "7044"}) {
        CAPTURE(taken);
        CHECK(ask(words + QString::fromUtf8(taken)).exitCode == 0);
    }
    CHECK(ask(words + QStringLiteral("1174")).exitCode == 2);
    CHECK(ask(words + QStringLiteral("7046")).exitCode == 2);
}

TEST_CASE("bad words of quantities are refused in one line") {
    const auto [words, line] = GENERATE(table<const char*, const char*>({
        {"--count 0", "--count: expected a whole number from 5 to 80, found \"0\""},
        {"--count 14.5", "--count: expected a whole number from 5 to 80, found \"14.5\""},
        {"--over 3", "--over: expected a whole number from 1 to 2, found \"3\""},
        {"--strands -2", "--strands: expected a whole number from 1 to 12, found \"-2\""},
        {"--line-strands 0", "--line-strands: expected a whole number from 1 to 12, found \"0\""},
        {"--waste 201", "--waste: expected a number from 0 to 200, found \"201\""},
        {"--waste nan", "--waste: expected a number from 0 to 200, found \"nan\""},
        {"--waste 20 --one-skein 1800",
         "otherskein quantities: expected --waste or --one-skein, found both"},
        {"--sample-count 14", "otherskein quantities: expected --one-skein along with "
                              "--sample-count, found --sample-count alone"},
        {"--one-skein 5",
         "--one-skein: expected from 1175 to 7044 stitches on that ground, found 5"},
        {"--margin 3",
         "--margin: expected a length with its unit up to 10 m, such as 3in or 7.5cm, "
         "found \"3\""},
        {"--margin -3in", "--margin: expected a length with its unit up to 10 m, such as 3in or "
                          "7.5cm, found \"-3in\""},
        {"--piece 18in",
         "--piece: expected WIDTHxHEIGHT with a unit, up to 10 m, such as 18x27in or "
         "45x70cm, found \"18in\""},
        {"--piece 0x27in",
         "--piece: expected WIDTHxHEIGHT with a unit, up to 10 m, such as 18x27in "
         "or 45x70cm, found \"0x27in\""},
        {"--piece 18inx27in", "--piece: expected WIDTHxHEIGHT with a unit, up to 10 m, such as "
                              "18x27in or 45x70cm, found \"18inx27in\""},
        {"--piece 18x27000in", "--piece: expected WIDTHxHEIGHT with a unit, up to 10 m, such as "
                               "18x27in or 45x70cm, found \"18x27000in\""},
    }));
    CAPTURE(words);
    const Answer answer = ask(QStringLiteral("quantities --chart %1 ").arg(demo("boathouses.png")) +
                              QString::fromUtf8(words));
    CHECK(answer.exitCode == 2);
    CHECK(answer.out.isEmpty());
    CHECK(answer.err.toStdString() == std::string(line) + "\n");
}

TEST_CASE("quantities asks for a chart") {
    const Answer answer = ask(QStringLiteral("quantities --count 14"));
    CHECK(answer.exitCode == 2);
    CHECK(answer.err == QStringLiteral("otherskein quantities: expected --chart with a chart's "
                                       "picture, found none\n"));
}
