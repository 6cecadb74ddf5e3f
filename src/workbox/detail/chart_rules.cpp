#include "workbox/detail/chart_rules.h"

#include "base/input_error.h"

#include <QJsonDocument>

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

namespace otherskein::workbox::detail {

namespace {

constexpr std::size_t kMostMotifEdits = 100'000;
constexpr std::size_t kMostCutPoints = 1'000'000; // of all cuts of a plan together
constexpr qsizetype kMostContent = 64 * 1024 * 1024;

base::InputError bad(const QString& source, const QString& expected, const QString& found) {
    return base::InputError({source, std::nullopt, {}, expected, found});
}

void checkText(const QString& source, const QString& text) {
    if (text.contains(QChar(u'\0')) || !text.isValidUtf16()) {
        throw bad(source, QStringLiteral("text without NUL and broken characters"),
                  base::quotedForMessage(text));
    }
}

void checkKey(const chart::Key& key, const QString& chartName) {
    std::set<std::tuple<int, int, int>> pixels;
    for (const chart::KeyRow& row : key) {
        for (const QString& text : {row.symbol, row.card, row.code, row.name}) {
            checkText(chartName, text);
        }
        if (row.strands < 1 || row.strands > thread::limits::kMostStrands) {
            throw bad(chartName,
                      QStringLiteral("1 to %1 strands").arg(thread::limits::kMostStrands),
                      QString::number(row.strands));
        }
        if (!std::isfinite(row.lab.L) || !std::isfinite(row.lab.a) || !std::isfinite(row.lab.b)) {
            throw bad(chartName,
                      QStringLiteral("a colour of finite numbers in each row of the key"),
                      QStringLiteral("others"));
        }
        if (!pixels.emplace(row.pixel.r, row.pixel.g, row.pixel.b).second) {
            throw bad(chartName, QStringLiteral("a colour of its own for each row of the key"),
                      colour::toHex(row.pixel) + QStringLiteral(" again"));
        }
    }
}

/// Checks cells and counts them in one go: there may be millions.
void countStitches(chart::Chart& chart) {
    std::vector<int> counts(chart.key.size(), 0);
    for (const chart::KeyIndex key : std::as_const(chart.grid).cells()) {
        if (key == chart::kBare) {
            continue;
        }
        if (key >= counts.size()) {
            throw bad(chart.name, QStringLiteral("stitches that name a row of the key"),
                      QStringLiteral("row %1 of %2").arg(key + 1).arg(counts.size()));
        }
        ++counts[key];
    }
    for (std::size_t i = 0; i < counts.size(); ++i) {
        chart.key[i].stitches = counts[i];
    }
}

void checkLines(const chart::Chart& chart) {
    const int right = 2 * chart.grid.columns();
    const int bottom = 2 * chart.grid.rows();
    for (const chart::Line& line : chart.lines) {
        const bool onGrid = std::min(line.x1, line.x2) >= 0 &&
                            std::max(line.x1, line.x2) <= right &&
                            std::min(line.y1, line.y2) >= 0 && std::max(line.y1, line.y2) <= bottom;
        if (!onGrid || line.key >= chart.key.size() || (line.x1 == line.x2 && line.y1 == line.y2)) {
            throw bad(chart.name,
                      QStringLiteral("lines on the grid that have a length and name a row of the "
                                     "key"),
                      QStringLiteral("%1, %2 to %3, %4 of row %5")
                          .arg(line.x1)
                          .arg(line.y1)
                          .arg(line.x2)
                          .arg(line.y2)
                          .arg(line.key + 1));
        }
    }
}

} // namespace

QString freeName(const QString& wanted, const QSet<QString>& taken) {
    QString name = wanted;
    for (int number = 2; taken.contains(name); ++number) {
        name = QStringLiteral("%1 (%2)").arg(wanted).arg(number);
    }
    return name;
}

QString checkedChartName(const QString& name) {
    const QString source = QStringLiteral("chart");
    checkText(source, name);
    QString trimmed = name.trimmed();
    if (trimmed.isEmpty()) {
        throw bad(source, QStringLiteral("a name"), QStringLiteral("none"));
    }
    return trimmed;
}

chart::Chart checkedChart(chart::Chart chart) {
    chart.name = checkedChartName(chart.name);
    const chart::Grid& grid = chart.grid;
    if (grid.columns() < 1 || grid.rows() < 1 || grid.columns() > chart::kMostColumns ||
        grid.rows() > chart::kMostRows) {
        throw bad(chart.name,
                  QStringLiteral("1 to %1 columns and 1 to %2 rows")
                      .arg(chart::kMostColumns)
                      .arg(chart::kMostRows),
                  QStringLiteral("%1 x %2").arg(grid.columns()).arg(grid.rows()));
    }
    if (chart.key.size() > chart::kMostKeyRows || chart.lines.size() > chart::kMostLines) {
        throw bad(chart.name,
                  QStringLiteral("at most %1 rows in the key and %2 lines")
                      .arg(chart::kMostKeyRows)
                      .arg(chart::kMostLines),
                  QStringLiteral("%1 and %2").arg(chart.key.size()).arg(chart.lines.size()));
    }
    checkKey(chart.key, chart.name);
    countStitches(chart);
    checkLines(chart);
    return chart;
}

chart::MotifPlan checkedPlan(chart::MotifPlan plan, const QString& chartName) {
    if (plan.step < 0 || plan.step >= chart::kMotifSteps || plan.edits.size() > kMostMotifEdits) {
        throw bad(chartName,
                  QStringLiteral("a step from 0 to %1 and at most %2 changes by hand")
                      .arg(chart::kMotifSteps - 1)
                      .arg(kMostMotifEdits),
                  QStringLiteral("step %1, %2 changes").arg(plan.step).arg(plan.edits.size()));
    }
    std::size_t points = 0;
    for (const chart::MotifEdit& edit : plan.edits) {
        if (const auto* name = std::get_if<chart::NameMotif>(&edit)) {
            checkText(chartName, name->name);
        } else if (const auto* cut = std::get_if<chart::CutMotif>(&edit)) {
            points += cut->path.size();
            if (points > kMostCutPoints) {
                throw bad(chartName,
                          QStringLiteral("at most %1 points in all cuts").arg(kMostCutPoints),
                          QStringLiteral("more"));
            }
            if (!std::ranges::all_of(cut->path, [](const chart::CutMotif::Point& point) {
                    return std::isfinite(point.x) && std::isfinite(point.y);
                })) {
                throw bad(chartName, QStringLiteral("a cut along finite numbers"),
                          QStringLiteral("others"));
            }
        }
    }
    return plan;
}

TracedPage checkedPage(TracedPage page, const chart::Chart& chart) {
    const std::size_t cells = chart.grid.cells().size();
    if (page.seen.empty()) {
        page.seen.assign(cells, 0);
    }
    if (page.picture.isEmpty() || page.picture.size() > kMostTracedBytes || page.cell < 1 ||
        page.cell > kMostTracedCell) {
        throw bad(chart.name,
                  QStringLiteral("a picture of the page in at most %1 bytes, with cells of 1 to %2 "
                                 "px")
                      .arg(kMostTracedBytes)
                      .arg(kMostTracedCell),
                  QStringLiteral("%1 bytes, %2 px").arg(page.picture.size()).arg(page.cell));
    }
    if (page.confidence.size() != cells || page.seen.size() != cells) {
        throw bad(chart.name,
                  QStringLiteral("how sure it is, and whether it was seen, of each of %1 cells")
                      .arg(cells),
                  QStringLiteral("%1 and %2").arg(page.confidence.size()).arg(page.seen.size()));
    }
    for (std::uint8_t& seen : page.seen) {
        seen = seen == 0 ? 0 : 1;
    }
    return page;
}

void checkColourway(const QString& name, const QByteArray& content) {
    const QString source = QStringLiteral("colourway");
    checkText(source, name);
    // The file keeps it as text: a mark of byte order, for one, would not come back.
    if (content.size() > kMostContent || !QJsonDocument::fromJson(content).isObject() ||
        QString::fromUtf8(content).toUtf8() != content) {
        throw bad(source, QStringLiteral("one JSON object in plain UTF-8"),
                  QStringLiteral("something else"));
    }
}

StoredChart storedChart(ChartId id, chart::Chart chart, chart::MotifPlan plan) {
    const ChartFacts facts = factsOf(id, chart);
    return {facts, std::move(plan), std::make_shared<const chart::Chart>(std::move(chart)),
            nullptr};
}

} // namespace otherskein::workbox::detail
