#include "thread/ground_csv.h"

#include "base/number.h"
#include "thread/csv_table.h"

#include <algorithm>
#include <utility>

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
        for (const auto& [column, mm] : {std::pair{QStringLiteral("width_cm"), &ground.widthMm},
                                         {QStringLiteral("height_cm"), &ground.heightMm}}) {
            if (const QString cell = table.cell(row, column).trimmed(); !cell.isEmpty()) {
                *mm = 10 * numberIn(table.place(row, column), cell, 0, limits::kMostPieceMm / 10);
            }
        }
        grounds.push_back(std::move(ground));
    }
    return grounds;
}

QByteArray groundsCsv(const std::vector<Ground>& grounds) {
    const bool sized = std::ranges::any_of(
        grounds, [](const Ground& one) { return one.widthMm > 0 || one.heightMm > 0; });
    std::vector<QString> header{QStringLiteral("name"), QStringLiteral("srgb"),
                                QStringLiteral("count"), QStringLiteral("over"),
                                QStringLiteral("weave")};
    if (sized) {
        header.insert(header.end(), {QStringLiteral("width_cm"), QStringLiteral("height_cm")});
    }
    QByteArray out = base::csvLine(header);
    const auto cm = [](double mm) { return mm > 0 ? base::formatNumber(mm / 10) : QString(); };
    for (const Ground& ground : grounds) {
        std::vector<QString> cells{ground.name, colour::toHex(ground.shown),
                                   QString::number(ground.count), QString::number(ground.over),
                                   ground.weave};
        if (sized) {
            cells.insert(cells.end(), {cm(ground.widthMm), cm(ground.heightMm)});
        }
        out += base::csvLine(cells);
    }
    return out;
}

} // namespace otherskein::thread
