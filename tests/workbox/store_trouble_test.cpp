// The disk in trouble, as far as a test can bring it about.

#include "workbox/document.h"

#include "workbox/samples.h"

#ifdef Q_OS_UNIX
#include <csignal>
#include <sys/resource.h>
#endif

using namespace otherskein;
using namespace otherskein::workbox;

TEST_CASE("a workbox that was deleted while it was open is not written into nowhere") {
    const Place place;
    Document document(place.path());
    document.addGround(linen());
    REQUIRE(QFile::rename(place.path(), place.path(QStringLiteral("elsewhere"))));
    CHECK_THAT(refusalOf([&] { document.addGround(linen()); }),
               Catch::Contains("found no file there"));
    CHECK(document.grounds().size() == 1);
    REQUIRE(QFile::rename(place.path(QStringLiteral("elsewhere")), place.path()));
    document.addGround(linen());
    CHECK(inFile(place.path()) == document.contents());
}

#ifdef Q_OS_UNIX
namespace {

/// While it lives, no file of this process may grow beyond `most` bytes.
class FileSizeLimit {
  public:
    explicit FileSizeLimit(rlim_t most) {
        REQUIRE(getrlimit(RLIMIT_FSIZE, &m_before) == 0);
        m_handler = std::signal(SIGXFSZ, SIG_IGN); // so that the write fails instead
        const rlimit limited{most, m_before.rlim_max};
        REQUIRE(setrlimit(RLIMIT_FSIZE, &limited) == 0);
    }
    ~FileSizeLimit() {
        setrlimit(RLIMIT_FSIZE, &m_before);
        std::signal(SIGXFSZ, m_handler);
    }
    FileSizeLimit(const FileSizeLimit&) = delete;
    FileSizeLimit& operator=(const FileSizeLimit&) = delete;

  private:
    rlimit m_before{};
    void (*m_handler)(int) = nullptr;
};

} // namespace

TEST_CASE("when the file can grow no more an edit fails whole and the next one works") {
    const Place place;
    Document document(place.path());
    document.addCard(numberedCard(QStringLiteral("Harbour"), 10));
    const Contents before = document.contents();
    std::string line;
    {
        const FileSizeLimit limit(64 * 1024);
        line = refusalOf([&] { document.addCard(numberedCard(QStringLiteral("Quay"), 5000)); });
    }
    CHECK_THAT(line, Catch::Contains("disk"));
    CHECK(document.contents() == before);
    CHECK(document.undoStack().count() == 1);
    CHECK(inFile(place.path()) == before);
    CHECK(document.store().problems().empty());

    document.addCard(numberedCard(QStringLiteral("Quay"), 5000));
    CHECK(inFile(place.path()) == document.contents());
}
#endif
