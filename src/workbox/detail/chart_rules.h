#pragma once

#include "workbox/store.h"

#include <QSet>

namespace otherskein::workbox::detail {

/// `wanted`, or "wanted (2)" and so on when it is taken.
[[nodiscard]] QString freeName(const QString& wanted, const QSet<QString>& taken);

/// The rules for a chart in the workbox: sizes and key within the limits, indices inside the key,
/// no two rows of one pixel, text that comes back as it went in. Stitches are counted, blanks
/// around the name dropped. Errors: InputError.
[[nodiscard]] chart::Chart checkedChart(chart::Chart chart);
[[nodiscard]] QString checkedChartName(const QString& name);
[[nodiscard]] chart::MotifPlan checkedPlan(chart::MotifPlan plan, const QString& chartName);
/// Of a chart that is checked: each cell has its confidence, and has been seen or not (nothing said
/// of it: not). Errors: InputError.
[[nodiscard]] TracedPage checkedPage(TracedPage page, const chart::Chart& chart);
/// Content is one JSON object. Errors: InputError.
void checkColourway(const QString& name, const QByteArray& content);

[[nodiscard]] StoredChart storedChart(ChartId id, chart::Chart chart, chart::MotifPlan plan);

} // namespace otherskein::workbox::detail
