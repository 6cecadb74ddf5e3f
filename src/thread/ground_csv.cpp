#include "thread/ground_csv.h"

#include "thread/csv_table.h"

namespace otherskein::thread {

std::vector<Ground> parseGrounds(const QByteArray& bytes, const QString& source) {
    const QString name = QStringLiteral("name");
    const QString srgb = QStringLiteral("srgb");
    const QString count = QStringLiteral("count");
    const QString over = QStringLiteral("over");
    const CsvTable table(bytes, source);
    table.require(name, QStringLiteral("a column named name"));
    table.require(srgb, QStringLiteral("a column named srgb"));

    std::vector<Ground> grounds;
    for (const base::CsvRecord& row : table.rows()) {
        const QString hex = table.cell(row, srgb).trimmed();
        const auto shown = colour::parseHex(hex);
        if (!shown) {
            throw badCell(table.place(row, srgb), QStringLiteral("#rrggbb"),
                          base::quotedForMessage(hex));
        }
        Ground ground = groundOfSrgb(table.cell(row, name).trimmed(), *shown);
        if (ground.name.isEmpty()) {
            throw badCell(table.place(row, name), QStringLiteral("a name"),
                          QStringLiteral("an empty cell"));
        }
        if (const QString cell = table.cell(row, count).trimmed(); !cell.isEmpty()) {
            ground.count = wholeNumberIn(table.place(row, count), cell, limits::kLeastCount,
                                         limits::kMostCount);
        }
        if (const QString cell = table.cell(row, over).trimmed(); !cell.isEmpty()) {
            ground.over = wholeNumberIn(table.place(row, over), cell, 1, limits::kMostOver);
        }
        ground.weave = table.cell(row, QStringLiteral("weave"));
        grounds.push_back(std::move(ground));
    }
    return grounds;
}

QByteArray groundsCsv(const std::vector<Ground>& grounds) {
    QByteArray out =
        base::csvLine({QStringLiteral("name"), QStringLiteral("srgb"), QStringLiteral("count"),
                       QStringLiteral("over"), QStringLiteral("weave")});
    for (const Ground& ground : grounds) {
        out +=
            base::csvLine({ground.name, colour::toHex(ground.shown), QString::number(ground.count),
                           QString::number(ground.over), ground.weave});
    }
    return out;
}

} // namespace otherskein::thread
