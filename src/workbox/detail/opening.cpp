#include "workbox/detail/opening.h"

#include "workbox/detail/migrations.h"
#include "workbox/store.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QtEndian>

namespace otherskein::workbox::detail {

namespace {

// quick_check reads every page. Beyond this size it would be felt at each start; `problems` still
// checks such a file when it is asked.
constexpr qint64 kMostBytesChecked = 64LL * 1024 * 1024;

base::InputError notAWorkbox(const QString& path, const QString& found) {
    return base::InputError({path, {}, {}, QStringLiteral("an Otherskein workbox"), found});
}

/// The file's first bytes, read with plain file calls, so that a stranger's file is not even opened
/// by SQLite. Layout: sqlite.org/fileformat2.html, section 1.3.
class Header {
  public:
    explicit Header(const QString& path) {
        QFile file(path);
        if (!file.open(QIODevice::ReadOnly)) {
            throw base::InputError(
                {path, {}, {}, QStringLiteral("a readable file"), file.errorString()});
        }
        m_bytes = file.read(kBytes);
    }

    [[nodiscard]] bool isSqlite() const {
        return m_bytes.size() == kBytes &&
               m_bytes.startsWith(QByteArrayLiteral("SQLite format 3\0"));
    }
    [[nodiscard]] quint32 applicationId() const { return at<quint32>(68); }
    /// Nothing where an old SQLite wrote the file and left its size open.
    [[nodiscard]] std::optional<qint64> fileSize() const {
        constexpr quint16 kStandsFor65536 = 1;
        const auto pageSize = at<quint16>(16);
        if (at<quint32>(24) != at<quint32>(92)) {
            return std::nullopt;
        }
        return qint64{at<quint32>(28)} * (pageSize == kStandsFor65536 ? 65536 : pageSize);
    }

  private:
    static constexpr qsizetype kBytes = 100;
    QByteArray m_bytes;

    template <typename Number>
    [[nodiscard]] Number at(qsizetype offset) const {
        return qFromBigEndian<Number>(m_bytes.constData() + offset);
    }
};

/// The workbox is made in rollback mode and only then turned to a write-ahead log, so the
/// application id stands in the file itself from the start.
void refuseStranger(const QString& path, const Header& header) {
    if (!header.isSqlite()) {
        throw notAWorkbox(path, QStringLiteral("a file of another kind"));
    }
    if (header.applicationId() != kApplicationId) {
        throw notAWorkbox(path, QStringLiteral("another program's SQLite file"));
    }
}

void refuseUnfit(const Connection& connection) {
    const QString& path = connection.path();
    const int version = schemaVersion(connection);
    if (version > Store::kSchemaVersion) {
        throw base::InputError({path,
                                {},
                                {},
                                QStringLiteral("a workbox of schema %1 or earlier (a newer "
                                               "Otherskein made this one)")
                                    .arg(Store::kSchemaVersion),
                                QStringLiteral("schema %1").arg(version)});
    }
    if (connection.value(QStringLiteral("PRAGMA application_id")).toLongLong() != kApplicationId ||
        version < 1) {
        throw notAWorkbox(path, QStringLiteral("an SQLite file that is none"));
    }
    if (QFileInfo(path).size() <= kMostBytesChecked) {
        const QString said = connection.value(QStringLiteral("PRAGMA quick_check(1)")).toString();
        if (said != QStringLiteral("ok")) {
            throw damaged(path, said);
        }
    }
}

/// True where a program died while it made the file: SQLite takes that back at the next opening.
bool isHalfMade(const QString& path) {
    return QFileInfo::exists(path + QStringLiteral("-journal"));
}

void refuseUnfitFile(const QString& path) {
    const Header header(path);
    refuseStranger(path, header);
    // A log beside the file holds its newest pages: from a program that has it open, or died.
    const bool hasLog = QFileInfo::exists(path + QStringLiteral("-wal"));
    // SQLite itself takes a last page that is cut short for one that ends in zeros.
    const std::optional<qint64> size = header.fileSize();
    if (!hasLog && size && QFileInfo(path).size() < *size) {
        throw damaged(path, QStringLiteral("it ends before its last page"));
    }
    const Connection look(path, hasLog ? Connection::Mode::ReadOnly : Connection::Mode::Immutable);
    refuseUnfit(look);
}

void makeFolder(const QFileInfo& info) {
    if (!QDir().mkpath(info.absolutePath())) {
        throw base::InputError({info.absolutePath(),
                                {},
                                {},
                                QStringLiteral("a folder that can be made"),
                                QStringLiteral("a place that cannot be written")});
    }
}

} // namespace

std::unique_ptr<Connection> openWorkbox(const QString& given) {
    // SQLite keeps its log beside the file that a link leads to, so that is where to look for it.
    const QString target = QFileInfo(given).canonicalFilePath();
    const QString& path = QFileInfo(given).isSymLink() && !target.isEmpty() ? target : given;
    const QFileInfo info(path);
    if (info.isDir()) {
        throw base::InputError(
            {path, {}, {}, QStringLiteral("a file"), QStringLiteral("a folder")});
    }
    const bool halfMade = isHalfMade(path);
    if (!info.exists()) {
        makeFolder(info);
    } else if (!info.isFile() || !info.isWritable()) {
        throw base::InputError({path,
                                {},
                                {},
                                QStringLiteral("a file that may be written"),
                                info.isFile() ? QStringLiteral("one that may only be read")
                                              : QStringLiteral("a device or a pipe")});
    } else if (info.size() > 0 && !halfMade) {
        refuseUnfitFile(path);
    }

    auto connection = std::make_unique<Connection>(path, Connection::Mode::ReadWrite);
    connection->run(QStringLiteral("PRAGMA foreign_keys = ON"));
    connection->run(QStringLiteral("PRAGMA synchronous = FULL"));
    if (halfMade && connection->value(QStringLiteral("PRAGMA page_count")).toInt() > 0) {
        refuseUnfit(*connection);
    }
    bringForward(*connection);
    connection->run(QStringLiteral("PRAGMA journal_mode = WAL"));
    return connection;
}

} // namespace otherskein::workbox::detail
