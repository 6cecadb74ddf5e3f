#include "base/whole_file.h"

#include "base/input_error.h"

#include <catch2/catch.hpp>

#include <QDir>
#include <QFile>
#include <QTemporaryDir>

#ifdef Q_OS_UNIX
#include <csignal>
#include <sys/resource.h>
#endif

#include <string>

using namespace otherskein::base;

namespace {

/// An empty folder of its own for each test.
struct Folder {
    QTemporaryDir dir;

    [[nodiscard]] QString path(const char* name) const {
        return dir.filePath(QString::fromLatin1(name));
    }
    /// Hidden files too: a temporary that was left behind would be one.
    [[nodiscard]] QStringList names() const {
        return QDir(dir.path()).entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot);
    }
};

template <typename Action>
std::string refusal(const Action& action) {
    try {
        action();
    } catch (const InputError& error) {
        return error.what();
    }
    return "accepted";
}

QByteArray contents(const QString& path) {
    return readWholeFile(path, 1'000'000);
}

} // namespace

TEST_CASE("bytes come back as they were written") {
    const Folder folder;
    const QByteArray bytes("a\r\n\0\xff z", 7);
    writeWholeFile(folder.path("f"), bytes, Existing::Refuse);
    CHECK(contents(folder.path("f")) == bytes);
    CHECK(folder.names().size() == 1);
    writeWholeFile(folder.path("empty"), {}, Existing::Refuse);
    CHECK(contents(folder.path("empty")).isEmpty());
}

TEST_CASE("a file that exists is kept unless it may be replaced") {
    const Folder folder;
    const QString path = folder.path("f");
    writeWholeFile(path, "old", Existing::Refuse);
    CHECK(refusal([&] { writeWholeFile(path, "new", Existing::Refuse); }) ==
          path.toStdString() + ": expected no file there yet (or --force), found one that exists");
    CHECK(contents(path) == "old");
    writeWholeFile(path, "new", Existing::Replace);
    CHECK(contents(path) == "new");
    CHECK(folder.names().size() == 1);
}

TEST_CASE("replacing works where nothing stood before") {
    const Folder folder;
    writeWholeFile(folder.path("f"), "new", Existing::Replace);
    CHECK(contents(folder.path("f")) == "new");
}

TEST_CASE("a shorter file leaves no tail of a longer one") {
    const Folder folder;
    writeWholeFile(folder.path("f"), QByteArray(10'000, 'x'), Existing::Refuse);
    writeWholeFile(folder.path("f"), "y", Existing::Replace);
    CHECK(contents(folder.path("f")) == "y");
}

TEST_CASE("a place that cannot be written is refused and nothing is left") {
    const Folder folder;
    writeWholeFile(folder.path("file"), "kept", Existing::Refuse);
    REQUIRE(QDir(folder.dir.path()).mkdir(QStringLiteral("folder")));
    for (const char* name : {"missing/f", "file/f", "folder"}) {
        CAPTURE(name);
        const QString path = folder.path(name);
        const std::string said = refusal([&] { writeWholeFile(path, "new", Existing::Replace); });
        CHECK_THAT(said, Catch::Matchers::StartsWith(path.toStdString() +
                                                     ": expected a place to write, found "));
        CHECK(folder.names().size() == 2);
        CHECK(contents(folder.path("file")) == "kept");
        CHECK(QDir(folder.path("folder")).isEmpty());
    }
}

#ifdef Q_OS_UNIX
TEST_CASE("a disk that fills up leaves the old file whole") {
    const Folder folder;
    const QString path = folder.path("f");
    writeWholeFile(path, "old", Existing::Refuse);

    // A limit on the size of files fails a write half way, as a full disk does.
    rlimit before{};
    REQUIRE(getrlimit(RLIMIT_FSIZE, &before) == 0);
    const auto signalBefore = std::signal(SIGXFSZ, SIG_IGN);
    rlimit small = before;
    small.rlim_cur = 50'000;
    REQUIRE(setrlimit(RLIMIT_FSIZE, &small) == 0);
    const std::string said =
        refusal([&] { writeWholeFile(path, QByteArray(200'000, 'x'), Existing::Replace); });
    REQUIRE(setrlimit(RLIMIT_FSIZE, &before) == 0);
    std::signal(SIGXFSZ, signalBefore);

    CHECK_THAT(said, Catch::Matchers::StartsWith(path.toStdString() +
                                                 ": expected a place to write, found "));
    CHECK(contents(path) == "old");
    CHECK(folder.names().size() == 1);
}

TEST_CASE("a source without a size is cut off at the limit") {
    CHECK(refusal([] { (void)readWholeFile(QStringLiteral("/dev/zero"), 1000); }) ==
          "/dev/zero: expected a file of at most 1000 bytes, found 1001 bytes");
}
#endif

TEST_CASE("what is no file cannot be read") {
    const Folder folder;
    const QString missing = folder.path("missing");
    CHECK(refusal([&] { (void)readWholeFile(missing, 10); }) ==
          missing.toStdString() + ": expected a file, found none there");
    CHECK(refusal([&] { (void)readWholeFile(folder.dir.path(), 10); }) ==
          folder.dir.path().toStdString() + ": expected a file, found a folder");
}

TEST_CASE("a file up to the limit is read and a larger one refused") {
    const Folder folder;
    const QString path = folder.path("f");
    writeWholeFile(path, "1234567890", Existing::Refuse);
    CHECK(readWholeFile(path, 10) == "1234567890");
    CHECK(refusal([&] { (void)readWholeFile(path, 9); }) ==
          path.toStdString() + ": expected a file of at most 9 bytes, found 10 bytes");
}
