#include "app/tracing/traced_desk.h"

#include "app/tracing/tracing_edits.h"

#include <algorithm>
#include <numeric>

namespace otherskein::app {

namespace {

constexpr std::size_t kPrintsOfRow = 24; // cells that say how a row prints

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
    m_prints = {};
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

std::vector<chart::Cell> TracedDesk::cellsOf(chart::KeyIndex row) const {
    const auto& page = m_desk.page();
    std::vector<std::uint32_t> found;
    const auto cells = std::as_const(m_desk.chart()->grid).cells();
    for (std::uint32_t i = 0; i < cells.size(); ++i) {
        if (cells[i] == row) {
            found.push_back(i);
        }
    }
    if (page) {
        std::ranges::stable_sort(found, {},
                                 [&](std::uint32_t cell) { return page->confidence[cell]; });
    }
    std::vector<chart::Cell> result;
    result.reserve(found.size());
    for (const std::uint32_t cell : found) {
        result.push_back(m_desk.chart()->grid.cellAt(cell));
    }
    return result;
}

const TracedDesk::Prints& TracedDesk::prints() const {
    const auto& chart = m_desk.chart();
    if (m_prints.chart == chart) {
        return m_prints;
    }
    m_prints = {chart, std::vector<std::optional<PagePicture::Glance>>(chart->key.size())};
    // Of each row its surest cells; what a hand has accepted is surer than any.
    const auto& page = m_desk.page();
    const auto cells = std::as_const(chart->grid).cells();
    std::vector<std::vector<std::uint32_t>> of(chart->key.size());
    for (std::uint32_t i = 0; i < cells.size(); ++i) {
        if (cells[i] != chart::kBare) {
            of[cells[i]].push_back(i);
        }
    }
    const auto sureness = [&](std::uint32_t cell) {
        return page->seen[cell] != 0 ? 256 : int{page->confidence[cell]};
    };
    for (std::size_t row = 0; row < of.size(); ++row) {
        const std::size_t count = std::min(kPrintsOfRow, of[row].size());
        if (count == 0) {
            continue;
        }
        std::ranges::partial_sort(of[row], of[row].begin() + static_cast<std::ptrdiff_t>(count),
                                  std::ranges::greater(), sureness);
        PagePicture::Glance mean{};
        for (std::size_t i = 0; i < count; ++i) {
            const PagePicture::Glance one = picture().glanceAt(chart->grid.cellAt(of[row][i]));
            for (std::size_t value = 0; value < mean.size(); ++value) {
                mean[value] += one[value] / static_cast<float>(count);
            }
        }
        m_prints.rows[row] = mean;
    }
    return m_prints;
}

std::vector<chart::KeyIndex> TracedDesk::nearestTo(const chart::Cell& cell,
                                                   std::size_t most) const {
    if (!m_desk.page()) {
        return {};
    }
    const PagePicture::Glance glance = picture().glanceAt(cell);
    const Prints& known = prints();
    std::vector<std::pair<double, chart::KeyIndex>> rows;
    for (std::size_t row = 0; row < known.rows.size(); ++row) {
        if (row == m_desk.chart()->grid.at(cell)) {
            continue;
        }
        // A row that nothing is worked in yet comes last.
        rows.emplace_back(known.rows[row] ? difference(glance, *known.rows[row])
                                          : std::numeric_limits<double>::infinity(),
                          static_cast<chart::KeyIndex>(row));
    }
    std::ranges::sort(rows);
    std::vector<chart::KeyIndex> nearest;
    for (const auto& [apart, row] : rows) {
        if (nearest.size() < most) {
            nearest.push_back(row);
        }
    }
    return nearest;
}

colour::Srgb8 TracedDesk::printedColour(std::span<const chart::Cell> cells) const {
    std::array<double, 3> sums{};
    double count = 0;
    for (const chart::Cell& cell : cells.first(std::min(cells.size(), kPrintsOfRow))) {
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
    const chart::Chart after = withCellsInNewRow(*chart, cells, printedColour(cells));
    const QString sign = after.key.back().symbol;
    if (m_desk.change(after, tr("Make the new symbol %1").arg(sign), {}, cells)) {
        Q_EMIT m_desk.told(tr("%n cells are a symbol of their own now, %1.", nullptr,
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
    const QString is = signOf(chart->key[to]);
    if (m_desk.change(withRowsJoined(*chart, from, to), tr("Join %1 with %2").arg(was, is))) {
        const int row = from < to ? to - 1 : int{to};
        m_desk.with([row](ChartsState& state) { state.row = static_cast<chart::KeyIndex>(row); });
        Q_EMIT m_desk.told(tr("%1 and %2 are one symbol now.").arg(was, is));
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
