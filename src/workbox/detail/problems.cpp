#include "workbox/detail/problems.h"

#include "workbox/detail/chart_rows.h"
#include "workbox/detail/chart_rules.h"
#include "workbox/detail/migrations.h"
#include "workbox/detail/rows.h"
#include "workbox/detail/rules.h"

namespace otherskein::workbox::detail {

namespace {

using Problems = std::vector<QString>;

void checkFile(const Connection& connection, Problems& problems) {
    Statement integrity(connection, QStringLiteral("PRAGMA integrity_check"));
    integrity.run();
    while (integrity.next()) {
        if (integrity.text(0) != QStringLiteral("ok")) {
            problems.push_back(integrity.text(0));
        }
    }
    Statement keys(connection, QStringLiteral("PRAGMA foreign_key_check"));
    keys.run();
    while (keys.next()) {
        problems.push_back(QStringLiteral("row %1 of table %2 names a row of %3 that is not there")
                               .arg(keys.text(1), keys.text(0), keys.text(2)));
    }
    if (const int version = schemaVersion(connection); version != Store::kSchemaVersion) {
        problems.push_back(QStringLiteral("the schema is %1").arg(version));
    }
}

void checkOrder(const Connection& connection, Problems& problems) {
    Statement doubled(connection, QStringLiteral("SELECT card, position, count(*) FROM thread "
                                                 "GROUP BY card, position HAVING count(*) > 1"));
    doubled.run();
    while (doubled.next()) {
        problems.push_back(QStringLiteral("card %1 has %2 threads at position %3")
                               .arg(doubled.text(0), doubled.text(2), doubled.text(1)));
    }
}

void checkIds(const Connection& connection, Problems& problems) {
    for (const char* table : {"card", "thread", "ground", "chart", "colourway"}) {
        const QString sql =
            QStringLiteral("SELECT count(*) FROM %1 WHERE id > coalesce((SELECT seq FROM "
                           "sqlite_sequence WHERE name = '%1'), 0)")
                .arg(QLatin1String(table));
        if (connection.value(sql).toLongLong() > 0) {
            problems.push_back(
                QStringLiteral("an id of table %1 could be used again").arg(QLatin1String(table)));
        }
    }
    if (connection.value(QStringLiteral("SELECT count(*) FROM revision")).toInt() != 1) {
        problems.push_back(QStringLiteral("the count of edits is lost"));
    }
}

/// Reading checks words and lists; the rules check ranges and text.
void checkValues(const Connection& connection, Problems& problems) {
    const auto note = [&](const auto& check) {
        try {
            check();
        } catch (const base::InputError& error) {
            problems.push_back(error.line());
        }
    };
    for (const StoredCard& card : readCards(connection)) {
        note([&] { (void)checkedCardName(card.name); });
        for (const StoredThread& one : card.threads) {
            note([&] { (void)checkedThread(one.thread, card.name); });
        }
    }
    for (const StoredGround& one : readGrounds(connection)) {
        note([&] { (void)checkedGround(one.ground); });
    }
    for (const StoredChart& one : readCharts(connection)) {
        note([&] { // reading checks the rest
            if (checkedChartName(one.facts.name) != one.facts.name ||
                readChart(connection, one.facts.id).facts != one.facts) {
                problems.push_back(QStringLiteral("what is noted of the chart %1 is not so")
                                       .arg(base::quotedForMessage(one.facts.name)));
            }
        });
    }
    for (const StoredColourway& one : readColourways(connection)) {
        note([&] { checkColourway(one.name, one.content); });
    }
}

} // namespace

Problems findProblems(const Connection& connection) {
    Problems problems;
    try {
        const Transaction oneMoment(connection, Transaction::Kind::Read);
        checkFile(connection, problems);
        checkOrder(connection, problems);
        checkIds(connection, problems);
        checkValues(connection, problems);
    } catch (const base::InputError& error) {
        problems.push_back(error.line());
    }
    return problems;
}

} // namespace otherskein::workbox::detail
