// Shade card files as they come: each lies in tests/fixtures/shade_cards.
#include "thread/shade_card.h"

#include "fixtures/fixture_folder.h"

#include <catch2/catch.hpp>

#include <QTemporaryDir>

using namespace otherskein;
using namespace otherskein::thread;
using fixtures::Fixture;
using fixtures::refusal;

TEST_CASE("accepted shade cards are written back as they should be") {
    const auto all = fixtures::fixturesIn("shade_cards/accepted");
    CHECK(all.size() >= 28);
    for (const Fixture& one : all) {
        CAPTURE(one.path.toStdString());
        const ShadeCard card = parseShadeCard(one.bytes, one.path);
        const QByteArray written = shadeCardCsv(card);
        CHECK(written.toStdString() == one.expected.toStdString());
        // What was written reads as the same threads, and a second writing changes nothing more.
        const ShadeCard again = parseShadeCard(written, one.path);
        CHECK((again.threads == card.threads));
        CHECK(again.name == card.name);
        CHECK(shadeCardCsv(again) == written);
        CHECK((parseShadeCard(shadeCardCsv(again), one.path) == again));
    }
}

TEST_CASE("refused shade cards say what is wrong in one line") {
    const auto all = fixtures::fixturesIn("shade_cards/refused");
    CHECK(all.size() >= 80);
    for (const Fixture& one : all) {
        CAPTURE(one.path.toStdString());
        const std::string line =
            refusal(one.path, [&] { (void)parseShadeCard(one.bytes, one.path); });
        CHECK(line + '\n' == one.expected.toStdString());
        CHECK(line.find_first_of("\n\r") == std::string::npos);
    }
}

TEST_CASE("a card is named after its file") {
    const QString folder = QStringLiteral(OTHERSKEIN_SOURCE_DIR "/tests/fixtures/shade_cards/");
    CHECK(readShadeCard(folder + QStringLiteral("accepted/plain.csv")).name.toStdString() ==
          "plain");
    CHECK(readShadeCard(folder + QStringLiteral("accepted/cgats_lab.txt")).name.toStdString() ==
          "cgats_lab");
    CHECK(parseShadeCard("code,name,srgb\n1,x,#000000\n", QStringLiteral("/a/quay.2.csv"))
              .name.toStdString() == "quay.2");
}

TEST_CASE("a path without a shade card file is refused") {
    const QTemporaryDir dir;
    const auto read = [](const QString& path) {
        return refusal(path, [&] { (void)readShadeCard(path); });
    };
    CHECK(read(dir.filePath(QStringLiteral("missing.csv"))) ==
          ": expected a file, found none there");
    CHECK(read(dir.path()) == ": expected a file, found a folder");
}

TEST_CASE("a file past the size limit is refused before it is read") {
    const QTemporaryDir dir;
    const QString path = dir.filePath(QStringLiteral("large.csv"));
    QFile file(path);
    REQUIRE(file.open(QIODevice::WriteOnly));
    REQUIRE(file.resize(limits::kMostCardBytes + 1)); // sparse: takes no room
    file.close();
    CHECK(refusal(path, [&] { (void)readShadeCard(path); }) ==
          ": expected a file of at most 67108864 bytes, found 67108865 bytes");
}

TEST_CASE("a card past the row limit is refused and one at it is read") {
    QByteArray bytes = "code,name,srgb\n";
    for (int i = 0; i < limits::kMostThreads; ++i) {
        bytes += QByteArray::number(i) + ",x,#102030\n";
    }
    const QString source = QStringLiteral("many.csv");
    CHECK(parseShadeCard(bytes, source).threads.size() == 100'000);
    bytes += "one more,x,#102030\n";
    CHECK(refusal(source, [&] { (void)parseShadeCard(bytes, source); }) ==
          ":100002: expected at most 100001 rows, found more");
}
