#include "workbox/store.h"

#include "workbox/detail/chart_rows.h"
#include "workbox/detail/opening.h"
#include "workbox/detail/problems.h"
#include "workbox/detail/rows.h"
#include "workbox/detail/saving.h"

#include <QDir>
#include <QFileInfo>
#include <QStandardPaths>

namespace otherskein::workbox {

using detail::Statement;
using detail::Transaction;

struct Store::Private {
    std::unique_ptr<detail::Connection> connection;
    qint64 revision = 0; ///< of the contents that the caller knows

    /// The next id of each table, where it runs ahead of the file: ids given out and not yet added.
    qint64 nextCard = 1;
    qint64 nextThread = 1;
    qint64 nextGround = 1;
    qint64 nextChart = 1;
    qint64 nextColourway = 1;

    [[nodiscard]] qint64 revisionInFile() const {
        return connection->value(QStringLiteral("SELECT edits FROM revision")).toLongLong();
    }

    qint64 takeIds(const char* table, qint64& next, std::size_t count) const {
        Statement last(*connection,
                       QStringLiteral("SELECT seq FROM sqlite_sequence WHERE name = ?"));
        last.run(QString::fromLatin1(table));
        if (last.next()) {
            next = std::max(next, last.whole(0) + 1);
        }
        const qint64 first = next;
        next += static_cast<qint64>(count);
        return first;
    }
};

Store::Store(const QString& path) : m_private(std::make_unique<Private>()) {
    m_private->connection = detail::openWorkbox(path);
    m_private->revision = m_private->revisionInFile();
}

Store::~Store() = default;

const QString& Store::path() const {
    return m_private->connection->path();
}

Contents Store::load() {
    const Transaction oneMoment(*m_private->connection, Transaction::Kind::Read);
    const qint64 revision = m_private->revisionInFile();
    Contents contents{cards(), grounds(), detail::readCharts(*m_private->connection),
                      detail::readColourways(*m_private->connection)};
    m_private->revision = revision;
    return contents;
}

std::vector<StoredCard> Store::cards() const {
    return detail::readCards(*m_private->connection);
}

std::vector<StoredGround> Store::grounds() const {
    return detail::readGrounds(*m_private->connection);
}

bool Store::changedElsewhere() const {
    return m_private->revisionInFile() != m_private->revision;
}

CardId Store::nextCardId(std::size_t count) {
    return CardId{m_private->takeIds("card", m_private->nextCard, count)};
}

ThreadId Store::nextThreadId(std::size_t count) {
    return ThreadId{m_private->takeIds("thread", m_private->nextThread, count)};
}

GroundId Store::nextGroundId(std::size_t count) {
    return GroundId{m_private->takeIds("ground", m_private->nextGround, count)};
}

ChartId Store::nextChartId(std::size_t count) {
    return ChartId{m_private->takeIds("chart", m_private->nextChart, count)};
}

ColourwayId Store::nextColourwayId(std::size_t count) {
    return ColourwayId{m_private->takeIds("colourway", m_private->nextColourway, count)};
}

StoredChart Store::chart(ChartId id) const {
    return detail::readChart(*m_private->connection, id);
}

void Store::apply(const Edit& edit) {
    if (edit.isEmpty()) {
        return;
    }
    if (!QFileInfo::exists(path())) { // SQLite would go on writing into the deleted file
        throw base::InputError({path(),
                                {},
                                {},
                                QStringLiteral("the workbox where it was opened (put it back)"),
                                QStringLiteral("no file there")});
    }
    const detail::Connection& connection = *m_private->connection;
    Transaction transaction(connection, Transaction::Kind::Write);
    Statement count(connection, QStringLiteral("UPDATE revision SET edits = edits + 1 "
                                               "WHERE edits = ?"));
    count.run(m_private->revision);
    if (count.changedRows() != 1) {
        throw base::InputError({path(),
                                {},
                                {},
                                QStringLiteral("the workbox as it was read (open it again)"),
                                QStringLiteral("one that another program has changed since")});
    }
    detail::write(connection, edit);
    transaction.commit();
    ++m_private->revision;
}

QString Store::setting(const QString& name) const {
    Statement row(*m_private->connection,
                  QStringLiteral("SELECT value FROM setting WHERE name = ?"));
    row.run(name);
    return row.next() ? row.text(0) : QString();
}

void Store::setSetting(const QString& name, const QString& value) {
    Statement(*m_private->connection,
              QStringLiteral("INSERT INTO setting (name, value) VALUES (?, ?) "
                             "ON CONFLICT (name) DO UPDATE SET value = excluded.value"))
        .run(name, value);
}

std::vector<QString> Store::problems() const {
    return detail::findProblems(*m_private->connection);
}

QString defaultWorkboxPath() {
    // Not AppDataLocation, which hangs on the application's name: window, command line and tests
    // are to mean the same file.
    return QDir(QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation))
        .filePath(QStringLiteral("otherskein/workbox.sqlite"));
}

} // namespace otherskein::workbox
