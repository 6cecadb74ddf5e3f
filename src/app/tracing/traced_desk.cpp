#include "app/tracing/traced_desk.h"

#include "app/charts/key_edits.h"
#include "app/tracing/tracing_edits.h"

#include <QPainter>

#include <algorithm>
#include <cstdlib>

namespace otherskein::app {

namespace {

constexpr std::size_t kColourCells = 24; // that say in which colour cells are printed

/// A cell at the middle of the row's longest line of backstitch.
std::optional<chart::Cell> cellOnLine(const chart::Chart& chart, chart::KeyIndex row) {
    std::optional<chart::Cell> cell;
    int longest = 0;
    for (const chart::Line& line : chart.lines) {
        const int length = std::abs(line.x2 - line.x1) + std::abs(line.y2 - line.y1);
        if (line.key == row && length > longest) {
            longest = length;
            // Twice two ends in half cells.
            cell = {std::min((line.x1 + line.x2) / 4, chart.grid.columns() - 1),
                    std::min((line.y1 + line.y2) / 4, chart.grid.rows() - 1)};
        }
    }
    return cell;
}

} // namespace

TracedDesk::TracedDesk(ChartDesk& desk, QObject* parent) : QObject(parent), m_desk(desk) {
    connect(&desk, &ChartDesk::chartReplaced, this, &TracedDesk::takePage);
    connect(&desk, &ChartDesk::pageChanged, this, [this] {
        count();
        Q_EMIT doubtChanged();
    });
    takePage();
}

void TracedDesk::takePage() {
    m_picture.reset();
    m_known = {};
    m_order.clear();
    if (const auto& page = m_desk.page()) {
        for (std::uint32_t i = 0; i < page->confidence.size(); ++i) {
            if (page->confidence[i] < kDoubtfulByte) {
                m_order.push_back(i);
            }
        }
        std::ranges::stable_sort(m_order, {},
                                 [&](std::uint32_t cell) { return page->confidence[cell]; });
    }
    count();
    Q_EMIT pictureReplaced();
    Q_EMIT doubtChanged();
}

void TracedDesk::count() {
    const auto& page = m_desk.page();
    m_left = page ? static_cast<int>(std::ranges::count_if(
                        m_order, [&](std::uint32_t cell) { return page->seen[cell] == 0; }))
                  : 0;
}

const PagePicture& TracedDesk::picture() const {
    if (!m_picture) {
        const auto& page = m_desk.page();
        m_picture = page ? PagePicture::fromBytes(page->picture, page->cell) : PagePicture();
    }
    return *m_picture;
}

bool TracedDesk::isDoubtful(const chart::Cell& cell) const {
    const auto& page = m_desk.page();
    return page && page->confidence[indexOf(cell)] < kDoubtfulByte &&
           page->seen[indexOf(cell)] == 0;
}

bool TracedDesk::isSeen(const chart::Cell& cell) const {
    return m_desk.page() && m_desk.page()->seen[indexOf(cell)] != 0;
}

int TracedDesk::surenessOf(const chart::Cell& cell) const {
    constexpr int kSure = 255;
    return m_desk.page() ? m_desk.page()->confidence[indexOf(cell)] * 100 / kSure : 100;
}

std::optional<chart::Cell> TracedDesk::doubtfulFrom(const std::optional<chart::Cell>& from,
                                                    Way way) const {
    const auto& page = m_desk.page();
    const auto count = m_order.size();
    if (!page || count == 0) {
        return std::nullopt;
    }
    const std::size_t step = way == Way::On ? 1 : count - 1;
    std::size_t at = way == Way::On ? count - 1 : 0; // so that a first step leads to an end
    std::optional<std::uint32_t> start;
    if (from) {
        start = static_cast<std::uint32_t>(indexOf(*from));
        const auto found = std::ranges::find(m_order, *start);
        if (found != m_order.end()) {
            at = static_cast<std::size_t>(found - m_order.begin());
        }
    }
    for (std::size_t steps = 0; steps < count; ++steps) {
        at = (at + step) % count;
        if (page->seen[m_order[at]] == 0 && m_order[at] != start) {
            return m_desk.chart()->grid.cellAt(m_order[at]);
        }
    }
    return std::nullopt;
}

const RowPrints& TracedDesk::prints() const {
    const auto& chart = m_desk.chart();
    if (m_known.chart != chart) {
        m_known = {chart, RowPrints(*chart, *m_desk.page(), picture())};
    }
    return m_known.prints;
}

std::vector<chart::Cell> TracedDesk::cellsOf(chart::KeyIndex row) const {
    const auto& page = m_desk.page();
    const chart::Grid& grid = m_desk.chart()->grid;
    struct Found {
        chart::Cell cell;
        std::pair<bool, double> order;
    };
    std::vector<Found> found;
    const auto cells = std::as_const(grid).cells();
    for (std::uint32_t i = 0; i < cells.size(); ++i) {
        if (cells[i] != row) {
            continue;
        }
        const chart::Cell cell = grid.cellAt(i);
        // What was not sure comes first, so that accepting it moves nothing about; of both, what
        // looks least like the rest.
        const bool unsure = page && page->confidence[i] < kDoubtfulByte;
        const double odd = page ? prints().unlikeness(picture().glanceAt(cell), row) : 0;
        found.push_back({cell, {!unsure, -odd}});
    }
    std::ranges::stable_sort(found, {}, &Found::order);
    std::vector<chart::Cell> result;
    result.reserve(found.size());
    for (const Found& one : found) {
        result.push_back(one.cell);
    }
    return result;
}

std::vector<chart::Cell> TracedDesk::doubtfulCellsOf(chart::KeyIndex row) const {
    std::vector<chart::Cell> cells;
    for (const std::uint32_t at : m_order) {
        const chart::Cell cell = m_desk.chart()->grid.cellAt(at);
        if (m_desk.page()->seen[at] == 0 && m_desk.chart()->grid.at(cell) == row) {
            cells.push_back(cell);
        }
    }
    return cells;
}

int TracedDesk::doubtfulOf(chart::KeyIndex row) const {
    return static_cast<int>(doubtfulCellsOf(row).size());
}

std::vector<chart::Cell> TracedDesk::doubtfulLike(const chart::Cell& cell) const {
    const chart::KeyIndex row = m_desk.chart()->grid.at(cell);
    std::vector<chart::Cell> like{cell};
    for (const chart::Cell& one : doubtfulCellsOf(row)) {
        if (one != cell && prints().looksLike(picture().glanceAt(one), row)) {
            like.push_back(one);
        }
    }
    return like;
}

namespace {

std::vector<chart::KeyIndex> firstOf(std::vector<chart::KeyIndex> rows, std::size_t most) {
    rows.resize(std::min(rows.size(), most));
    return rows;
}

} // namespace

std::vector<chart::KeyIndex> TracedDesk::nearestTo(const chart::Cell& cell,
                                                   std::size_t most) const {
    return m_desk.page() ? firstOf(prints().nearestTo(picture().glanceAt(cell),
                                                      m_desk.chart()->grid.at(cell)),
                                   most)
                         : std::vector<chart::KeyIndex>();
}

std::vector<chart::KeyIndex> TracedDesk::nearestToRow(chart::KeyIndex row, std::size_t most) const {
    return m_desk.page() ? firstOf(prints().nearestToRow(row), most)
                         : std::vector<chart::KeyIndex>();
}

std::vector<RowPrints::Pair> TracedDesk::alikePairs() const {
    return m_desk.page() ? prints().alikePairs() : std::vector<RowPrints::Pair>();
}

std::vector<std::vector<chart::KeyIndex>> TracedDesk::families() const {
    return m_desk.page() ? prints().families() : std::vector<std::vector<chart::KeyIndex>>();
}

int TracedDesk::alikeCount() const {
    int count = 0;
    for (const auto& family : families()) {
        count += static_cast<int>(family.size()) - 1;
    }
    return count;
}

QImage TracedDesk::printOf(chart::KeyIndex row, int pixels) const {
    if (!m_desk.page() || picture().isNull()) {
        return {};
    }
    // Within the grid's lines: a bolder one every ten is no part of the sign.
    constexpr double kLines = 0.08;
    double margin = -kLines;
    std::optional<chart::Cell> cell = prints().modelOf(row);
    if (!cell) {
        // Backstitch lies between cells as well: one is shown with a little of those around it.
        cell = cellOnLine(*m_desk.chart(), row);
        margin = 0.15;
    }
    if (!cell) {
        return {};
    }
    QImage print(pixels, pixels, QImage::Format_RGB32);
    print.fill(Qt::white); // beyond the page's edge
    QPainter painter(&print);
    picture().paintCell(painter, QRectF(0, 0, pixels, pixels), *cell, margin);
    return print;
}

colour::Srgb8 TracedDesk::printedColour(std::span<const chart::Cell> cells) const {
    std::array<double, 3> sums{};
    double count = 0;
    for (const chart::Cell& cell : cells.first(std::min(cells.size(), kColourCells))) {
        const PagePicture::Glance glance = picture().glanceAt(cell);
        for (std::size_t i = 0; i < glance.size(); ++i) {
            sums[i % 3] += double{glance[i]};
        }
        count += static_cast<double>(glance.size()) / 3;
    }
    const auto level = [&](std::size_t channel) {
        return static_cast<std::uint8_t>(count == 0 ? 128 : sums[channel] / count);
    };
    return {level(0), level(1), level(2)};
}

void TracedDesk::accept(std::span<const chart::Cell> cells) {
    if (!m_desk.id() || cells.empty()) {
        return;
    }
    m_desk.attempt([&] {
        m_desk.document().setSeen(*m_desk.id(), cells, true,
                                  tr("Accept %n cells", nullptr, static_cast<int>(cells.size())));
    });
}

void TracedDesk::change(std::span<const chart::Cell> cells, chart::KeyIndex row) {
    if (m_desk.chart() == nullptr || cells.empty()) {
        return;
    }
    const chart::Chart after = withCells(*m_desk.chart(), cells, row);
    const int count = static_cast<int>(cells.size());
    m_desk.change(after,
                  row == chart::kBare
                      ? tr("Unpick %n cells", nullptr, count)
                      : tr("Change %n cells to %1", nullptr, count).arg(signOf(after.key[row])),
                  {}, cells);
}

void TracedDesk::splitOff(std::span<const chart::Cell> cells) {
    const auto& chart = m_desk.chart();
    if (chart == nullptr || cells.empty()) {
        return;
    }
    if (chart->key.size() >= chart::kMostKeyRows) {
        Q_EMIT m_desk.refused(tr("The key is full: it has %1 rows.").arg(chart::kMostKeyRows));
        return;
    }
    const chart::Chart after = withCells(withNewRow(*chart, printedColour(cells)), cells,
                                         static_cast<chart::KeyIndex>(chart->key.size()));
    const QString sign = after.key.back().symbol;
    if (m_desk.change(after, tr("Make the new symbol %1").arg(sign), {}, cells)) {
        Q_EMIT did(tr("%n cells are a symbol of their own now, %1.", nullptr,
                      static_cast<int>(cells.size()))
                       .arg(sign));
    }
}

void TracedDesk::join(chart::KeyIndex from, chart::KeyIndex to) {
    const auto chart = m_desk.chart();
    if (chart == nullptr || from == to) {
        return;
    }
    const QString was = signOf(chart->key[from]);
    const QString is = to == chart::kBare ? tr("bare ground") : signOf(chart->key[to]);
    if (m_desk.change(withRowsJoined(*chart, from, to), tr("Join %1 with %2").arg(was, is))) {
        m_desk.with([from, to](ChartsState& state) {
            state.bare = to == chart::kBare;
            state.row =
                state.bare
                    ? std::nullopt
                    : std::optional(static_cast<chart::KeyIndex>(from < to ? to - 1 : int{to}));
        });
        Q_EMIT did(to == chart::kBare ? tr("%1 is bare ground now.").arg(was)
                                      : tr("%1 and %2 are one symbol now.").arg(was, is));
    }
}

bool TracedDesk::joinAll(std::span<const chart::KeyIndex> rows) {
    const auto chart = m_desk.chart();
    if (chart == nullptr || rows.size() < 2) {
        return false;
    }
    const int count = static_cast<int>(rows.size());
    const chart::KeyIndex most = *std::ranges::max_element(
        rows, {}, [&](chart::KeyIndex row) { return chart->key[row].stitches; });
    chart::Chart after = *chart;
    chart::KeyIndex stays = most;
    for (std::size_t i = rows.size(); i-- > 0;) { // the last first: the others keep their places
        if (rows[i] != most) {
            after = withRowsJoined(after, rows[i], stays);
            stays = rows[i] < stays ? static_cast<chart::KeyIndex>(stays - 1) : stays;
        }
    }
    if (!m_desk.change(after, tr("Join %n symbols", nullptr, count))) {
        return false;
    }
    m_desk.with([stays](ChartsState& state) {
        state.bare = false;
        state.row = stays;
    });
    Q_EMIT did(tr("%n symbols are one now, %1.", nullptr, count).arg(signOf(after.key[stays])));
    return true;
}

void TracedDesk::makeBare(std::span<const chart::KeyIndex> rows) {
    const auto chart = m_desk.chart();
    if (chart == nullptr || rows.empty()) {
        return;
    }
    const int count = static_cast<int>(rows.size());
    chart::Chart after = *chart;
    for (std::size_t i = rows.size(); i-- > 0;) {
        after = withRowsJoined(after, rows[i], chart::kBare);
    }
    if (m_desk.change(after, tr("Unpick %n symbols", nullptr, count))) {
        Q_EMIT did(tr("%n symbols are bare ground now.", nullptr, count));
    }
}

void TracedDesk::goTo(const std::optional<chart::Cell>& cell) {
    m_desk.with([&](ChartsState& state) { state.current = cell; });
}

QString signOf(const chart::KeyRow& row) {
    const QString thread = (row.code + QLatin1Char(' ') + row.name).trimmed();
    return row.symbol.isEmpty() || thread.isEmpty()
               ? (row.symbol.isEmpty() ? shownRow(row) : row.symbol)
               : TracedDesk::tr("%1, %2").arg(row.symbol, thread);
}

} // namespace otherskein::app
