#pragma once

#include "base/input_error.h"

#include <QSqlDatabase>
#include <QSqlQuery>
#include <QString>
#include <QVariant>

#include <array>
#include <optional>
#include <span>
#include <type_traits>

class QSqlError;

namespace otherskein::workbox::detail {

/// What SQLite said, as a line for the user; `path` is the workbox.
[[nodiscard]] base::InputError sqlError(const QString& path, const QSqlError& error);
[[nodiscard]] base::InputError damaged(const QString& path, const QString& what);

/// One SQLite connection under a name of its own, gone with this object. Every statement must be
/// gone before it. Used only in the thread of execution that made it, as Qt demands.
class Connection {
  public:
    enum class Mode {
        ReadWrite,
        ReadOnly,  ///< may make a shared-memory file, never writes the workbox
        Immutable, ///< makes no file and takes no lock: only while nobody else has the file open
    };

    /// Errors: InputError. SQLite itself looks at the file only at the first statement.
    Connection(const QString& path, Mode mode);
    ~Connection();
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;

    [[nodiscard]] const QString& path() const { return m_path; }
    [[nodiscard]] QSqlDatabase database() const;

    /// Runs a statement whose rows, if any, do not matter. Errors: InputError.
    void run(const QString& sql) const;
    /// The first value of the first row; null when there is no row. Errors: InputError.
    [[nodiscard]] QVariant value(const QString& sql) const;

  private:
    QString m_path;
    QString m_name;
};

// A null QString would be bound as NULL, so that text columns need this.
inline QVariant toSql(const QString& text) {
    return text.isNull() ? QVariant(QString(QLatin1String(""))) : QVariant(text);
}
inline QVariant toSql(double value) {
    return value;
}
template <typename Whole>
requires std::is_integral_v<Whole> || std::is_enum_v<Whole> QVariant toSql(Whole value) {
    return static_cast<qint64>(value);
}
template <typename Value>
QVariant toSql(const std::optional<Value>& value) {
    return value ? toSql(*value) : QVariant();
}

/// A prepared statement, to be run any number of times. Errors of all members: InputError.
class Statement {
  public:
    Statement(const Connection& connection, const QString& sql);

    void runWith(std::span<const QVariant> values);
    template <typename... Values>
    void run(const Values&... values) {
        const std::array<QVariant, sizeof...(Values)> bound{toSql(values)...};
        runWith(bound);
    }

    [[nodiscard]] bool next();
    [[nodiscard]] QVariant value(int column) const { return m_query.value(column); }
    [[nodiscard]] QString text(int column) const { return m_query.value(column).toString(); }
    [[nodiscard]] double number(int column) const { return m_query.value(column).toDouble(); }
    [[nodiscard]] qint64 whole(int column) const { return m_query.value(column).toLongLong(); }
    [[nodiscard]] int changedRows() const { return m_query.numRowsAffected(); }
    [[nodiscard]] const QString& path() const { return m_path; }

  private:
    QString m_path;
    QSqlQuery m_query;
};

/// All or nothing: rolled back unless `commit` was reached.
class Transaction {
  public:
    enum class Kind {
        Read,  ///< one moment for several reads
        Write, ///< takes the writer's lock at once, so that waiting happens here and not midway
    };

    Transaction(const Connection& connection, Kind kind);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;

    void commit();

  private:
    const Connection& m_connection;
    bool m_open = true;
};

} // namespace otherskein::workbox::detail
