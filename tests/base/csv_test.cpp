#include "base/csv.h"

#include "base/input_error.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace otherskein::base;

namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows read(const QByteArray& bytes, const CsvLimits& limits = {}) {
    Rows rows;
    for (const CsvRecord& record : readCsv(bytes, QStringLiteral("f.csv"), limits)) {
        rows.emplace_back();
        for (const QString& cell : record.cells) {
            rows.back().push_back(cell.toStdString());
        }
    }
    return rows;
}

/// The line of the error that reading gives, or "accepted".
std::string refusal(const QByteArray& bytes, const CsvLimits& limits = {}) {
    try {
        (void)readCsv(bytes, QStringLiteral("f.csv"), limits);
    } catch (const InputError& error) {
        return error.what();
    }
    return "accepted";
}

} // namespace

TEST_CASE("records are parted by any kind of line end") {
    const Rows expected{{"a", "b"}, {"1", "2"}};
    CHECK(read("a,b\n1,2\n") == expected);
    CHECK(read("a,b\r\n1,2\r\n") == expected);
    CHECK(read("a,b\r1,2\r") == expected);
    CHECK(read("a,b\n1,2") == expected);
    CHECK(read("a,b\r\n1,2\n") == expected);
}

TEST_CASE("a file of nothing has no records") {
    CHECK(read("").empty());
    CHECK(read("\n\r\n\r").empty());
    CHECK(read("\xef\xbb\xbf").empty());
}

TEST_CASE("a byte order mark is no part of the first cell") {
    CHECK(read("\xef\xbb\xbf"
               "code,name\n") == Rows{{"code", "name"}});
    CHECK(read("\xef\xbb\xbf\"code\",name\n") == Rows{{"code", "name"}});
}

TEST_CASE("quoted cells hold commas line ends and quotes") {
    CHECK(read("\"a,b\",c\n") == Rows{{"a,b", "c"}});
    CHECK(read("\"a\nb\",\"c\r\nd\"\n") == Rows{{"a\nb", "c\r\nd"}});
    CHECK(read("\"say \"\"yes\"\"\",b") == Rows{{"say \"yes\"", "b"}});
    CHECK(read("\"\"\"\",\"\"\n") == Rows{{"\"", ""}});
}

TEST_CASE("empty cells count and blanks are text") {
    CHECK(read("a,,c\n,,\n") == Rows{{"a", "", "c"}, {"", "", ""}});
    CHECK(read("a,b\n1,") == Rows{{"a", "b"}, {"1", ""}});
    CHECK(read(" a , b \n") == Rows{{" a ", " b "}});
}

TEST_CASE("empty lines are skipped but counted") {
    const auto records = readCsv("a\n\n\nb\n", QStringLiteral("f.csv"));
    REQUIRE(records.size() == 2);
    CHECK(records[0].row == 1);
    CHECK(records[1].row == 4);
    // A quoted nothing is a cell and not an empty line.
    CHECK(read("a\n\"\"\n") == Rows{{"a"}, {""}});
}

TEST_CASE("rows count records as a spreadsheet does") {
    const auto records = readCsv("a\n\"1\n2\n3\"\nb\n", QStringLiteral("f.csv"));
    REQUIRE(records.size() == 3);
    CHECK(records[2].row == 3);
}

TEST_CASE("text of other scripts is kept") {
    CHECK(read("naïve,藍,🧵\n") == Rows{{"naïve", "藍", "🧵"}});
}

TEST_CASE("quotes out of place are refused by row") {
    CHECK(refusal("a,b\n1,\"2") == "f.csv:2: expected a closing quote, found the end of the file "
                                   "inside the cell that begins with "
                                   "\"\"2\"");
    CHECK(refusal("a,b\n1,2\"\"\n") == "f.csv:2: expected quotes around the whole cell, with "
                                       "quotes inside it doubled, found a quote in the "
                                       "middle of \"2\"\"");
    CHECK(refusal("a,b\n\"1\"x,2\n") ==
          "f.csv:2: expected a comma or the end of the row after a closing quote, found \"x\"");
    CHECK(refusal("a\n\n \"b\"\n") == "f.csv:3: expected quotes around the whole cell, with quotes "
                                      "inside it doubled, found a quote in the "
                                      "middle of \" \"\"");
}

TEST_CASE("a row of another width is refused") {
    CHECK(refusal("a,b\n1,2\n1,2,3\n") == "f.csv:3: expected 2 fields as in the header, found 3");
    CHECK(refusal("a,b\n1\n") == "f.csv:2: expected 2 fields as in the header, found 1");
}

TEST_CASE("a NUL byte is refused by its row and place") {
    CHECK(refusal(QByteArray("a,b\n1,\0\n", 8)) ==
          "f.csv:2: expected text without NUL bytes, found a NUL byte at byte 6");
    CHECK(refusal(QByteArray("a\rb\r\0", 5)) ==
          "f.csv:3: expected text without NUL bytes, found a NUL byte at byte 4");
    CHECK(refusal(QByteArray("\0", 1)) ==
          "f.csv:1: expected text without NUL bytes, found a NUL byte at byte 0");
}

TEST_CASE("bytes that are not UTF-8 are refused by row") {
    const std::string expected =
        ": expected UTF-8 text (save the file as \"CSV UTF-8\"), found bytes that "
        "are not UTF-8";
    CHECK(refusal("a\nb\xe9\nc\n") == "f.csv:2" + expected);
    CHECK(refusal("caf\xe9") == "f.csv:1" + expected);
    CHECK(refusal("a\nb\n\xc3") == "f.csv:3" + expected);        // cut short
    CHECK(refusal("a\n\xc0\xaf\n") == "f.csv:2" + expected);     // overlong
    CHECK(refusal("a\n\xed\xa0\x80\n") == "f.csv:2" + expected); // a lone surrogate
    CHECK(refusal("\xff\xfe"
                  "a") == "f.csv:1" + expected); // UTF-16's mark
    CHECK(refusal("\xef\xbb\xbf"
                  "a\n\xe9") == "f.csv:2" + expected);
    CHECK(refusal("a\r\nb\r\n\xe9\r\n") == "f.csv:3" + expected);
    CHECK(refusal("a\rb\r\xe9\r") == "f.csv:3" + expected);
}

TEST_CASE("limits are held and named") {
    const CsvLimits limits{.mostRows = 2, .mostColumns = 3, .longestCell = 4};
    CHECK(refusal("a\nb\n", limits) == "accepted");
    CHECK(refusal("a\nb\nc\n", limits) == "f.csv:3: expected at most 2 rows, found more");
    CHECK(refusal("1,2,3\n", limits) == "accepted");
    CHECK(refusal("1,2,3,4\n", limits) == "f.csv:1: expected at most 3 columns, found more");
    CHECK(refusal("abcd\n\"efgh\"\n", limits) == "accepted");
    CHECK(refusal("abcde\n", limits) ==
          "f.csv:1: expected a cell of at most 4 characters, found 5 characters");
    CHECK(refusal("\"abcde\"\n", limits) ==
          "f.csv:1: expected a cell of at most 4 characters, found 5 characters");
}
