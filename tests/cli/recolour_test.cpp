#include "folder.h"

#include "chart/chart_files.h"
#include "chart/neighbours.h"
#include "colour/conversion.h"
#include "colour/difference.h"
#include "thread/shade_card.h"

#include <QJsonArray>

#include <algorithm>
#include <set>

using namespace otherskein;

namespace {

const QString kCotton = demo("lanternfold-cotton.csv");
const QString kSilk = demo("mossip-silk.csv");

/// The picture and key that a command wrote.
struct Written {
    QString picture;
    QString key;

    explicit Written(const Folder& folder)
        : picture(folder.path("out.png")), key(folder.path("out.key.csv")) {}
    [[nodiscard]] QString words() const {
        return QStringLiteral(" --out %1 --out-key %2").arg(picture, key);
    }
    [[nodiscard]] chart::Chart chart() const { return chart::readChart({picture, key}); }
};

QJsonObject recolouringOf(const QString& words) {
    const Answer answer = ask(words + QStringLiteral(" --json"));
    CAPTURE(words.toStdString(), answer.err.toStdString());
    REQUIRE(answer.exitCode == 0);
    return answer.json();
}

colour::Lab partLab(const QJsonValue& value) {
    const QJsonArray lab = value.toArray();
    REQUIRE(lab.size() == 3);
    return {lab[0].toDouble(), lab[1].toDouble(), lab[2].toDouble()};
}

} // namespace

TEST_CASE("a chart in one colour is written in many, on the same cells") {
    const Folder folder;
    const Written out(folder);
    const QString picture = demo("boathouses.png");
    const QJsonObject answer =
        recolouringOf(QStringLiteral("recolour --chart %1 --from %2 --by motif --colours 8 "
                                     "--ground #cdbfa6")
                          .arg(picture, kCotton) +
                      out.words());

    const chart::Chart before = chart::readChart(chart::pathsBeside(picture));
    const chart::Chart after = out.chart();
    CHECK(after.isConsistent());
    CHECK(after.key.size() <= 8);
    CHECK(after.key.size() >= 5);
    const auto was = before.grid.cells();
    const auto now = after.grid.cells();
    REQUIRE(was.size() == now.size());
    for (std::size_t i = 0; i < was.size(); ++i) {
        if ((was[i] == chart::kBare) != (now[i] == chart::kBare)) {
            FAIL("cell " << i << " is stitched on one side only");
        }
    }

    // What is said is what was written: a motif's thread stands at its first cell.
    const thread::ShadeCard cotton = thread::readShadeCard(kCotton);
    const QJsonArray parts = answer[QStringLiteral("parts")].toArray();
    REQUIRE(parts.size() == 16);
    int stitches = 0;
    for (const QJsonValue& part : parts) {
        const QJsonArray cell = part[QStringLiteral("first_cell")].toArray();
        const chart::KeyIndex key = after.grid.at({cell[0].toInt(), cell[1].toInt()});
        const QString code = part[QStringLiteral("now")][QStringLiteral("code")].toString();
        CHECK(after.key[key].code == code);
        CHECK(thread::findThread(cotton, code) != nullptr);
        stitches += part[QStringLiteral("stitches")].toInt();
    }
    CHECK(stitches == before.key[0].stitches);
    CHECK(answer[QStringLiteral("separation")][QStringLiteral("min_de00_adjacent")].toDouble() >=
          12);
}

TEST_CASE("a new hue keeps the order of lightness, and a kept row its thread") {
    const Folder folder;
    const Written out(folder);
    const QJsonObject answer = recolouringOf(
        QStringLiteral("recolour --chart %1 --from %2 --by colour --hue 150 --keep LF-571")
            .arg(demo("harbour-evening.png"), kCotton) +
        out.words());
    CHECK(answer[QStringLiteral("order_kept")].toDouble() > 0.97);
    int kept = 0;
    int green = 0;
    for (const QJsonValue& part : answer[QStringLiteral("parts")].toArray()) {
        const QJsonValue was = part[QStringLiteral("was")];
        const QJsonValue now = part[QStringLiteral("now")];
        if (was[QStringLiteral("code")].toString() == QStringLiteral("LF-571")) {
            CHECK(now[QStringLiteral("code")].toString() == QStringLiteral("LF-571"));
            ++kept;
            continue;
        }
        const colour::Lab lab = partLab(now[QStringLiteral("lab")]);
        if (colour::chroma(lab) > 12) {
            green += std::abs(std::remainder(colour::hueDegrees(lab) - 150, 360)) < 40 ? 1 : -5;
        }
    }
    CHECK(kept == 1);
    CHECK(green >= 10);
    // Backstitch goes along.
    CHECK(out.chart().lines.size() ==
          chart::readChart(chart::pathsBeside(demo("harbour-evening.png"))).lines.size());
}

