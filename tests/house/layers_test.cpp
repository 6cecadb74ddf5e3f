// The house rules that a compiler does not see: which folder may include which, and how large a
// file may grow.
#include <catch2/catch.hpp>

#include <QDirIterator>
#include <QFile>
#include <QMap>
#include <QRegularExpression>
#include <QSet>
#include <QString>

namespace {

const QString kSource = QStringLiteral(OTHERSKEIN_SOURCE_DIR "/src/");

QStringList sourceFiles() {
    QStringList files;
    QDirIterator walk(kSource, {QStringLiteral("*.h"), QStringLiteral("*.cpp")}, QDir::Files,
                      QDirIterator::Subdirectories);
    while (walk.hasNext()) {
        files.push_back(walk.next());
    }
    return files;
}

QString textOf(const QString& path) {
    QFile file(path);
    REQUIRE(file.open(QIODevice::ReadOnly));
    return QString::fromUtf8(file.readAll());
}

QSet<QString> allowedFrom(const QString& folder) {
    const QMap<QString, QString> arrows{
        {QStringLiteral("base"), QString()},
        {QStringLiteral("colour"), QStringLiteral("base")},
        {QStringLiteral("thread"), QStringLiteral("base colour")},
        {QStringLiteral("chart"), QStringLiteral("base colour thread")},
        {QStringLiteral("drawing"), QStringLiteral("base colour thread chart")},
        {QStringLiteral("trace"), QStringLiteral("base colour chart")},
        {QStringLiteral("colourway"), QStringLiteral("base colour thread chart")},
        {QStringLiteral("workbox"), QStringLiteral("base colour thread chart colourway")},
        {QStringLiteral("cli"), QStringLiteral("base colour thread chart colourway trace workbox")},
        {QStringLiteral("app"),
         QStringLiteral("base colour thread chart drawing colourway trace workbox cli")}};
    REQUIRE(arrows.contains(folder));
    const QStringList names = arrows[folder].split(QLatin1Char(' '), Qt::SkipEmptyParts);
    return QSet<QString>(names.begin(), names.end()) + QSet<QString>{folder};
}

} // namespace

TEST_CASE("every folder includes only what its arrows allow") {
    const QRegularExpression include(QStringLiteral("^#include \"([a-z]+)/"),
                                     QRegularExpression::MultilineOption);
    int seen = 0;
    for (const QString& path : sourceFiles()) {
        const QString folder = path.mid(kSource.size()).section(QLatin1Char('/'), 0, 0);
        const QSet<QString> allowed = allowedFrom(folder);
        auto found = include.globalMatch(textOf(path));
        while (found.hasNext()) {
            const QString included = found.next().captured(1);
            CAPTURE(path.toStdString(), included.toStdString());
            CHECK(allowed.contains(included));
            ++seen;
        }
    }
    CHECK(seen > 100);
}

TEST_CASE("no folder below the window knows a widget") {
    for (const QString& path : sourceFiles()) {
        if (!path.startsWith(kSource + QStringLiteral("app/"))) {
            CAPTURE(path.toStdString());
            CHECK_FALSE(textOf(path).contains(QStringLiteral("QWidget")));
        }
    }
}

TEST_CASE("no file grows past four hundred lines") {
    for (const QString& path : sourceFiles()) {
        CAPTURE(path.toStdString());
        CHECK(textOf(path).count(QLatin1Char('\n')) <= 400);
    }
}
