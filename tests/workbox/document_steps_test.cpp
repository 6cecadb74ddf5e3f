// The undo history itself: merging, steps that come to nothing, failures, its bound.

#include "workbox/document.h"

#include "workbox/samples.h"

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

/// A workbox with one card of three threads and an empty history.
struct StepsBench {
    Place place;
    Document document{place.path()};
    CardId card = document.addCard(numberedCard(QStringLiteral("Harbour"), 3));

    StepsBench() { document.undoStack().clear(); }

    [[nodiscard]] ThreadId id(std::size_t at) const {
        return document.card(card)->threads.at(at).id;
    }
    void setStash(std::size_t at, double stash, const QString& mergeKey = {}) {
        thread::Thread after = document.card(card)->threads.at(at).thread;
        after.stash = stash;
        document.changeThreads(card, {{id(at), after}}, QStringLiteral("Stash"), mergeKey);
    }
    [[nodiscard]] double stash(std::size_t at) const {
        return document.card(card)->threads.at(at).thread.stash;
    }
    [[nodiscard]] int steps() { return document.undoStack().count(); }
};

const QString kKey = QStringLiteral("stash of the first");
const QString kFailure = QStringLiteral("CREATE TRIGGER failure BEFORE UPDATE ON thread BEGIN "
                                        "SELECT raise(ABORT, 'the disk is on fire'); END");
const QString kMended = QStringLiteral("DROP TRIGGER failure");

} // namespace

TEST_CASE("changes with one merge key become one step") {
    StepsBench bench;
    for (int i = 1; i <= 5; ++i) {
        bench.setStash(0, i, kKey);
    }
    CHECK(bench.steps() == 1);
    CHECK(inFile(bench.place.path()) == bench.document.contents());
    bench.document.undoStack().undo();
    CHECK(bench.stash(0) == 0);
    CHECK(inFile(bench.place.path()) == bench.document.contents());
    bench.document.undoStack().redo();
    CHECK(bench.stash(0) == 5);
    CHECK(inFile(bench.place.path()) == bench.document.contents());
}

TEST_CASE("changes with different keys or none or about other threads stay steps") {
    StepsBench bench;
    bench.setStash(0, 1, kKey);
    bench.setStash(0, 2, QStringLiteral("another"));
    bench.setStash(0, 3);
    bench.setStash(0, 4);
    CHECK(bench.steps() == 4);
    bench.setStash(0, 5, kKey);
    bench.setStash(1, 6, kKey);
    CHECK(bench.steps() == 6);
}

TEST_CASE("merged changes that lead back to the start leave no step") {
    StepsBench bench;
    const Contents before = bench.document.contents();
    bench.setStash(0, 1, kKey);
    bench.setStash(0, 0, kKey);
    CHECK(bench.steps() == 0);
    CHECK(bench.document.contents() == before);
    CHECK(inFile(bench.place.path()) == before);
}

TEST_CASE("an edit that comes to nothing makes no step") {
    StepsBench bench;
    bench.setStash(0, 0);
    bench.document.changeThreads(bench.card, {}, QStringLiteral("Nothing"));
    bench.document.removeThreads(bench.card, {});
    bench.document.renameCard(bench.card, QStringLiteral(" Harbour "));
    bench.document.mergeCard(bench.card, bench.document.shadeCard(bench.card));
    bench.document.addAll({}, {}, QStringLiteral("Nothing"));
    CHECK(bench.steps() == 0);
}

TEST_CASE("an edit that cannot be saved changes nothing and throws") {
    StepsBench bench;
    bench.setStash(0, 1);
    const Contents before = bench.document.contents();
    runSql(bench.place.path(), {kFailure});
    CHECK_THAT(refusalOf([&] { bench.setStash(0, 2); }), Catch::Contains("the disk is on fire"));
    CHECK(bench.document.contents() == before);
    CHECK(inFile(bench.place.path()) == before);
    CHECK(bench.steps() == 1);
    runSql(bench.place.path(), {kMended});
    bench.setStash(0, 2);
    CHECK(bench.stash(0) == 2);
}

