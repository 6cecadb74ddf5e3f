#include "folder.h"

#include "thread/shade_card.h"

#include <QFile>
#include <QFileInfo>
#include <QJsonArray>
#include <QSqlDatabase>
#include <QSqlQuery>

using namespace otherskein;

namespace {

/// Commands on a workbox of their own.
struct OwnWorkbox {
    Folder folder;
    QString path = folder.path("box/own.sqlite");

    [[nodiscard]] Answer operator()(const QString& words) const {
        return ask(QStringLiteral("workbox %1 --workbox %2").arg(words, path));
    }
    void mustDo(const QString& words) const {
        const Answer answer = (*this)(words);
        CAPTURE(words.toStdString(), answer.err.toStdString());
        REQUIRE(answer.exitCode == 0);
    }
};

} // namespace

TEST_CASE("a card comes out of the workbox as it went in") {
    const OwnWorkbox box;
    const QString out = box.folder.path("out.csv");
    for (const char* name : {"lanternfold-cotton", "mossip-silk", "tarrow-wool"}) {
        CAPTURE(name);
        const QString file = demo(name) + QStringLiteral(".csv");
        box.mustDo(QStringLiteral("import ") + file);
        box.mustDo(QStringLiteral("export %1 --force --out %2").arg(QString::fromUtf8(name), out));
        thread::ShadeCard written = thread::readShadeCard(out);
        written.name = QString::fromUtf8(name); // a card is named after its file
        CHECK(written == thread::readShadeCard(file));
    }
}

TEST_CASE("a card of the workbox can be named like a file") {
    const OwnWorkbox box;
    box.mustDo(QStringLiteral("import ") + demo("lanternfold-cotton.csv"));
    const QString words = QStringLiteral("substitute --json --wanted %1:LF-218 --from %1 "
                                         "--workbox ") +
                          box.path;
    const Answer byName = ask(words.arg(QStringLiteral("lanternfold-cotton")));
    const Answer byFile = ask(words.arg(demo("lanternfold-cotton.csv")));
    CHECK(byName.exitCode == 0);
    CHECK(byName.out == byFile.out);
    CHECK(ask(words.arg(QStringLiteral("lanternfold-coton"))).err ==
          QStringLiteral("lanternfold-coton: expected a shade card file, or the name of a card in "
                         "the workbox, found neither (near it: lanternfold-cotton)\n"));
}

TEST_CASE("import takes all files or none") {
    const OwnWorkbox box;
    box.mustDo(QStringLiteral("import ") + demo("tarrow-wool.csv"));
    const Answer answer =
        box(QStringLiteral("import %1 %2").arg(demo("mossip-silk.csv"), demo("tarrow-wool.csv")));
    CHECK(answer.exitCode == 2);
    CHECK(answer.err ==
          demo("tarrow-wool.csv") + QStringLiteral(": expected a card that is not in the workbox "
                                                   "yet (or --update), found one of the same "
                                                   "name, \"tarrow-wool\"\n"));
    CHECK(box(QStringLiteral("list --json")).json()[QStringLiteral("cards")].toArray().size() == 1);
}

TEST_CASE("import with update changes what the file says and keeps the rest") {
    const OwnWorkbox box;
    box.mustDo(QStringLiteral("import ") + box.folder.write("a.csv", kSmallCard));
    box.mustDo(QStringLiteral("import --update ") +
               box.folder.write("a.csv", "code,name,srgb\nA-2,Sea fog,#000000\nA-5,New,#ffffff\n"));
    const QString out = box.folder.path("out.csv");
    box.mustDo(QStringLiteral("export a --out ") + out);
    const thread::ShadeCard card = thread::readShadeCard(out);
    REQUIRE(card.threads.size() == 5);
    CHECK(card.threads[1].name == QStringLiteral("Sea fog"));
    CHECK(card.threads[1].stash == 1.5);
    CHECK(card.threads[4].code == QStringLiteral("A-5"));
}

TEST_CASE("import refuses two files of one name and takes one file twice as one") {
    const OwnWorkbox box;
    const QString one = box.folder.write("one/a.csv", kSmallCard);
    const QString other = box.folder.write("other/a.csv", kSmallCard);
    const Answer answer = box(QStringLiteral("import %1 %2").arg(one, other));
    CHECK(answer.exitCode == 2);
    CHECK(answer.err ==
          other +
              QStringLiteral(": expected files of different names, found the name of %1 again\n")
                  .arg(one));
    CHECK_FALSE(QFileInfo::exists(box.path));
    box.mustDo(QStringLiteral("import %1 %1").arg(one));
}

