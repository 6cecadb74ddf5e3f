// What is written survives a spreadsheet unrun and comes back unchanged.
#include "base/csv.h"

#include <catch2/catch.hpp>

#include <random>
#include <string>
#include <vector>

using namespace otherskein::base;

namespace {

const std::vector<QString>& pieces() {
    static const std::vector<QString> kPieces{
        QStringLiteral("="),   QStringLiteral("+"),  QStringLiteral("-"),  QStringLiteral("@"),
        QStringLiteral("\t"),  QStringLiteral("\r"), QStringLiteral("\n"), QStringLiteral("'"),
        QStringLiteral("\""),  QStringLiteral(","),  QStringLiteral(";"),  QStringLiteral(" "),
        QStringLiteral("x"),   QStringLiteral("3"),  QStringLiteral("."),  QStringLiteral("é"),
        QStringLiteral("🧵")};
    return kPieces;
}

std::vector<QString> readBack(const QByteArray& line) {
    const auto records = readCsv(line, QStringLiteral("line.csv"));
    REQUIRE(records.size() == 1);
    return records.front().cells;
}

/// What a spreadsheet sees first in the cell once it has taken off quotes.
bool wouldRun(const QString& written) {
    return !written.isEmpty() && QStringLiteral("=+-@\t\r").contains(written.front());
}

} // namespace

TEST_CASE("cells that a spreadsheet would run get an apostrophe") {
    CHECK(neutralised(QStringLiteral("=x")).toStdString() == "'=x");
    CHECK(neutralised(QStringLiteral("+x")).toStdString() == "'+x");
    CHECK(neutralised(QStringLiteral("-x")).toStdString() == "'-x");
    CHECK(neutralised(QStringLiteral("@x")).toStdString() == "'@x");
    CHECK(neutralised(QStringLiteral("\tx")).toStdString() == "'\tx");
    CHECK(neutralised(QStringLiteral("\rx")).toStdString() == "'\rx");
    CHECK(neutralised(QStringLiteral("-3.5+1")).toStdString() == "'-3.5+1");
}

TEST_CASE("plain text and plain numbers stay as they are") {
    const QString text =
        GENERATE(as<QString>(), QString(), QStringLiteral("x=1"), QStringLiteral("-3.5"),
                 QStringLiteral("+2"), QStringLiteral("-1e-5"), QStringLiteral("#12ab34"),
                 QStringLiteral("'quoted'"), QStringLiteral("'"), QStringLiteral("''"),
                 QStringLiteral("o'clock"));
    CAPTURE(text.toStdString());
    CHECK(neutralised(text) == text);
    CHECK(restored(text) == text);
}

TEST_CASE("restoring undoes neutralising for every short string") {
    // All strings of up to four pieces: "'=x", "''-3", "-3", "\t", ...
    std::vector<QString> all{QString()};
    std::size_t from = 0;
    for (int length = 1; length <= 4; ++length) {
        const std::size_t to = all.size();
        for (std::size_t i = from; i < to; ++i) {
            for (const QString& piece : pieces()) {
                all.push_back(all[i] + piece);
            }
        }
        from = to;
    }
    int changed = 0;
    for (const QString& text : all) {
        CAPTURE(text.toStdString());
        const QString harmless = neutralised(text);
        REQUIRE(restored(harmless) == text);
        changed += harmless == text ? 0 : 1;
    }
    CHECK(all.size() == 1 + 17 + 17 * 17 + 17 * 17 * 17 + 17 * 17 * 17 * 17);
    CHECK(changed > 10'000);
}

TEST_CASE("no written cell but a number begins a formula") {
    for (const QString& first : pieces()) {
        for (const QString& second : pieces()) {
            const QString text = first + second;
            CAPTURE(text.toStdString());
            const QString written = neutralised(text);
            bool isNumber = false;
            (void)written.toDouble(&isNumber);
            CHECK((!wouldRun(written) || isNumber));
        }
    }
}

TEST_CASE("a line quotes what needs quotes and ends with CRLF") {
    CHECK(csvLine({QStringLiteral("a"), QStringLiteral("b c"), QString()}) == "a,b c,\r\n");
    CHECK(csvLine({QStringLiteral("a,b"), QStringLiteral("say \"yes\"")}) ==
          "\"a,b\",\"say \"\"yes\"\"\"\r\n");
    CHECK(csvLine({QStringLiteral("a\nb"), QStringLiteral("c")}) == "\"a\nb\",c\r\n");
    CHECK(csvLine({QStringLiteral("=1+1")}) == "'=1+1\r\n");
    CHECK(csvLine({QStringLiteral("=\"a\"")}) == "\"'=\"\"a\"\"\"\r\n");
    CHECK(csvLine({QString(), QString()}) == ",\r\n");
    CHECK(csvLine({QString()}) == "\"\"\r\n"); // a bare line end would read as no record
}

TEST_CASE("random records come back from the line they are written as") {
    constexpr unsigned kSeed = 20240229;
    CAPTURE(kSeed);
    std::mt19937 engine(kSeed);
    std::uniform_int_distribution<std::size_t> piece(0, pieces().size() - 1);
    std::uniform_int_distribution<int> length(0, 6);
    std::uniform_int_distribution<int> width(1, 5);
    for (int i = 0; i < 20'000; ++i) {
        std::vector<QString> cells(static_cast<std::size_t>(width(engine)));
        for (QString& cell : cells) {
            for (int n = length(engine); n > 0; --n) {
                cell += pieces()[piece(engine)];
            }
        }
        const QByteArray line = csvLine(cells);
        CAPTURE(i, line.toStdString());
        REQUIRE(readBack(line) == cells);
    }
}
