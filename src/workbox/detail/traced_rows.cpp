#include "workbox/detail/traced_rows.h"

#include "workbox/detail/chart_rules.h"
#include "workbox/detail/packing.h"
#include "workbox/detail/saving.h"

namespace otherskein::workbox::detail {

namespace {

using Numbers = std::vector<std::uint16_t>;

constexpr std::size_t kBits = 16;

std::size_t numbersFor(std::size_t cells) {
    return (cells + kBits - 1) / kBits;
}

Numbers bitsOf(const std::vector<std::uint8_t>& seen) {
    Numbers numbers(numbersFor(seen.size()), 0);
    for (std::size_t i = 0; i < seen.size(); ++i) {
        if (seen[i] != 0) {
            numbers[i / kBits] =
                static_cast<std::uint16_t>(numbers[i / kBits] | (1U << (i % kBits)));
        }
    }
    return numbers;
}

std::uint8_t bitAt(const Numbers& numbers, std::size_t cell) {
    return static_cast<std::uint8_t>((numbers[cell / kBits] >> (cell % kBits)) & 1U);
}

base::InputError spoiltPage(const Connection& connection, const QString& name) {
    return damaged(connection.path(),
                   QStringLiteral("the page of the chart ") + base::quotedForMessage(name));
}

} // namespace

void addPage(const Connection& connection, ChartId id, const TracedPage& page) {
    Statement insert(connection, QStringLiteral("INSERT INTO traced_page (chart, cell, confidence, "
                                                "picture) VALUES (?, ?, ?, ?)"));
    const std::array<QVariant, 4> values{
        toSql(id), toSql(page.cell),
        packed(Numbers(page.confidence.begin(), page.confidence.end())), page.picture};
    insert.runWith(values);
    Statement seen(connection,
                   QStringLiteral("INSERT INTO traced_seen (chart, cells) VALUES (?, ?)"));
    const std::array<QVariant, 2> marks{toSql(id), packed(bitsOf(page.seen))};
    seen.runWith(marks);
}

void patchSeen(const Connection& connection, const ChartPatch& patch) {
    const auto notAsRead = [&] {
        return base::InputError(
            {connection.path(),
             {},
             {},
             QStringLiteral("the chart as it was read (open the workbox again)"),
             QStringLiteral("other cells that have been looked at")});
    };
    Statement row(connection,
                  QStringLiteral("SELECT chart.columns * chart.rows, chart.name, traced_seen.cells "
                                 "FROM traced_seen JOIN chart ON chart.id = traced_seen.chart "
                                 "WHERE chart.id = ?"));
    row.run(patch.id);
    if (!row.next()) {
        throw notAsRead();
    }
    const auto cells = static_cast<std::size_t>(row.whole(0));
    auto numbers = unpacked(row.value(2).toByteArray(), numbersFor(cells));
    if (!numbers || numbers->size() != numbersFor(cells)) {
        throw spoiltPage(connection, row.text(1));
    }
    for (std::size_t i = 0; i < patch.marked.size(); ++i) {
        const std::size_t cell = patch.marked[i];
        if (cell >= cells || bitAt(*numbers, cell) != patch.before.seen[i]) {
            throw notAsRead();
        }
        std::uint16_t& number = (*numbers)[cell / kBits];
        number = static_cast<std::uint16_t>(number & ~(1U << (cell % kBits)));
        if (patch.after.seen[i] != 0) {
            number = static_cast<std::uint16_t>(number | (1U << (cell % kBits)));
        }
    }
    Statement write(connection, QStringLiteral("UPDATE traced_seen SET cells = ? WHERE chart = ?"));
    const std::array<QVariant, 2> values{packed(*numbers), toSql(patch.id)};
    write.runWith(values);
    expectOne(write, "chart");
}

std::shared_ptr<const TracedPage> readPage(const Connection& connection, ChartId id,
                                           const chart::Chart& chart) {
    Statement row(
        connection,
        QStringLiteral("SELECT traced_page.cell, traced_page.confidence, "
                       "traced_seen.cells, traced_page.picture FROM traced_page LEFT JOIN "
                       "traced_seen ON traced_seen.chart = traced_page.chart "
                       "WHERE traced_page.chart = ?"));
    row.run(id);
    if (!row.next()) {
        return nullptr;
    }
    const std::size_t cells = chart.grid.cells().size();
    const auto confidence = unpacked(row.value(1).toByteArray(), cells);
    const auto seen = unpacked(row.value(2).toByteArray(), numbersFor(cells));
    if (!confidence || !seen || seen->size() != numbersFor(cells)) {
        throw spoiltPage(connection, chart.name);
    }
    TracedPage page;
    page.cell = static_cast<int>(row.whole(0));
    page.picture = row.value(3).toByteArray();
    page.confidence.reserve(confidence->size());
    for (const std::uint16_t one : *confidence) {
        if (one > std::numeric_limits<std::uint8_t>::max()) {
            throw spoiltPage(connection, chart.name);
        }
        page.confidence.push_back(static_cast<std::uint8_t>(one));
    }
    page.seen.resize(cells);
    for (std::size_t i = 0; i < cells; ++i) {
        page.seen[i] = bitAt(*seen, i);
    }
    return std::make_shared<const TracedPage>(checkedPage(std::move(page), chart));
}

} // namespace otherskein::workbox::detail
