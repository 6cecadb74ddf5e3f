#include "workbox/detail/chart_rows.h"

#include "workbox/detail/chart_bands.h"
#include "workbox/detail/chart_rules.h"
#include "workbox/detail/chart_text.h"
#include "workbox/detail/packing.h"
#include "workbox/detail/saving.h"
#include "workbox/detail/traced_rows.h"

#include <algorithm>

namespace otherskein::workbox::detail {

namespace {

constexpr std::size_t kLineNumbers = 5;

/// The numbers fit: a line lies on the grid.
QByteArray packedLines(const std::vector<chart::Line>& lines) {
    std::vector<std::uint16_t> numbers;
    numbers.reserve(kLineNumbers * lines.size());
    for (const chart::Line& line : lines) {
        for (const int number : {line.x1, line.y1, line.x2, line.y2, int{line.key}}) {
            numbers.push_back(static_cast<std::uint16_t>(number));
        }
    }
    return packed(numbers);
}

std::optional<std::vector<chart::Line>> unpackedLines(const QByteArray& blob) {
    const auto numbers = unpacked(blob, kLineNumbers * chart::kMostLines);
    if (!numbers || numbers->size() % kLineNumbers != 0) {
        return std::nullopt;
    }
    std::vector<chart::Line> lines;
    lines.reserve(numbers->size() / kLineNumbers);
    for (auto one = numbers->begin(); one != numbers->end(); one += kLineNumbers) {
        lines.push_back({one[0], one[1], one[2], one[3], one[4]});
    }
    return lines;
}

qint64 stitchesIn(const std::vector<chart::KeyIndex>& cells) {
    return std::ranges::count_if(cells, [](chart::KeyIndex key) { return key != chart::kBare; });
}

void add(const Connection& connection, const StoredChart& stored) {
    const ChartFacts& facts = stored.facts;
    Statement insert(connection,
                     QStringLiteral("INSERT INTO chart (id, name, columns, rows, stitches, "
                                    "key_rows, key, motifs, lines) VALUES (?, ?, ?, ?, ?, ?, ?, ?, "
                                    "?)"));
    const std::array<QVariant, 9> values{toSql(facts.id),
                                         toSql(facts.name),
                                         toSql(facts.columns),
                                         toSql(facts.rows),
                                         toSql(facts.stitches),
                                         toSql(facts.keyRows),
                                         toSql(keyText(stored.chart->key)),
                                         toSql(planText(stored.plan)),
                                         packedLines(stored.chart->lines)};
    insert.runWith(values);
    addBands(connection, facts.id, stored.chart->grid);
    if (stored.page) {
        addPage(connection, facts.id, *stored.page);
    }
}

/// Writes what differs and no more: the edit holds no whole chart.
void patch(const Connection& connection, const ChartPatch& patch) {
    const auto set = [&](const char* assignments, const std::vector<QVariant>& values) {
        Statement update(
            connection,
            QStringLiteral("UPDATE chart SET %1 WHERE id = ?").arg(QLatin1String(assignments)));
        std::vector<QVariant> all = values;
        all.push_back(toSql(patch.id));
        update.runWith(all);
        expectOne(update, "chart");
    };
    const ChartSide& after = patch.after;
    if (after.name) {
        set("name = ?", {toSql(*after.name)});
    }
    if (after.key) {
        set("key = ?, key_rows = ?", {toSql(keyText(*after.key)), toSql(after.key->size())});
    }
    if (after.lines) {
        set("lines = ?", {packedLines(*after.lines)});
    }
    if (after.plan) {
        set("motifs = ?", {toSql(planText(*after.plan))});
    }
    if (!patch.marked.empty()) {
        patchSeen(connection, patch);
    }
    if (!patch.cells.isEmpty()) {
        patchBands(connection, patch);
        set("stitches = stitches + ?",
            {toSql(stitchesIn(after.cells) - stitchesIn(patch.before.cells))});
    }
}

void writeColourways(const Connection& connection, const Edit& edit) {
    Statement insert(connection, QStringLiteral("INSERT INTO colourway (id, chart, name, content) "
                                                "VALUES (?, ?, ?, ?)"));
    Statement update(connection, QStringLiteral("UPDATE colourway SET name = ?, content = ? "
                                                "WHERE id = ? AND chart = ?"));
    for (const ColourwayChange& change : edit.colourways) {
        if (!change.after) {
            continue; // gone already: before charts, whose deletion would take them along
        }
        const StoredColourway& after = *change.after;
        const QString content = QString::fromUtf8(after.content);
        if (!change.before) {
            insert.run(after.id, after.chart, after.name, content);
        } else {
            update.run(after.name, content, after.id, after.chart);
            expectOne(update, "colourway");
        }
    }
}

/// A chart as it stands in the file, its size within the limits, the rest unchecked.
chart::Chart chartIn(const Connection& connection, const Statement& row, ChartId id) {
    chart::Chart chart;
    chart.name = row.text(0);
    const auto spoilt = [&](const char* what) {
        return damaged(connection.path(),
                       QStringLiteral("%1 of the chart %2")
                           .arg(QLatin1String(what), base::quotedForMessage(chart.name)));
    };
    const qint64 columns = row.whole(1);
    const qint64 rows = row.whole(2);
    if (columns < 1 || columns > chart::kMostColumns || rows < 1 || rows > chart::kMostRows) {
        throw spoilt("the size");
    }
    auto key = keyOf(row.text(3));
    if (!key) {
        throw spoilt("the key");
    }
    auto lines = unpackedLines(row.value(4).toByteArray());
    if (!lines) {
        throw spoilt("the lines");
    }
    chart.key = std::move(*key);
    chart.lines = std::move(*lines);
    chart.grid = chart::Grid(static_cast<int>(columns), static_cast<int>(rows));
    readBands(connection, id, chart.name, chart.grid);
    return chart;
}

} // namespace

std::vector<StoredChart> readCharts(const Connection& connection) {
    Statement row(connection, QStringLiteral("SELECT id, name, columns, rows, stitches, key_rows "
                                             "FROM chart ORDER BY id"));
    row.run();
    std::vector<StoredChart> charts;
    while (row.next()) {
        StoredChart stored;
        stored.facts = {ChartId{row.whole(0)},          row.text(1),
                        static_cast<int>(row.whole(2)), static_cast<int>(row.whole(3)),
                        static_cast<int>(row.whole(4)), static_cast<int>(row.whole(5))};
        charts.push_back(std::move(stored));
    }
    return charts;
}

StoredChart readChart(const Connection& connection, ChartId id) {
    Statement row(connection, QStringLiteral("SELECT name, columns, rows, key, lines, motifs FROM "
                                             "chart WHERE id = ?"));
    row.run(id);
    if (!row.next()) {
        throw base::InputError({connection.path(),
                                {},
                                {},
                                QStringLiteral("a chart that is there"),
                                QStringLiteral("one that is gone")});
    }
    chart::Chart chart = chartIn(connection, row, id);
    auto plan = planOf(row.text(5));
    if (!plan) {
        throw damaged(connection.path(), QStringLiteral("the motifs of the chart ") +
                                             base::quotedForMessage(chart.name));
    }
    try {
        chart::MotifPlan checked = checkedPlan(std::move(*plan), chart.name);
        StoredChart stored = storedChart(id, checkedChart(std::move(chart)), std::move(checked));
        stored.page = readPage(connection, id, *stored.chart);
        return stored;
    } catch (const base::InputError& error) {
        throw damaged(connection.path(), error.line());
    }
}

std::vector<StoredColourway> readColourways(const Connection& connection) {
    Statement row(connection,
                  QStringLiteral("SELECT id, chart, name, content FROM colourway ORDER BY id"));
    row.run();
    std::vector<StoredColourway> colourways;
    while (row.next()) {
        colourways.push_back(
            {ColourwayId{row.whole(0)}, ChartId{row.whole(1)}, row.text(2), row.text(3).toUtf8()});
    }
    return colourways;
}

void writeCharts(const Connection& connection, const Edit& edit) {
    Statement colourway(connection, QStringLiteral("DELETE FROM colourway WHERE id = ?"));
    for (const ColourwayChange& change : edit.colourways) {
        if (!change.after) {
            colourway.run(change.before->id);
            expectOne(colourway, "colourway");
        }
    }
    Statement chart(connection, QStringLiteral("DELETE FROM chart WHERE id = ?")); // and its bands
    for (const ChartChange& change : edit.charts) {
        if (change.after) {
            add(connection, *change.after);
        } else {
            chart.run(change.before->facts.id);
            expectOne(chart, "chart");
        }
    }
    for (const ChartPatch& one : edit.patches) {
        patch(connection, one);
    }
    writeColourways(connection, edit);
}

} // namespace otherskein::workbox::detail
