// The workbox survives being killed at any moment: nothing that was acknowledged is lost, nothing
// is there by half.

#include "workbox/old_workbox.h"
#include "workbox/random_edits.h"

#include <QElapsedTimer>
#include <QProcess>

#include <random>

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

constexpr quint64 kSeed = 20240811;

/// When to kill: after so many lines of output (about to open, open, then one an edit), and then a
/// little later, so that it falls anywhere inside what the program does next.
struct Moment {
    qsizetype lines = 1;
    qint64 furtherUs = 0;
};

struct Killed {
    bool opened = false;
    qsizetype acknowledged = 0; ///< edits
};

Killed editUntilKilled(const QString& path, quint64 seed, const Moment& moment) {
    constexpr int kLongestWaitMs = 20'000;
    QProcess process;
    process.start(QStringLiteral(EDIT_UNTIL_KILLED), {path, QString::number(seed)});
    REQUIRE(process.waitForStarted());
    QByteArray output;
    while (output.count('\n') < moment.lines && process.waitForReadyRead(kLongestWaitMs)) {
        output += process.readAllStandardOutput();
    }
    QElapsedTimer timer;
    timer.start();
    while (timer.nsecsElapsed() < 1000 * moment.furtherUs) {
    }
    process.kill();
    REQUIRE(process.waitForFinished());
    CAPTURE(process.readAllStandardError().toStdString());
    REQUIRE(process.exitStatus() == QProcess::CrashExit); // it did not end by itself
    output += process.readAllStandardOutput();
    const qsizetype lines = output.count('\n');
    REQUIRE(lines >= moment.lines);
    return {lines >= 2, std::max(lines - 2, qsizetype{0})};
}

/// Opens the killed program's workbox and holds it to `reference`, on which the acknowledged edits
/// are done again. One edit more may be in the file: saved, and killed before it was acknowledged.
void checkAfterKill(const QString& path, quint64 seed, const Killed& killed, Document& reference) {
    Store store(path);
    const std::vector<QString> problems = store.problems();
    CAPTURE(problems.empty() ? std::string() : problems.front().toStdString());
    REQUIRE(problems.empty());
    const Contents found = wholeContents(store);

    reference.undoStack().clear(); // as a program that was just started
    RandomEdits edits(reference, seed);
    for (qsizetype i = 0; i < killed.acknowledged; ++i) {
        edits.step();
    }
    bool same = found == reference.contents();
    if (!same && killed.opened) {
        edits.step();
        same = found == reference.contents();
    }
    REQUIRE(same);
}

} // namespace

TEST_CASE("a program killed at any moment leaves every acknowledged edit and no half one") {
    const Place place;
    const Place referencePlace(Place::inMemory());
    Document reference(referencePlace.path());
    std::mt19937_64 engine(kSeed);
    constexpr int kRounds = 64;
    for (int round = 0; round < kRounds; ++round) {
        // One time in eight while the file is opened after the last kill, else during the edits.
        const bool atOpening = round % 8 == 7;
        const Moment moment{atOpening ? 1 : static_cast<qsizetype>(2 + engine() % 40),
                            static_cast<qint64>(engine() % 8000)};
        const quint64 seed = engine();
        CAPTURE(kSeed, round, seed, moment.lines, moment.furtherUs);
        const Killed killed = editUntilKilled(place.path(), seed, moment);
        CAPTURE(killed.opened, killed.acknowledged);
        checkAfterKill(place.path(), seed, killed, reference);
    }
}

TEST_CASE("a program killed while it makes a workbox leaves one that opens") {
    const Place place;
    std::mt19937_64 engine(kSeed);
    constexpr int kRounds = 24;
    for (int round = 0; round < kRounds; ++round) {
        const QString path = place.path(QStringLiteral("%1.sqlite").arg(round));
        const Moment moment{1, static_cast<qint64>(engine() % 10'000)};
        const quint64 seed = engine();
        CAPTURE(kSeed, round, seed, moment.furtherUs);
        const Killed killed = editUntilKilled(path, seed, moment);
        CAPTURE(killed.opened, killed.acknowledged);
        const Place referencePlace(Place::inMemory());
        Document reference(referencePlace.path());
        checkAfterKill(path, seed, killed, reference);
    }
}

TEST_CASE("a program killed while it brings a workbox forward leaves the old or the new one") {
    const Place place;
    std::mt19937_64 engine(kSeed);
    constexpr int kRounds = 24;
    for (int round = 0; round < kRounds; ++round) {
        const QString path = place.path(QStringLiteral("%1.sqlite").arg(round));
        const int schema = 1 + round % 3;
        const Contents old = schema == 1   ? oldContents()
                             : schema == 2 ? oldContents2()
                                           : oldContents3();
        makeOldWorkbox(path, schema);
        const Moment moment{1, static_cast<qint64>(engine() % 15'000)};
        const quint64 seed = engine();
        CAPTURE(kSeed, round, seed, moment.furtherUs);
        const Killed killed = editUntilKilled(path, seed, moment);
        CAPTURE(killed.opened, killed.acknowledged);
        const Place referencePlace(Place::inMemory());
        makeOldWorkbox(referencePlace.path(), schema);
        Document reference(referencePlace.path());
        REQUIRE(reference.contents() == old);
        checkAfterKill(path, seed, killed, reference);
        CHECK(inFile(path + QStringLiteral(".v%1.bak").arg(schema)) == old);
    }
}
