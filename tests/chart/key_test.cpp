#include "chart/key.h"

#include "chart/random_charts.h"
#include "colour/conversion.h"
#include "fixtures/fixture_folder.h"

#include <catch2/catch.hpp>

#include <QTemporaryDir>

using namespace otherskein;
using namespace otherskein::chart;
using fixtures::Fixture;

namespace {

/// One line a row, for comparing with a file.
std::string shown(const Key& key) {
    QString text;
    for (const KeyRow& row : key) {
        text += QStringLiteral("%1|%2|%3|%4|%5|%6|%7\n")
                    .arg(colour::toHex(row.pixel), row.symbol, row.card, row.code, row.name)
                    .arg(row.strands)
                    .arg(row.stitches);
    }
    return text.toStdString();
}

} // namespace

TEST_CASE("accepted keys are read row by row") {
    const auto all = fixtures::fixturesIn("keys/accepted");
    CHECK(all.size() >= 8);
    for (const Fixture& one : all) {
        CAPTURE(one.path.toStdString());
        const Key key = parseKey(one.bytes, one.path);
        CHECK(shown(key) == one.expected.toStdString());
        for (const KeyRow& row : key) {
            CHECK((row.lab == colour::labFromSrgb(row.pixel)));
        }
    }
}

TEST_CASE("refused keys say what is wrong in one line") {
    const auto all = fixtures::fixturesIn("keys/refused");
    CHECK(all.size() >= 19);
    for (const Fixture& one : all) {
        CAPTURE(one.path.toStdString());
        CHECK(fixtures::refusal(one.path, [&] { (void)parseKey(one.bytes, one.path); }) + '\n' ==
              one.expected.toStdString());
    }
}

TEST_CASE("a key file is read from its path") {
    const QString folder = QStringLiteral(OTHERSKEIN_SOURCE_DIR "/tests/fixtures/keys/accepted/");
    CHECK(readKey(folder + QStringLiteral("plain.csv")).size() == 2);
    CHECK(fixtures::refusal(folder, [&] { (void)readKey(folder); }) ==
          ": expected a file, found a folder");
}

TEST_CASE("a key file past the size limit is refused") {
    const QTemporaryDir dir;
    const QString path = dir.filePath(QStringLiteral("large.csv"));
    QFile file(path);
    REQUIRE(file.open(QIODevice::WriteOnly));
    REQUIRE(file.resize(4 * 1024 * 1024 + 1));
    file.close();
    CHECK(fixtures::refusal(path, [&] { (void)readKey(path); }) ==
          ": expected a file of at most 4194304 bytes, found 4194305 bytes");
}

TEST_CASE("a key reads back as it was written") {
    unsigned seed = 60;
    for (const samples::ChartShape& shape : samples::chartShapes()) {
        const Key key = samples::randomChart(shape, seed++).key;
        CAPTURE(key.size(), seed);
        CHECK((parseKey(keyCsv(key), QStringLiteral("key.csv")) == key));
    }
}

TEST_CASE("a key is written with all its columns, and so that no table runs a symbol") {
    KeyRow row;
    row.pixel = {48, 56, 64};
    row.symbol = QStringLiteral("=1");
    row.card = QStringLiteral("quay");
    row.code = QStringLiteral("Q-1");
    row.name = QStringLiteral("Slate, \"dark\"");
    row.strands = 3;
    row.stitches = 12;
    CHECK(keyCsv({row}).toStdString() == "srgb,symbol,card,code,name,strands,stitches\r\n"
                                         "#303840,'=1,quay,Q-1,\"Slate, \"\"dark\"\"\",3,12\r\n");
}

TEST_CASE("a key of more than 300 rows is refused at the first that is too many") {
    QByteArray csv = "srgb,code\n";
    for (int i = 0; i < 300; ++i) {
        csv += QStringLiteral("#%1,Q\n").arg(i, 6, 16, QLatin1Char('0')).toUtf8();
    }
    const QString source = QStringLiteral("key.csv");
    CHECK(parseKey(csv, source).size() == 300);
    csv += "#ffffff,Q\n";
    CHECK(fixtures::refusal(source, [&] { (void)parseKey(csv, source); }) ==
          ":302: expected at most 300 rows, one a thread, found 301");
}
