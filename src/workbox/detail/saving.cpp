#include "workbox/detail/saving.h"

#include "workbox/detail/chart_rows.h"
#include "workbox/detail/rows.h"
#include "workbox/detail/thread_order.h"

#include <algorithm>
#include <map>

namespace otherskein::workbox::detail {

namespace {

template <std::size_t N, typename... Ids>
std::vector<QVariant> joined(const std::array<QVariant, N>& values, Ids... ids) {
    std::vector<QVariant> all(values.begin(), values.end());
    (all.push_back(toSql(ids)), ...);
    return all;
}

/// "code = ?, name = ?" from "code, name".
QString assignments(const char* columns) {
    return QString::fromLatin1(columns).replace(QLatin1Char(','), QStringLiteral(" = ?,")) +
           QStringLiteral(" = ?");
}

QString placeholders(int count) {
    return QStringLiteral("?, ").repeated(count - 1) + QLatin1Char('?');
}

class ThreadInserter {
  public:
    explicit ThreadInserter(const Connection& connection)
        : m_insert(connection,
                   QStringLiteral("INSERT INTO thread (%1, id, card, position) VALUES (%2)")
                       .arg(QLatin1String(kThreadColumns), placeholders(kThreadColumnCount + 3))) {}

    void insert(ThreadId id, CardId card, qint64 position, const thread::Thread& thread) {
        m_insert.runWith(joined(threadValues(thread), id, card, position));
    }

  private:
    Statement m_insert;
};

void deleteRows(const Connection& connection, const Edit& edit) {
    Statement thread(connection, QStringLiteral("DELETE FROM thread WHERE id = ? AND card = ?"));
    for (const ThreadChange& change : edit.threads) {
        if (!change.after) {
            thread.run(change.id, change.card);
            expectOne(thread, "thread");
        }
    }
    Statement card(connection, QStringLiteral("DELETE FROM card WHERE id = ?")); // and its threads
    for (const CardChange& change : edit.cards) {
        if (!change.after) {
            card.run(change.before->id);
            expectOne(card, "shade card");
        }
    }
    Statement ground(connection, QStringLiteral("DELETE FROM ground WHERE id = ?"));
    for (const GroundChange& change : edit.grounds) {
        if (!change.after) {
            ground.run(change.id);
            expectOne(ground, "ground");
        }
    }
}

/// Codes and names are unique at every moment, so two that swap would collide midway. All that will
/// get a new one first get a passing one, which no label has: a control character and the id.
void freeNames(const Connection& connection, const Edit& edit) {
    Statement code(connection,
                   QStringLiteral("UPDATE thread SET code = char(1) || id WHERE id = ?"));
    for (const ThreadChange& change : edit.threads) {
        if (change.before && change.after && change.before->code != change.after->code) {
            code.run(change.id);
        }
    }
    Statement name(connection, QStringLiteral("UPDATE card SET name = char(1) || id WHERE id = ?"));
    for (const CardChange& change : edit.cards) {
        if (change.before && change.after && change.before->name != change.after->name) {
            name.run(change.after->id);
        }
    }
}

void changeRows(const Connection& connection, const Edit& edit) {
    Statement thread(connection, QStringLiteral("UPDATE thread SET %1 WHERE id = ? AND card = ?")
                                     .arg(assignments(kThreadColumns)));
    for (const ThreadChange& change : edit.threads) {
        if (change.before && change.after) {
            thread.runWith(joined(threadValues(*change.after), change.id, change.card));
            expectOne(thread, "thread");
        }
    }
    Statement card(connection,
                   QStringLiteral("UPDATE card SET name = ?, columns = ? WHERE id = ?"));
    for (const CardChange& change : edit.cards) {
        if (change.before && change.after) {
            card.run(change.after->name, listText(change.after->columns), change.after->id);
            expectOne(card, "shade card");
        }
    }
    Statement ground(
        connection,
        QStringLiteral("UPDATE ground SET %1 WHERE id = ?").arg(assignments(kGroundColumns)));
    for (const GroundChange& change : edit.grounds) {
        if (change.before && change.after) {
            ground.runWith(joined(groundValues(*change.after), change.id));
            expectOne(ground, "ground");
        }
    }
}

void addCards(const Connection& connection, const Edit& edit, ThreadInserter& inserter) {
    Statement card(connection,
                   QStringLiteral("INSERT INTO card (id, name, columns) VALUES (?, ?, ?)"));
    for (const CardChange& change : edit.cards) {
        if (!change.before) {
            card.run(change.after->id, change.after->name, listText(change.after->columns));
            qint64 position = 0;
            for (const StoredThread& one : change.after->threads) {
                inserter.insert(one.id, change.after->id, position++, one.thread);
            }
        }
    }
}

void addThreads(const Connection& connection, const Edit& edit, ThreadInserter& inserter) {
    std::map<CardId, std::vector<const ThreadChange*>> additionsOf;
    for (const ThreadChange& change : edit.threads) {
        if (!change.before) {
            additionsOf[change.card].push_back(&change);
        }
    }
    for (auto& [card, additions] : additionsOf) {
        std::ranges::stable_sort(additions, {}, &ThreadChange::position);
        std::vector<std::pair<std::size_t, ThreadId>> places;
        for (const ThreadChange* one : additions) {
            places.emplace_back(one->position, one->id);
        }
        const std::vector<qint64> positions = makeRoom(connection, card, places);
        for (std::size_t i = 0; i < additions.size(); ++i) {
            inserter.insert(additions[i]->id, card, positions[i], *additions[i]->after);
        }
    }
}

void addGrounds(const Connection& connection, const Edit& edit) {
    Statement ground(connection,
                     QStringLiteral("INSERT INTO ground (%1, id) VALUES (%2)")
                         .arg(QLatin1String(kGroundColumns), placeholders(kGroundColumnCount + 1)));
    for (const GroundChange& change : edit.grounds) {
        if (!change.before) {
            ground.runWith(joined(groundValues(*change.after), change.id));
        }
    }
}

} // namespace

void expectOne(const Statement& statement, const char* thing) {
    if (statement.changedRows() != 1) {
        throw base::InputError({statement.path(),
                                {},
                                {},
                                QStringLiteral("the %1 as it was read (open the workbox again)")
                                    .arg(QLatin1String(thing)),
                                QStringLiteral("none of that number")});
    }
}

void write(const Connection& connection, const Edit& edit) {
    deleteRows(connection, edit);
    freeNames(connection, edit);
    changeRows(connection, edit);
    ThreadInserter inserter(connection);
    addCards(connection, edit, inserter);
    addThreads(connection, edit, inserter);
    addGrounds(connection, edit);
    writeCharts(connection, edit);
}

} // namespace otherskein::workbox::detail
