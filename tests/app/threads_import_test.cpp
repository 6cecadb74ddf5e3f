#include "app/threads_fixture.h"

#include "app/threads/import_report.h"

#include <catch2/catch.hpp>

#include <QFile>

using namespace otherskein;
using tests::OpenThreads;

namespace {

QString fileOf(const OpenThreads& open, const char* name, const QByteArray& bytes) {
    const QString path = open.folder.filePath(QString::fromLatin1(name));
    QFile file(path);
    REQUIRE(file.open(QIODevice::WriteOnly));
    file.write(bytes);
    return path;
}

const QByteArray kGood =
    "code,name,srgb,shelf\r\nQ-1,Quay,#777777,left\r\nQ-2,Rope,#c0b090,left\r\n";
const QByteArray kBad = "code,name,srgb\r\nB-1,Bad,#12345\r\n";

} // namespace

TEST_CASE("a refused file does not keep the others out") {
    OpenThreads open;
    QSignalSpy refused(open.place.get(), &app::ThreadsPlace::refused);
    const QString bad = fileOf(open, "bad.csv", kBad);
    open.place->importFiles({bad, fileOf(open, "quay.csv", kGood)});
    REQUIRE(open.document.cardNamed(QStringLiteral("quay")) != nullptr);
    CHECK(open.document.cardNamed(QStringLiteral("quay"))->threads.size() == 2);
    CHECK(open.document.cards().size() == 3);
    const QString line =
        bad + QStringLiteral(":2: column srgb: expected #rrggbb, found \"#12345\"");
    REQUIRE(refused.count() == 1);
    CHECK(refused.front().front().toString() == line);
    const QString report = open.place->findChild<app::ImportReport*>()->text();
    CHECK(report.contains(line));
    CHECK(report.contains(QStringLiteral("quay.csv: 2 threads read.")));
    CHECK(report.contains(QStringLiteral("Columns of its own, kept: shelf.")));
}

TEST_CASE("an import that went well is told in one line and can be undone") {
    OpenThreads open;
    QSignalSpy told(open.place.get(), &app::ThreadsPlace::told);
    open.place->importFiles({fileOf(open, "quay.csv", kGood)});
    REQUIRE(told.count() == 1);
    CHECK(told.front().front().toString() == QStringLiteral("1 card read, 2 threads."));
    CHECK(open.codes().size() == 2); // the new card is shown
    open.document.undoStack().undo();
    CHECK(open.document.cards().size() == 2);
    CHECK(open.codes().size() == 6);
}

TEST_CASE("a file of a card that is there is merged or added or left out as the user says") {
    OpenThreads open;
    const QString path = fileOf(open, "harbour.csv",
                                "code,name,srgb\r\nH-2,Red rust,#a04020\r\nH-30,New,#111111\r\n");
    open.place->setSameName(app::SameName::Skip);
    open.place->importFiles({path});
    CHECK(open.document.cards().size() == 2);
    CHECK(open.stored("H-2").name == QStringLiteral("Rust"));

    open.place->setSameName(app::SameName::BringUpToDate);
    open.place->importFiles({path});
    CHECK(open.document.cards().size() == 2);
    CHECK(open.stored("H-2").name == QStringLiteral("Red rust"));
    CHECK(open.stored("H-30").name == QStringLiteral("New"));
    CHECK(open.stored("H-10").stash == 1.5);

    open.place->setSameName(app::SameName::AddAsNew);
    open.place->importFiles({path});
    CHECK(open.document.cards().size() == 3);
    CHECK(open.document.cardNamed(QStringLiteral("harbour (2)")) != nullptr);
}

TEST_CASE("a card that is exported and imported is the same card") {
    OpenThreads open;
    const QString path = open.folder.filePath(QStringLiteral("moor.csv"));
    app::exportCard(open.document, open.moor, path);
    CHECK(thread::readShadeCard(path).threads == open.document.shadeCard(open.moor).threads);
}
