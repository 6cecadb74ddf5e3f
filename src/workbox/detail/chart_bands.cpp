#include "workbox/detail/chart_bands.h"

#include "workbox/detail/packing.h"
#include "workbox/detail/saving.h"

#include <algorithm>

namespace otherskein::workbox::detail {

namespace {

int bandCount(int rows) {
    return (rows + kBandRows - 1) / kBandRows;
}

/// The index of a band's first cell, and how many cells it has.
struct Extent {
    std::size_t first = 0;
    std::size_t count = 0;
};
Extent extentOf(int band, int columns, int rows) {
    const auto width = static_cast<std::size_t>(columns);
    const int top = band * kBandRows;
    return {static_cast<std::size_t>(top) * width,
            static_cast<std::size_t>(std::min(kBandRows, rows - top)) * width};
}

base::InputError spoilt(const Connection& connection, const QString& name) {
    return damaged(connection.path(),
                   QStringLiteral("the cells of the chart ") + base::quotedForMessage(name));
}

void bindBlob(Statement& statement, const QByteArray& blob, ChartId id, int band) {
    const std::array<QVariant, 3> values{blob, toSql(id), toSql(band)};
    statement.runWith(values);
}

/// The patch's rows inside one band, whose cells these are. False when what stood before is not
/// there.
bool layIn(std::vector<chart::KeyIndex>& cells, int columns, int bandTop, const ChartPatch& patch) {
    const chart::Area& area = patch.cells;
    const int bandRows = static_cast<int>(cells.size()) / columns;
    const int first = std::max(area.top, bandTop);
    const int end = std::min(area.top + area.rows, bandTop + bandRows);
    for (int y = first; y < end; ++y) {
        const auto from = static_cast<std::ptrdiff_t>(y - area.top) * area.columns;
        const auto to =
            cells.begin() + static_cast<std::ptrdiff_t>(y - bandTop) * columns + area.left;
        if (!std::equal(to, to + area.columns, patch.before.cells.begin() + from)) {
            return false;
        }
        std::copy_n(patch.after.cells.begin() + from, area.columns, to);
    }
    return true;
}

} // namespace

void addBands(const Connection& connection, ChartId id, const chart::Grid& grid) {
    Statement insert(
        connection, QStringLiteral("INSERT INTO chart_band (cells, chart, band) VALUES (?, ?, ?)"));
    for (int band = 0; band < bandCount(grid.rows()); ++band) {
        const Extent extent = extentOf(band, grid.columns(), grid.rows());
        bindBlob(insert, packed(grid.cells().subspan(extent.first, extent.count)), id, band);
    }
}

void patchBands(const Connection& connection, const ChartPatch& patch) {
    const chart::Area& area = patch.cells;
    Statement size(connection,
                   QStringLiteral("SELECT columns, rows, name FROM chart WHERE id = ?"));
    size.run(patch.id);
    const bool there = size.next();
    const int columns = there ? static_cast<int>(size.whole(0)) : 0;
    const int rows = there ? static_cast<int>(size.whole(1)) : 0;
    const auto notAsRead = [&] {
        return base::InputError(
            {connection.path(),
             {},
             {},
             QStringLiteral("the chart as it was read (open the workbox again)"),
             QStringLiteral("other stitches")});
    };
    if (area.left < 0 || area.top < 0 || area.left + area.columns > columns ||
        area.top + area.rows > rows) {
        throw notAsRead();
    }
    Statement read(connection,
                   QStringLiteral("SELECT cells FROM chart_band WHERE chart = ? AND band = ?"));
    Statement write(connection,
                    QStringLiteral("UPDATE chart_band SET cells = ? WHERE chart = ? AND band = ?"));
    for (int band = area.top / kBandRows; band <= (area.top + area.rows - 1) / kBandRows; ++band) {
        const Extent extent = extentOf(band, columns, rows);
        read.run(patch.id, band);
        auto cells =
            read.next() ? unpacked(read.value(0).toByteArray(), extent.count) : std::nullopt;
        if (!cells || cells->size() != extent.count) {
            throw spoilt(connection, size.text(2));
        }
        if (!layIn(*cells, columns, band * kBandRows, patch)) {
            throw notAsRead();
        }
        bindBlob(write, packed(*cells), patch.id, band);
        expectOne(write, "chart");
    }
}

void readBands(const Connection& connection, ChartId id, const QString& name, chart::Grid& grid) {
    Statement row(connection, QStringLiteral("SELECT band, cells FROM chart_band WHERE chart = ? "
                                             "ORDER BY band"));
    row.run(id);
    int next = 0;
    for (; row.next(); ++next) {
        if (row.whole(0) != next || next >= bandCount(grid.rows())) {
            throw spoilt(connection, name);
        }
        const Extent extent = extentOf(next, grid.columns(), grid.rows());
        const auto cells = unpacked(row.value(1).toByteArray(), extent.count);
        if (!cells || cells->size() != extent.count) {
            throw spoilt(connection, name);
        }
        std::ranges::copy(*cells, grid.cells().subspan(extent.first, extent.count).begin());
    }
    if (next != bandCount(grid.rows())) {
        throw spoilt(connection, name);
    }
}

} // namespace otherskein::workbox::detail