TEST_CASE("export replaces a file only with force") {
    const OwnWorkbox box;
    box.mustDo(QStringLiteral("import ") + box.folder.write("a.csv", kSmallCard));
    const QString out = box.folder.write("out.csv", "mine");
    const Answer answer = box(QStringLiteral("export a --out ") + out);
    CHECK(answer.exitCode == 2);
    CHECK(answer.err ==
          out + QStringLiteral(": expected no file there yet (or --force), found one that "
                               "exists\n"));
    CHECK(Folder::read(out) == "mine");
    box.mustDo(QStringLiteral("export a --force --out ") + out);
    CHECK(thread::readShadeCard(out).threads.size() == 4);
}

TEST_CASE("export never replaces the workbox") {
    const OwnWorkbox box;
    box.mustDo(QStringLiteral("import ") + box.folder.write("a.csv", kSmallCard));
    const Answer answer = box(QStringLiteral("export a --force --out ") + box.path);
    CHECK(answer.exitCode == 2);
    CHECK(answer.err ==
          box.path + QStringLiteral(": expected another file than the workbox, found the "
                                    "workbox\n"));
    CHECK(box(QStringLiteral("check")).exitCode == 0);
}

TEST_CASE("export refuses a card that the workbox lacks and says what is like it") {
    const OwnWorkbox box;
    box.mustDo(QStringLiteral("import ") + box.folder.write("cotton.csv", kSmallCard));
    CHECK(box(QStringLiteral("export coton --out x.csv")).err ==
          QStringLiteral("otherskein workbox export: expected the name of a card in the workbox, "
                         "found \"coton\" (near it: cotton)\n"));
}

TEST_CASE("list shows the cards and what is owned of each") {
    const OwnWorkbox box;
    box.mustDo(QStringLiteral("import ") + box.folder.write("a.csv", kSmallCard));
    const QJsonObject json = box(QStringLiteral("list --json")).json();
    const QJsonObject card = json[QStringLiteral("cards")][0].toObject();
    CHECK(card[QStringLiteral("name")].toString() == QStringLiteral("a"));
    CHECK(card[QStringLiteral("threads")].toInt() == 4);
    CHECK(card[QStringLiteral("owned")].toInt() == 1);
    CHECK(card[QStringLiteral("skeins")].toDouble() == 1.5);
    CHECK(box(QStringLiteral("list")).out == QStringLiteral("Workbox: %1\n\n"
                                                            "Card  Threads  Owned  Skeins\n"
                                                            "a           4      1     1.5\n")
                                                 .arg(box.path));
}

TEST_CASE("looking at the usual workbox before there is one makes none") {
    const Folder folder;
    const Answer answer = ask(QStringLiteral("workbox list --json"));
    CHECK(answer.exitCode == 0);
    CHECK(answer.json()[QStringLiteral("cards")].toArray().isEmpty());
    CHECK(ask(QStringLiteral("workbox check")).exitCode == 2);
    CHECK(folder.contents().isEmpty());
}

TEST_CASE("check says that a workbox is sound") {
    const OwnWorkbox box;
    box.mustDo(QStringLiteral("import ") + box.folder.write("a.csv", kSmallCard));
    CHECK(box(QStringLiteral("check")).out == QStringLiteral("Sound: %1\n").arg(box.path));
    const QJsonObject json = box(QStringLiteral("check --json")).json();
    CHECK(json[QStringLiteral("sound")].toBool());
    CHECK(json[QStringLiteral("problems")].toArray().isEmpty());
}

TEST_CASE("check lists what is wrong and says so in the exit code") {
    const OwnWorkbox box;
    box.mustDo(QStringLiteral("import ") + box.folder.write("a.csv", kSmallCard));
    {
        QSqlDatabase file = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"));
        file.setDatabaseName(box.path);
        REQUIRE(file.open());
        REQUIRE(QSqlQuery(file).exec(QStringLiteral("UPDATE thread SET position = 0")));
        file.close();
    }
    QSqlDatabase::removeDatabase(QLatin1String(QSqlDatabase::defaultConnection));
    const Answer answer = box(QStringLiteral("check --json"));
    CHECK(answer.exitCode == 2);
    CHECK_FALSE(answer.json()[QStringLiteral("sound")].toBool(true));
    CHECK(answer.json()[QStringLiteral("problems")].toArray().size() == 1);
    CHECK(answer.err ==
          box.path + QStringLiteral(": expected a sound workbox, found problems: 1\n"));
}

TEST_CASE("a check of an empty file neither fills it nor calls it sound") {
    const Folder folder;
    const QString path = folder.path("empty.sqlite");
    {
        QFile file(path);
        REQUIRE(file.open(QIODevice::WriteOnly));
    }
    const Answer answer = ask(QStringLiteral("workbox check --workbox ") + path);
    CHECK(answer.exitCode == 2);
    CHECK(answer.err.contains(QStringLiteral("expected a workbox, found an empty file")));
    CHECK(QFileInfo(path).size() == 0);
}