TEST_CASE("a conversion gives each row its own thread of the other line, for the same picture") {
    const Folder folder;
    const QString key = folder.path("silk.key.csv");
    const QString picture = demo("harbour-evening.png");
    const QJsonObject answer = recolouringOf(
        QStringLiteral("convert --chart %1 --key %2 --from %3 --known %4 --out-key %5")
            .arg(picture, demo("harbour-evening.key.csv"), kSilk, kCotton, key));
    const chart::Chart charted = chart::readChart(chart::pathsBeside(picture));
    const chart::Chart silk = chart::readChart({picture, key});
    CHECK(silk.grid == charted.grid);
    std::set<QString> codes;
    for (const chart::KeyRow& row : silk.key) {
        CHECK(row.card == QStringLiteral("mossip-silk"));
        codes.insert(row.code);
    }
    CHECK(codes.size() == silk.key.size());
    for (const QJsonValue& part : answer[QStringLiteral("parts")].toArray()) {
        const double said = part[QStringLiteral("de00")].toDouble();
        const double asked =
            colour::deltaE00(partLab(part[QStringLiteral("was")][QStringLiteral("lab")]),
                             partLab(part[QStringLiteral("now")][QStringLiteral("lab")]));
        CHECK_THAT(said, Catch::WithinAbs(asked, 1e-9));
    }
}

TEST_CASE("the same words give the same files") {
    const Folder folder;
    const Written out(folder);
    const QString words = QStringLiteral("recolour --chart %1 --from %2 --seed 3 --force")
                              .arg(demo("boathouses.png"), kCotton) +
                          out.words();
    REQUIRE(ask(words).exitCode == 0);
    const QByteArray picture = Folder::read(out.picture);
    const QByteArray key = Folder::read(out.key);
    REQUIRE(ask(words).exitCode == 0);
    CHECK(Folder::read(out.picture) == picture);
    CHECK(Folder::read(out.key) == key);
    REQUIRE(ask(words + QStringLiteral(" --seed 4")).exitCode == 2); // said twice
}

TEST_CASE("a file that is there is kept unless it may be replaced, and nothing else is written") {
    const Folder folder;
    const Written out(folder);
    folder.write("out.key.csv", "mine");
    const QStringList before = folder.contents();
    const Answer answer =
        ask(QStringLiteral("recolour --chart %1 --from %2").arg(demo("boathouses.png"), kCotton) +
            out.words());
    CHECK(answer.exitCode == 2);
    CHECK(answer.err.endsWith(QStringLiteral(
        "out.key.csv: expected no file there yet (or --force), found one that exists\n")));
    CHECK(folder.contents() == before);
}

TEST_CASE("substitutes in a chart are weighed by what they touch") {
    const QString words =
        QStringLiteral("substitute --wanted %1:LF-571 --from %1 --key %2 --chart %3 --limit 30")
            .arg(kCotton, demo("harbour-evening.key.csv"), demo("harbour-evening.png"));
    const QJsonArray nearest = recolouringOf(words)[QStringLiteral("candidates")].toArray();
    const QJsonArray best =
        recolouringOf(words + QStringLiteral(" --in-chart"))[QStringLiteral("candidates")]
            .toArray();
    REQUIRE(nearest.size() == 30);
    REQUIRE(best.size() == 30);
    const auto rises = [](const QJsonArray& list, const QString& name) {
        return std::is_sorted(list.begin(), list.end(),
                              [&](const QJsonValue& one, const QJsonValue& other) {
                                  return one[name].toDouble() < other[name].toDouble();
                              });
    };
    CHECK(rises(nearest, QStringLiteral("de00")));
    CHECK(rises(best, QStringLiteral("cost_in_chart")));
    CHECK_FALSE(rises(best, QStringLiteral("de00")));
}

TEST_CASE("threads asked for by code are among the colours, and unknown ones are refused") {
    const QString words =
        QStringLiteral("recolour --chart %1 --from %2 --with LF-590 --with LF-490")
            .arg(demo("boathouses.png"), kCotton);
    std::set<QString> codes;
    for (const QJsonValue& part : recolouringOf(words)[QStringLiteral("parts")].toArray()) {
        codes.insert(part[QStringLiteral("now")][QStringLiteral("code")].toString());
    }
    CHECK(codes.contains(QStringLiteral("LF-590")));
    CHECK(codes.contains(QStringLiteral("LF-490")));
    const Answer refused = ask(words + QStringLiteral(" --json --with LF-5990"));
    CHECK(refused.exitCode == 2);
    CHECK(refused.err.startsWith(QStringLiteral(
        "--with: expected the code of a thread on a card of --from, found \"LF-5990\"")));
}
