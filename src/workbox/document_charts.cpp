// Document's side of charts and colourways: reading them when they are asked for, and their edits.

#include "base/input_error.h"
#include "workbox/detail/chart_contents.h"
#include "workbox/detail/chart_rules.h"
#include "workbox/document.h"

#include <algorithm>
#include <set>

namespace otherskein::workbox {

namespace {

base::InputError chartGone(const QString& thing) {
    return base::InputError({QStringLiteral("workbox"),
                             std::nullopt,
                             {},
                             QStringLiteral("%1 that is there").arg(thing),
                             QStringLiteral("one that is gone")});
}

/// The smallest rectangle that holds all cells in which two grids of one size differ.
chart::Area difference(const chart::Grid& one, const chart::Grid& other) {
    const auto width = static_cast<std::size_t>(one.columns());
    int left = one.columns();
    int right = -1;
    int top = one.rows();
    int bottom = -1;
    for (int y = 0; y < one.rows(); ++y) {
        const auto a = one.cells().subspan(static_cast<std::size_t>(y) * width, width);
        const auto b = other.cells().subspan(static_cast<std::size_t>(y) * width, width);
        if (std::ranges::equal(a, b)) {
            continue;
        }
        top = std::min(top, y);
        bottom = y;
        const auto first = std::ranges::mismatch(a, b).in1 - a.begin();
        const auto last = std::mismatch(a.rbegin(), a.rend(), b.rbegin()).first - a.rbegin();
        left = std::min(left, static_cast<int>(first));
        right = std::max(right, static_cast<int>(a.size()) - 1 - static_cast<int>(last));
    }
    return right < 0 ? chart::Area{} : chart::Area{left, top, right - left + 1, bottom - top + 1};
}

} // namespace

void Document::noteChartFacts() {
    m_chartFacts.clear();
    for (const StoredChart& one : m_contents.charts) {
        m_chartFacts.push_back(one.facts);
    }
}

std::shared_ptr<const chart::Chart> Document::chart(ChartId id) const {
    StoredChart* stored = detail::find(m_contents.charts, id);
    if (!stored) {
        return nullptr;
    }
    if (!stored->chart) {
        StoredChart read = m_store.chart(id);
        stored->plan = std::move(read.plan);
        stored->chart = std::move(read.chart);
        stored->page = std::move(read.page);
    }
    return stored->chart;
}

chart::MotifPlan Document::motifPlan(ChartId id) const {
    return chart(id) ? detail::find(std::as_const(m_contents.charts), id)->plan
                     : chart::MotifPlan{};
}

std::shared_ptr<const TracedPage> Document::tracedPage(ChartId id) const {
    return chart(id) ? detail::find(std::as_const(m_contents.charts), id)->page : nullptr;
}

std::vector<StoredColourway> Document::colourways(ChartId chart) const {
    std::vector<StoredColourway> found;
    std::ranges::copy_if(m_contents.colourways, std::back_inserter(found),
                         [&](const StoredColourway& one) { return one.chart == chart; });
    return found;
}

std::optional<StoredColourway> Document::colourway(ColourwayId id) const {
    const StoredColourway* stored = detail::find(m_contents.colourways, id);
    return stored ? std::optional(*stored) : std::nullopt;
}

const StoredChart& Document::existing(ChartId id) const {
    if (!chart(id)) {
        throw chartGone(QStringLiteral("a chart"));
    }
    return *detail::find(std::as_const(m_contents.charts), id);
}

const StoredColourway& Document::existing(ColourwayId id) const {
    const StoredColourway* stored = detail::find(m_contents.colourways, id);
    if (!stored) {
        throw chartGone(QStringLiteral("a colourway"));
    }
    return *stored;
}

ChartId Document::addChart(const chart::Chart& chart, const chart::MotifPlan& plan) {
    return addChart(chart, plan, nullptr, tr("Add chart"));
}

ChartId Document::addTracedChart(const chart::Chart& chart, const TracedPage& page) {
    return addChart(chart, {}, &page, tr("Trace page"));
}

ChartId Document::addChart(const chart::Chart& given, const chart::MotifPlan& plan,
                           const TracedPage* page, const QString& text) {
    chart::Chart chart = detail::checkedChart(given);
    QSet<QString> taken;
    for (const StoredChart& one : m_contents.charts) {
        taken.insert(one.facts.name);
    }
    chart.name = detail::freeName(chart.name, taken);
    chart::MotifPlan checked = detail::checkedPlan(plan, chart.name);
    std::shared_ptr<const TracedPage> checkedPage;
    if (page) {
        checkedPage = std::make_shared<const TracedPage>(detail::checkedPage(*page, chart));
    }
    const ChartId id = m_store.nextChartId();
    StoredChart stored = detail::storedChart(id, std::move(chart), std::move(checked));
    stored.page = std::move(checkedPage);
    Edit edit;
    edit.charts.push_back({std::nullopt, std::move(stored)});
    perform(std::move(edit), text);
    return id;
}

void Document::renameChart(ChartId id, const QString& name) {
    const StoredChart& stored = existing(id);
    const QString wanted = detail::checkedChartName(name);
    if (wanted == stored.facts.name) {
        return;
    }
    if (std::ranges::any_of(m_contents.charts,
                            [&](const StoredChart& one) { return one.facts.name == wanted; })) {
        throw base::InputError({stored.facts.name, std::nullopt, QStringLiteral("name"),
                                QStringLiteral("a name that no other chart has"),
                                base::quotedForMessage(wanted)});
    }
    ChartPatch patch;
    patch.id = id;
    patch.before.name = stored.facts.name;
    patch.after.name = wanted;
    Edit edit;
    edit.patches.push_back(std::move(patch));
    perform(std::move(edit), tr("Rename chart"));
}

void Document::removeChart(ChartId id) {
    Edit edit;
    edit.charts.push_back({existing(id), std::nullopt});
    for (const StoredColourway& one : colourways(id)) {
        edit.colourways.push_back({one, std::nullopt});
    }
    perform(std::move(edit), tr("Delete chart"));
}

void Document::changeChart(ChartId id, const chart::Chart& after, const QString& text,
                           const QString& mergeKey, std::span<const chart::Cell> seen) {
    const StoredChart& stored = existing(id);
    const chart::Chart& before = *stored.chart;
    if (after.grid.columns() != before.grid.columns() || after.grid.rows() != before.grid.rows()) {
        throw base::InputError(
            {before.name,
             std::nullopt,
             {},
             QStringLiteral("a grid of the same size"),
             QStringLiteral("%1 x %2").arg(after.grid.columns()).arg(after.grid.rows())});
    }
    chart::Chart checked = after;
    checked.name = before.name;
    checked = detail::checkedChart(std::move(checked));
    ChartPatch patch;
    patch.id = id;
    patch.cells = difference(before.grid, checked.grid);
    patch.before.cells = detail::cellsOf(before.grid, patch.cells);
    patch.after.cells = detail::cellsOf(checked.grid, patch.cells);
    chart::Key keyBefore = detail::withoutStitches(before.key);
    chart::Key keyAfter = detail::withoutStitches(checked.key);
    if (!(keyAfter == keyBefore)) {
        patch.before.key = std::move(keyBefore);
        patch.after.key = std::move(keyAfter);
    }
    if (!(checked.lines == before.lines)) {
        patch.before.lines = before.lines;
        patch.after.lines = checked.lines;
    }
    if (stored.page) {
        detail::mark(patch, stored, seen, true);
    }
    Edit edit;
    if (!(patch.before == patch.after)) {
        edit.patches.push_back(std::move(patch));
    }
    perform(std::move(edit), text, mergeKey);
}

void Document::setSeen(ChartId id, std::span<const chart::Cell> cells, bool seen,
                       const QString& text, const QString& mergeKey) {
    const StoredChart& stored = existing(id);
    if (!stored.page) {
        throw chartGone(QStringLiteral("the page of a chart"));
    }
    ChartPatch patch;
    patch.id = id;
    detail::mark(patch, stored, cells, seen);
    Edit edit;
    if (!patch.marked.empty()) {
        edit.patches.push_back(std::move(patch));
    }
    perform(std::move(edit), text, mergeKey);
}

void Document::changeMotifPlan(ChartId id, const chart::MotifPlan& after, const QString& text,
                               const QString& mergeKey) {
    const StoredChart& stored = existing(id);
    ChartPatch patch;
    patch.id = id;
    patch.before.plan = stored.plan;
    patch.after.plan = detail::checkedPlan(after, stored.facts.name);
    Edit edit;
    if (!(patch.before == patch.after)) {
        edit.patches.push_back(std::move(patch));
    }
    perform(std::move(edit), text, mergeKey);
}

ColourwayId Document::addColourway(ChartId chart, const QString& name, const QByteArray& content) {
    if (!detail::find(std::as_const(m_contents.charts), chart)) {
        throw chartGone(QStringLiteral("a chart"));
    }
    detail::checkColourway(name, content);
    const ColourwayId id = m_store.nextColourwayId();
    Edit edit;
    edit.colourways.push_back({std::nullopt, StoredColourway{id, chart, name, content}});
    perform(std::move(edit), tr("Keep colourway"));
    return id;
}

void Document::changeColourway(ColourwayId id, const QString& name, const QByteArray& content,
                               const QString& text, const QString& mergeKey) {
    const StoredColourway& before = existing(id);
    detail::checkColourway(name, content);
    const StoredColourway after{id, before.chart, name, content};
    Edit edit;
    if (!(after == before)) {
        edit.colourways.push_back({before, after});
    }
    perform(std::move(edit), text, mergeKey);
}

void Document::removeColourway(ColourwayId id) {
    Edit edit;
    edit.colourways.push_back({existing(id), std::nullopt});
    perform(std::move(edit), tr("Delete colourway"));
}

void Document::announceCharts(const Edit& edit) {
    const bool renamed = std::ranges::any_of(
        edit.patches, [](const ChartPatch& patch) { return patch.after.name.has_value(); });
    if (!edit.charts.empty() || renamed) {
        Q_EMIT chartsChanged();
    }
    for (const ChartPatch& patch : edit.patches) {
        if (!patch.cells.isEmpty() || patch.after.key || patch.after.lines) {
            Q_EMIT chartChanged(patch.id, patch.cells);
        }
        if (patch.after.plan) {
            Q_EMIT motifPlanChanged(patch.id);
        }
        if (!patch.marked.empty()) {
            Q_EMIT tracedPageChanged(patch.id);
        }
    }
    std::set<ChartId> charts;
    for (const ColourwayChange& change : edit.colourways) {
        charts.insert((change.before ? change.before : change.after)->chart);
    }
    for (const ChartId chart : charts) {
        Q_EMIT colourwaysChanged(chart);
    }
}

} // namespace otherskein::workbox
