#include "chart/chart_files.h"

#include "chart/lines_csv.h"
#include "chart/random_charts.h"
#include "fixtures/fixture_folder.h"

#include <catch2/catch.hpp>

#include <QTemporaryDir>

using namespace otherskein;
using namespace otherskein::chart;
using base::Existing;

namespace {

class Folder {
  public:
    [[nodiscard]] QString path(const char* name) const {
        return m_dir.filePath(QString::fromLatin1(name));
    }
    void put(const char* name, const QByteArray& bytes) const {
        base::writeWholeFile(path(name), bytes, Existing::Replace);
    }
    [[nodiscard]] QByteArray bytes(const char* name) const {
        return base::readWholeFile(path(name), 100'000'000);
    }
    [[nodiscard]] std::string names() const {
        return QDir(m_dir.path()).entryList(QDir::Files, QDir::Name).join(u' ').toStdString();
    }
    [[nodiscard]] ChartPaths paths() const { return {path("c.png"), path("c.key.csv")}; }
    void write(const Chart& chart, Existing existing = Existing::Refuse) const {
        writeChart(chart, path("c.png"), path("c.key.csv"), existing);
    }
    /// What writing to c.png, c.key.csv is refused with: file name and line.
    [[nodiscard]] std::string refusal(const Chart& chart, const char* key = "c.key.csv",
                                      Existing existing = Existing::Refuse,
                                      const char* picture = "c.png") const {
        return fixtures::refusal(m_dir.path() + u'/',
                                 [&] { writeChart(chart, path(picture), path(key), existing); });
    }

  private:
    QTemporaryDir m_dir;
};

/// 4 x 3 with three lines.
Chart small() {
    return samples::randomChart({4, 3, 3, 3, 0.3}, 7);
}

/// As the files can hold it.
Chart named(Chart chart, const char* name) {
    chart.name = QString::fromLatin1(name);
    return chart;
}

} // namespace

TEST_CASE("a chart reads back as it was written") {
    unsigned seed = 1;
    for (const samples::ChartShape& shape : samples::chartShapes()) {
        for (int i = 0; i < 3; ++i) {
            const Folder folder;
            const Chart chart = samples::randomChart(shape, seed++);
            CAPTURE(shape.columns, shape.rows, seed);
            folder.write(chart);
            CHECK((readChart(folder.paths()) == named(chart, "c")));
            CHECK((pathsBeside(folder.path("c.png")) == folder.paths()));
        }
    }
}

TEST_CASE("a chart that is written, read and written again gives the same bytes") {
    const Folder folder;
    folder.write(small());
    const QByteArray picture = folder.bytes("c.png");
    const QByteArray key = folder.bytes("c.key.csv");
    const QByteArray lines = folder.bytes("c.lines.csv");
    folder.write(readChart(folder.paths()), Existing::Replace);
    CHECK(folder.bytes("c.png") == picture);
    CHECK(folder.bytes("c.key.csv") == key);
    CHECK(folder.bytes("c.lines.csv") == lines);
}

TEST_CASE("the key beside a picture is C.key.csv, then C.csv, then none") {
    const Folder folder;
    const QString picture = folder.path("c.png");
    CHECK((pathsBeside(picture) == ChartPaths{picture, std::nullopt}));
    folder.put("c.csv", "x");
    CHECK((pathsBeside(picture) == ChartPaths{picture, folder.path("c.csv")}));
    folder.put("c.key.csv", "x");
    CHECK((pathsBeside(picture) == ChartPaths{picture, folder.path("c.key.csv")}));
    CHECK((pathsBeside(folder.path("c.csv")).key == folder.path("c.key.csv")));
    CHECK((pathsBeside(folder.path("d.csv")).key == std::nullopt));
}

TEST_CASE("a file is not its own key") {
    const Folder folder;
    folder.put("c.csv", "x");
    CHECK((pathsBeside(folder.path("c.csv")).key == std::nullopt));
}

TEST_CASE("lines lie beside the picture") {
    CHECK(linesPath(QStringLiteral("a.b/c.png")).toStdString() == "a.b/c.lines.csv");
    CHECK(linesPath(QStringLiteral("a.b/c.d.PNG")).toStdString() == "a.b/c.d.lines.csv");
    CHECK(linesPath(QStringLiteral("a.b/c")).toStdString() == "a.b/c.lines.csv");
}

TEST_CASE("a picture alone is a chart with a made key, named after its file") {
    const Folder folder;
    const Chart chart = samples::randomChart({9, 9, 4, 0, 0.2}, 3);
    writeChart(chart, folder.path("c.d.png"), folder.path("k.csv"), Existing::Refuse);
    const Chart read = readChart({folder.path("c.d.png"), std::nullopt});
    CHECK(read.name.toStdString() == "c.d");
    CHECK(read.key.size() == 4);
    CHECK(read.key[0].symbol.toStdString() == "A");
    CHECK(folder.names() == "c.d.png k.csv");
}

TEST_CASE("nothing comes of a chart that is only half readable") {
    const Folder folder;
    folder.write(small());
    const auto refusal = [&] {
        return fixtures::refusal(folder.path("c").chopped(1),
                                 [&] { (void)readChart(folder.paths()); });
    };
    SECTION("lines") {
        folder.put("c.lines.csv", "x1,y1,x2,y2,symbol\n0,0,9,0,S\n");
        CHECK(refusal() == "c.lines.csv:2: column x2: expected a number from 0 to 4, found \"9\"");
    }
    SECTION("the key") {
        folder.put("c.key.csv", "srgb\n#000000\n");
        CHECK(refusal() == "c.key.csv:1: column code: expected a column named code, found the "
                           "columns \"srgb\"");
    }
    SECTION("the picture") {
        folder.put("c.png", "GIF89a");
        CHECK(refusal() == "c.png: expected a chart picture (PNG), found another kind of file");
    }
    SECTION("no picture") {
        REQUIRE(QFile::remove(folder.path("c.png")));
        CHECK(refusal() == "c.png: expected a file, found none there");
    }
    SECTION("a folder in the place of lines") {
        REQUIRE(QFile::remove(folder.path("c.lines.csv")));
        REQUIRE(QDir().mkdir(folder.path("c.lines.csv")));
        CHECK(refusal() == "c.lines.csv: expected a file, found a folder");
    }
}

