#include "chart/key.h"

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
