#include "chart/lines_csv.h"

#include "chart/random_charts.h"
#include "fixtures/fixture_folder.h"

#include <catch2/catch.hpp>

#include <QStringList>

using namespace otherskein;
using namespace otherskein::chart;

namespace {

const QString kSource = QStringLiteral("c.lines.csv");

Key keyWith(const QStringList& symbols) {
    Key key;
    for (const QString& symbol : symbols) {
        KeyRow row;
        row.pixel.b = static_cast<std::uint8_t>(key.size());
        row.symbol = symbol;
        key.push_back(row);
    }
    return key;
}

const Grid kGrid(33, 21);

std::vector<Line> parsed(const QByteArray& rows,
                         const QStringList& symbols = {QStringLiteral("S"), QStringLiteral("T")}) {
    return parseLines("x1,y1,x2,y2,symbol\n" + rows, kSource, kGrid, keyWith(symbols));
}

std::string refusalOf(const QByteArray& rows,
                      const QStringList& symbols = {QStringLiteral("S"), QStringLiteral("T")}) {
    return fixtures::refusal(kSource, [&] { (void)parsed(rows, symbols); });
}

} // namespace

TEST_CASE("lines are read in half cells, by the symbol of their thread") {
    CHECK(parsed("0,0,33,21,S\n0.5,2.5,1,2,T\n") ==
          std::vector<Line>{{0, 0, 66, 42, 0}, {1, 5, 2, 4, 1}});
    CHECK(parsed(" 1 ,2.0,3e0,0004.50, T \n") == std::vector<Line>{{2, 4, 6, 9, 1}});
    CHECK(parsed("").empty());
}

TEST_CASE("columns of the lines may stand in any order, others are skipped") {
    const QByteArray bytes = "note,symbol,y2,x2,y1,x1\nx,T,4,3,2,1\n";
    CHECK(parseLines(bytes, kSource, kGrid, keyWith({QStringLiteral("T")})) ==
          std::vector<Line>{{2, 4, 6, 8, 0}});
}

TEST_CASE("lines are refused with row, column, what was expected and what was found") {
    const struct {
        const char* rows;
        const char* line;
    } cases[] = {
        {"0.25,0,1,1,S\n",
         ":2: column x1: expected whole or half cells (2 or 2.5), found \"0.25\""},
        {"0,0,1,1,S\n0,1.4999,1,1,S\n",
         ":3: column y1: expected whole or half cells (2 or 2.5), found \"1.4999\""},
        {"0,0,33.5,1,S\n", ":2: column x2: expected a number from 0 to 33, found \"33.5\""},
        {"0,0,1,21.5,S\n", ":2: column y2: expected a number from 0 to 21, found \"21.5\""},
        {"-0.5,0,1,1,S\n", ":2: column x1: expected a number from 0 to 33, found \"-0.5\""},
        {"1e300,0,1,1,S\n", ":2: column x1: expected a number from 0 to 33, found \"1e300\""},
        {"nan,0,1,1,S\n", ":2: column x1: expected a number from 0 to 33, found \"nan\""},
        {",0,1,1,S\n", ":2: column x1: expected a number from 0 to 33, found \"\""},
        {"\"1,5\",0,1,1,S\n", ":2: column x1: expected a number from 0 to 33, found \"1,5\""},
        {"2,3.5,2,3.5,S\n",
         ":2: column x2: expected two different ends, found a line of no length"},
        {"0,0,1,1,U\n", ":2: column symbol: expected a symbol of the key, found \"U\""},
        {"0,0,1,1,s\n", ":2: column symbol: expected a symbol of the key, found \"s\""},
        {"0,0,1,1,\n", ":2: column symbol: expected a symbol of the key, found \"\""},
        {"0,0,1,1\n", ":2: expected 5 fields as in the header, found 4"},
    };
    for (const auto& one : cases) {
        CAPTURE(one.rows);
        CHECK(refusalOf(one.rows) == one.line);
    }
}

TEST_CASE("a symbol that two rows share, or none has, names no thread") {
    const QStringList shared{QStringLiteral("S"), QStringLiteral("T"), QStringLiteral(" S")};
    CHECK(refusalOf("0,0,1,1,S\n", shared) ==
          ":2: column symbol: expected a symbol that one row of the key has, found \"S\", which "
          "two have");
    CHECK(refusalOf("0,0,1,1,T\n", shared) == "accepted");
    CHECK(refusalOf("0,0,1,1,\n", {QString(), QStringLiteral("T")}) ==
          ":2: column symbol: expected a symbol of the key, found \"\"");
}

TEST_CASE("a file that is no table of lines is refused") {
    const auto refusal = [](const QByteArray& bytes) {
        return fixtures::refusal(kSource,
                                 [&] { (void)parseLines(bytes, kSource, kGrid, keyWith({})); });
    };
    CHECK(refusal("") == ":1: expected a header row, found an empty file");
    CHECK(refusal("x1,y1,x2,symbol\n1,1,1,S\n") ==
          ":1: column y2: expected a column named y2, found the columns \"x1,y1,x2,symbol\"");
    CHECK(refusal("x1,y1,x2,y2,x1,symbol\n") ==
          ":1: column x1: expected each column once, found it twice");
    CHECK(refusal("x1,y1,x2,y2,symbol\n\xff\n") ==
          ":2: expected UTF-8 text (save the file as \"CSV UTF-8\"), found bytes that are not "
          "UTF-8");
}

TEST_CASE("more lines than the limit are refused") {
    const QByteArray row = "0,0,1,1,S\n";
    CHECK(parsed(row.repeated(100'000)).size() == kMostLines);
    CHECK(refusalOf(row.repeated(100'001)) == ":100002: expected at most 100000 lines, found more");
}

TEST_CASE("lines are written in cells with a full stop, and symbols so that no table runs them") {
    const Key key = keyWith({QStringLiteral("S"), QStringLiteral("=1,2")});
    CHECK(linesCsv({{0, 1, 66, 42, 0}, {3, 4, 5, 6, 1}}, key).toStdString() ==
          "x1,y1,x2,y2,symbol\r\n0,0.5,33,21,S\r\n1.5,2,2.5,3,\"'=1,2\"\r\n");
    CHECK(linesCsv({}, key).toStdString() == "x1,y1,x2,y2,symbol\r\n");
}

TEST_CASE("lines read back as they were written") {
    unsigned seed = 40;
    for (const samples::ChartShape& shape : samples::chartShapes()) {
        const Chart chart = samples::randomChart(shape, seed++);
        CAPTURE(shape.columns, shape.rows, seed);
        CHECK(parseLines(linesCsv(chart.lines, chart.key), kSource, chart.grid, chart.key) ==
              chart.lines);
    }
}