TEST_CASE("one file in the way, and none of the three is written") {
    for (const char* name : {"c.png", "c.key.csv", "c.lines.csv"}) {
        const Folder folder;
        folder.put(name, "mine");
        CHECK(folder.refusal(small()) ==
              std::string(name) +
                  ": expected no file there yet (or --force), found one that exists");
        CHECK(folder.names() == name);
        CHECK(folder.bytes(name) == "mine");
    }
}

TEST_CASE("old lines are in the way of a chart without lines, too") {
    const Folder folder;
    folder.put("c.lines.csv", "x1,y1,x2,y2,symbol\r\n0,0,1,1,S\r\n");
    Chart chart = small();
    chart.lines.clear();
    CHECK(folder.refusal(chart) ==
          "c.lines.csv: expected no file there yet (or --force), found one that exists");
    folder.write(chart, Existing::Replace);
    CHECK(folder.bytes("c.lines.csv") == "x1,y1,x2,y2,symbol\r\n");
    CHECK((readChart(folder.paths()) == named(chart, "c")));
}

TEST_CASE("files that exist are replaced when asked") {
    const Folder folder;
    folder.write(small());
    const Chart other = samples::randomChart({5, 5, 2, 1, 0.1}, 8);
    folder.write(other, Existing::Replace);
    CHECK((readChart(folder.paths()) == named(other, "c")));
}

TEST_CASE("a place that cannot be written leaves every file as it was") {
    const Folder folder;
    folder.write(small());
    const QByteArray picture = folder.bytes("c.png");
    const Chart other = samples::randomChart({5, 5, 2, 1, 0.1}, 8);
    SECTION("a folder that is not there") {
        CHECK(folder.refusal(other, "none/c.csv", Existing::Replace)
                  .find("none/c.csv: expected a place to write, found ") == 0);
    }
    SECTION("a folder in the place of the key") {
        REQUIRE(QDir().mkdir(folder.path("k.csv")));
        CHECK(folder.refusal(other, "k.csv", Existing::Replace)
                  .find("k.csv: expected a place to write, found ") == 0);
    }
    CHECK(folder.bytes("c.png") == picture);
    CHECK(folder.names() == "c.key.csv c.lines.csv c.png");
}

TEST_CASE("picture, key and lines are three files, however their paths are written") {
    const Folder folder;
    CHECK(folder.refusal(small(), "c.png") ==
          "c.png: expected a file of its own for the key, found the picture's");
    CHECK(folder.refusal(small(), "./c.png") ==
          "./c.png: expected a file of its own for the key, found the picture's");
    CHECK(
        folder.refusal(small(), "c.lines.csv") ==
        "c.lines.csv: expected a file of its own for the key, found that of the backstitch lines");
    folder.put("other.png", "x");
    REQUIRE(QFile::link(folder.path("other.png"), folder.path("c.png")));
    CHECK(folder.refusal(small(), "other.png", Existing::Replace) ==
          "other.png: expected a file of its own for the key, found the picture's");
    CHECK(folder.bytes("other.png") == "x");
}

TEST_CASE("lines are not written of a thread whose symbol does not name it") {
    const Folder folder;
    Chart chart = small();
    chart.lines = {{0, 0, 2, 2, 1}};
    chart.key[1].symbol = QStringLiteral("S");
    chart.key[2].symbol = QStringLiteral(" S");
    const std::string line =
        "c.key.csv:3: column symbol: expected a symbol of its own for a thread with backstitch "
        "lines, found ";
    CHECK(folder.refusal(chart) == line + "\"S\", which another row has");
    chart.key[1].symbol.clear();
    CHECK(folder.refusal(chart) == line + "none");
    CHECK(folder.names().empty());
    chart.lines[0].key = 0; // the others may be as they like
    folder.write(chart);
    CHECK((readChart(folder.paths()) == named(chart, "c")));
}

TEST_CASE("what could not be read back is not written") {
    const Folder folder;
    Chart chart = small();
    SECTION("no cells") {
        chart.lines.clear();
        chart.grid = Grid();
        CHECK(folder.refusal(chart) ==
              "c.png: expected a chart of 1 to 2000 columns and 1 to 2000 rows, found 0 x 0");
    }
    SECTION("too many columns") {
        chart.grid = Grid(2001, 1);
        CHECK(folder.refusal(chart) ==
              "c.png: expected a chart of 1 to 2000 columns and 1 to 2000 rows, found 2001 x 1");
    }
    SECTION("no key") {
        chart.lines.clear();
        chart.grid = Grid(3, 3);
        chart.key.clear();
        CHECK(folder.refusal(chart) == "c.key.csv: expected a key of 1 to 300 rows, found 0");
    }
    SECTION("too long a key") {
        chart.key.resize(301);
        CHECK(folder.refusal(chart) == "c.key.csv: expected a key of 1 to 300 rows, found 301");
    }
    SECTION("too many lines") {
        chart.lines.resize(kMostLines + 1);
        CHECK(folder.refusal(chart) == "c.lines.csv: expected at most 100000 lines, found 100001");
    }
    CHECK(folder.names().empty());
}