TEST_CASE("an undo or redo that cannot be saved is dropped and says so") {
    StepsBench bench;
    bench.setStash(0, 1);
    bench.setStash(1, 2);
    const bool redo = GENERATE(false, true);
    if (redo) {
        bench.document.undoStack().undo();
    }
    const Contents before = bench.document.contents();
    std::vector<QString> lines;
    int changes = 0;
    QObject::connect(&bench.document, &Document::saveFailed,
                     [&](const QString& line) { lines.push_back(line); });
    QObject::connect(&bench.document, &Document::threadsChanged, [&] { ++changes; });
    runSql(bench.place.path(), {kFailure});
    if (redo) {
        bench.document.undoStack().redo();
    } else {
        bench.document.undoStack().undo();
    }
    REQUIRE(lines.size() == 1);
    CHECK_THAT(lines[0].toStdString(), Catch::Contains("the disk is on fire"));
    CHECK(changes == 0);
    CHECK(bench.document.contents() == before);
    CHECK(inFile(bench.place.path()) == before);
    CHECK(bench.steps() == 1);
    runSql(bench.place.path(), {kMended});
    bench.document.undoStack().undo();
    CHECK(bench.stash(0) == 0);
    CHECK(lines.size() == 1);
}

TEST_CASE("a step that no longer starts from what is there is dropped") {
    StepsBench bench;
    bench.setStash(0, 1);
    bench.setStash(0, 2);
    int failures = 0;
    QObject::connect(&bench.document, &Document::saveFailed, [&] { ++failures; });
    runSql(bench.place.path(), {kFailure});
    bench.document.undoStack().undo(); // of 1 to 2: fails and is dropped
    runSql(bench.place.path(), {kMended});
    bench.document.undoStack().undo(); // of 0 to 1, but it is 2
    CHECK(failures == 2);
    CHECK(bench.stash(0) == 2);
    CHECK(inFile(bench.place.path()) == bench.document.contents());
    CHECK(bench.steps() == 0);
}

TEST_CASE("a document sees the edits of another only when it reads again") {
    StepsBench bench;
    Document other(bench.place.path());
    bench.setStash(0, 1);
    CHECK(other.store().changedElsewhere());
    CHECK_THAT(refusalOf([&] { other.addGround(linen()); }),
               Catch::Contains("another program has changed"));
    CHECK(other.grounds().empty());
    int signalCount = 0;
    QObject::connect(&other, &Document::threadsChanged, [&] { ++signalCount; });
    other.reload();
    CHECK(signalCount == 1);
    CHECK(other.contents() == bench.document.contents());
    other.addGround(linen());
    CHECK(inFile(bench.place.path()) == other.contents());
}

TEST_CASE("the oldest steps are forgotten when the history grows too large") {
    StepsBench bench;
    thread::Thread large = plainThread(QStringLiteral("1"));
    int made = 0;
    // 8 million characters are 16 MiB, before and after: the bound is passed soon.
    for (; made < 12; ++made) {
        large.note = QString(8'000'000, QChar(u'a' + made));
        bench.document.changeThreads(bench.card, {{bench.id(0), large}}, QStringLiteral("Note"));
    }
    CHECK(bench.steps() < made);
    CHECK(bench.steps() >= 3);
    CHECK(bench.document.undoStack().index() == bench.steps());
    const int steps = bench.steps();
    for (int i = 1; i <= steps; ++i) {
        bench.document.undoStack().undo();
        CHECK(bench.document.card(bench.card)->threads[0].thread.note.front() ==
              QChar(u'a' + made - 1 - i));
    }
    CHECK_FALSE(bench.document.undoStack().canUndo());
    bench.document.undoStack().redo();
    CHECK(inFile(bench.place.path()) == bench.document.contents());
}
