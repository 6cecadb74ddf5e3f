#include "workbox/detail/rows.h"

#include <QHash>
#include <QJsonArray>
#include <QJsonDocument>

namespace otherskein::workbox::detail {

namespace {

const QString kEmptyList = QStringLiteral("[]");

std::optional<QString> hexOf(const std::optional<colour::Srgb8>& srgb) {
    return srgb ? std::optional(colour::toHex(*srgb)) : std::nullopt;
}

template <typename Value>
Value sound(const Statement& row, int column, const std::optional<Value>& value) {
    if (!value) {
        throw damaged(row.path(), QStringLiteral("a field that holds ") +
                                      base::quotedForMessage(row.text(column)));
    }
    return *value;
}

colour::Lab labAt(const Statement& row, int column) {
    return {row.number(column), row.number(column + 1), row.number(column + 2)};
}

colour::Srgb8 srgbAt(const Statement& row, int column) {
    return sound(row, column, colour::parseHex(row.text(column)));
}

} // namespace

QString listText(const std::vector<QString>& list) {
    if (list.empty()) {
        return kEmptyList;
    }
    QJsonArray array;
    for (const QString& text : list) {
        array.append(text);
    }
    return QString::fromUtf8(QJsonDocument(array).toJson(QJsonDocument::Compact));
}

std::vector<QString> listAt(const Statement& row, int column) {
    const QString text = row.text(column);
    if (text == kEmptyList) {
        return {}; // nearly every thread
    }
    const QJsonDocument document = QJsonDocument::fromJson(text.toUtf8());
    std::vector<QString> list;
    const QJsonArray array =
        sound(row, column, document.isArray() ? std::optional(document.array()) : std::nullopt);
    for (const QJsonValue value : array) {
        list.push_back(
            sound(row, column, value.isString() ? std::optional(value.toString()) : std::nullopt));
    }
    return list;
}

std::array<QVariant, kThreadColumnCount> threadValues(const thread::Thread& thread) {
    return {toSql(thread.code),    toSql(thread.name),
            toSql(thread.lab.L),   toSql(thread.lab.a),
            toSql(thread.lab.b),   toSql(hexOf(thread.entered)),
            toSql(thread.fibre),   toSql(thread::wordOf(thread.finish)),
            toSql(thread.strands), toSql(thread.lengthM),
            toSql(thread.stash),   toSql(thread::wordOf(thread.stock)),
            toSql(thread.lot),     toSql(thread.spread),
            toSql(thread.note),    toSql(listText(thread.extra))};
}

thread::Thread threadAt(const Statement& row, int firstColumn) {
    int column = firstColumn;
    thread::Thread thread;
    thread.code = row.text(column++);
    thread.name = row.text(column++);
    thread.lab = labAt(row, column);
    column += 3;
    if (!row.value(column).isNull()) {
        thread.entered = srgbAt(row, column);
    }
    ++column;
    thread.fibre = row.text(column++);
    thread.finish = sound(row, column, thread::finishOf(row.text(column)));
    ++column;
    thread.strands = static_cast<int>(row.whole(column++));
    thread.lengthM = row.number(column++);
    thread.stash = row.number(column++);
    thread.stock = sound(row, column, thread::stockOf(row.text(column)));
    ++column;
    thread.lot = row.text(column++);
    if (const QVariant spread = row.value(column++); !spread.isNull()) {
        thread.spread = spread.toDouble();
    }
    thread.note = row.text(column++);
    thread.extra = listAt(row, column);
    return thread;
}

std::array<QVariant, kGroundColumnCount> groundValues(const thread::Ground& ground) {
    return {toSql(ground.name),
            toSql(ground.lab.L),
            toSql(ground.lab.a),
            toSql(ground.lab.b),
            toSql(colour::toHex(ground.shown)),
            toSql(ground.count),
            toSql(ground.over),
            toSql(ground.weave),
            toSql(ground.widthMm),
            toSql(ground.heightMm),
            ground.photo.isEmpty() ? QVariant() : QVariant(ground.photo)};
}

thread::Ground groundAt(const Statement& row, int firstColumn) {
    thread::Ground ground;
    ground.name = row.text(firstColumn);
    ground.lab = labAt(row, firstColumn + 1);
    ground.shown = srgbAt(row, firstColumn + 4);
    ground.count = static_cast<int>(row.whole(firstColumn + 5));
    ground.over = static_cast<int>(row.whole(firstColumn + 6));
    ground.weave = row.text(firstColumn + 7);
    ground.widthMm = row.number(firstColumn + 8);
    ground.heightMm = row.number(firstColumn + 9);
    ground.photo = row.value(firstColumn + 10).toByteArray();
    return ground;
}

std::vector<StoredCard> readCards(const Connection& connection) {
    std::vector<StoredCard> cards;
    QHash<qint64, std::size_t> indexOf;
    Statement cardRow(connection,
                      QStringLiteral("SELECT id, name, columns, (SELECT count(*) FROM "
                                     "thread WHERE card = card.id) FROM card ORDER BY id"));
    cardRow.run();
    while (cardRow.next()) {
        indexOf.insert(cardRow.whole(0), cards.size());
        cards.push_back({CardId{cardRow.whole(0)}, cardRow.text(1), listAt(cardRow, 2), {}});
        cards.back().threads.reserve(static_cast<std::size_t>(cardRow.whole(3)));
    }
    Statement row(connection,
                  QStringLiteral("SELECT card, id, %1 FROM thread ORDER BY card, position, id")
                      .arg(QLatin1String(kThreadColumns)));
    row.run();
    while (row.next()) {
        const auto index = indexOf.constFind(row.whole(0));
        if (index == indexOf.constEnd()) {
            throw damaged(connection.path(), QStringLiteral("a thread without a card"));
        }
        cards[*index].threads.push_back({ThreadId{row.whole(1)}, threadAt(row, 2)});
    }
    return cards;
}

std::vector<StoredGround> readGrounds(const Connection& connection) {
    std::vector<StoredGround> grounds;
    Statement row(
        connection,
        QStringLiteral("SELECT id, %1 FROM ground ORDER BY id").arg(QLatin1String(kGroundColumns)));
    row.run();
    while (row.next()) {
        grounds.push_back({GroundId{row.whole(0)}, groundAt(row, 1)});
    }
    return grounds;
}

} // namespace otherskein::workbox::detail
