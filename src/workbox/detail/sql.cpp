#include "workbox/detail/sql.h"

#include <QSqlError>
#include <QUrl>

#include <atomic>

namespace otherskein::workbox::detail {

namespace {

// SQLite's primary result codes (sqlite3.h), which Qt hands on as text.
enum ResultCode {
    Permission = 3,
    Busy = 5,
    Locked = 6,
    ReadOnlyFile = 8,
    InputOutput = 10,
    Corrupt = 11,
    Full = 13,
    CannotOpen = 14,
    Constraint = 19,
    NotADatabase = 26,
};

constexpr int kBusyTimeoutMs = 3000;

QString options(Connection::Mode mode) {
    QString text = QStringLiteral("QSQLITE_BUSY_TIMEOUT=%1").arg(kBusyTimeoutMs);
    if (mode != Connection::Mode::ReadWrite) {
        text += QStringLiteral(";QSQLITE_OPEN_READONLY");
    }
    if (mode == Connection::Mode::Immutable) {
        text += QStringLiteral(";QSQLITE_OPEN_URI");
    }
    return text;
}

QString databaseName(const QString& path, Connection::Mode mode) {
    if (mode != Connection::Mode::Immutable) {
        return path;
    }
    // fromLocalFile escapes what has a meaning in a URI: % ? #
    return QString::fromLatin1(QUrl::fromLocalFile(path).toEncoded(QUrl::FullyEncoded)) +
           QStringLiteral("?immutable=1");
}

} // namespace

base::InputError damaged(const QString& path, const QString& what) {
    return base::InputError({path,
                             {},
                             {},
                             QStringLiteral("a sound workbox (go back to a copy of it)"),
                             QStringLiteral("a damaged file: ") + what});
}

base::InputError sqlError(const QString& path, const QSqlError& error) {
    constexpr int kPrimary = 0xff; // an extended code keeps its primary one in the low byte
    const QString said = error.databaseText().isEmpty() ? error.text() : error.databaseText();
    const auto problem = [&](const QString& expected, const QString& found) {
        return base::InputError({path, {}, {}, expected, found});
    };
    switch (error.nativeErrorCode().toInt() & kPrimary) {
    case Busy:
    case Locked:
        return problem(
            QStringLiteral("a workbox that no other program is writing (wait and try again)"),
            QStringLiteral("one that is in use"));
    case Permission:
    case ReadOnlyFile:
    case CannotOpen:
        return problem(QStringLiteral("a file and folder that may be written"), said);
    case InputOutput:
        return problem(QStringLiteral("a disk that can be read and written"), said);
    case Full:
        return problem(QStringLiteral("room on the disk"), QStringLiteral("a full disk"));
    case Corrupt:
    case NotADatabase:
        return damaged(path, said);
    case Constraint:
        return problem(QStringLiteral("values that keep the workbox's rules"), said);
    default:
        return problem(QStringLiteral("a readable workbox"), said);
    }
}

Connection::Connection(const QString& path, Mode mode) : m_path(path) {
    static std::atomic<unsigned> number = 0;
    m_name = QStringLiteral("otherskein-workbox-%1").arg(++number);
    std::optional<base::InputError> problem;
    {
        // This handle must be gone before the connection is removed, or Qt warns.
        QSqlDatabase database = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), m_name);
        database.setDatabaseName(databaseName(path, mode));
        database.setConnectOptions(options(mode));
        if (!database.isValid()) {
            problem.emplace(base::InputProblem{path,
                                               {},
                                               {},
                                               QStringLiteral("Qt's SQLite driver"),
                                               QStringLiteral("none installed")});
        } else if (!database.open()) {
            problem.emplace(sqlError(path, database.lastError()));
        }
    }
    if (problem) {
        QSqlDatabase::removeDatabase(m_name);
        throw *problem;
    }
}

Connection::~Connection() {
    QSqlDatabase::removeDatabase(m_name);
}

QSqlDatabase Connection::database() const {
    return QSqlDatabase::database(m_name, false);
}

void Connection::run(const QString& sql) const {
    Statement(*this, sql).run();
}

QVariant Connection::value(const QString& sql) const {
    Statement statement(*this, sql);
    statement.run();
    return statement.next() ? statement.value(0) : QVariant();
}

Statement::Statement(const Connection& connection, const QString& sql)
    : m_path(connection.path()), m_query(connection.database()) {
    m_query.setForwardOnly(true); // or Qt keeps every row that was read
    if (!m_query.prepare(sql)) {
        throw sqlError(m_path, m_query.lastError());
    }
}

void Statement::runWith(std::span<const QVariant> values) {
    int position = 0;
    for (const QVariant& value : values) {
        m_query.bindValue(position++, value);
    }
    if (!m_query.exec()) {
        throw sqlError(m_path, m_query.lastError());
    }
}

bool Statement::next() {
    if (m_query.next()) {
        return true;
    }
    if (m_query.lastError().isValid()) {
        throw sqlError(m_path, m_query.lastError());
    }
    return false;
}

Transaction::Transaction(const Connection& connection, Kind kind) : m_connection(connection) {
    m_connection.run(kind == Kind::Write ? QStringLiteral("BEGIN IMMEDIATE")
                                         : QStringLiteral("BEGIN"));
}

Transaction::~Transaction() {
    if (m_open) {
        // The error that brought us here is already on its way up. Should this fail, SQLite has
        // rolled back by itself, or will when the connection closes.
        QSqlQuery(m_connection.database()).exec(QStringLiteral("ROLLBACK"));
    }
}

void Transaction::commit() {
    m_connection.run(QStringLiteral("COMMIT"));
    m_open = false;
}

} // namespace otherskein::workbox::detail
