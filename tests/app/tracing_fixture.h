#pragma once

#include "app/charts_fixture.h"
#include "app/tracing/trace_worker.h"
#include "app/tracing/traced_view.h"
#include "app/tracing/tracing_edits.h"

#include <QImage>
#include <QLabel>
#include <QPainter>

namespace otherskein::tests {

inline constexpr int kPrintedCell = 24; ///< px of a cell in the pages made here

/// What is printed for each letter of `print`: its own symbol, black on white; a dot is blank.
[[nodiscard]] inline QImage printed(const std::vector<std::string>& print) {
    QImage page(static_cast<int>(print.front().size()) * kPrintedCell,
                static_cast<int>(print.size()) * kPrintedCell, QImage::Format_RGB32);
    page.fill(Qt::white);
    QPainter painter(&page);
    for (int row = 0; row < static_cast<int>(print.size()); ++row) {
        for (int column = 0; column < static_cast<int>(print.front().size()); ++column) {
            const QRectF cell(column * kPrintedCell, row * kPrintedCell, kPrintedCell,
                              kPrintedCell);
            painter.setPen(QColor(0x90, 0x90, 0x90));
            painter.drawRect(cell);
            const char letter =
                print[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
            if (letter != '.') {
                drawing::paintSymbol(painter, letter - 'a', cell.adjusted(4, 4, -4, -4), Qt::black);
            }
        }
    }
    return page;
}

/// A tracing as a tracer may give it: `read` is what it took the print for; of the cells where it
/// was wrong, and of `unsure` ones, it is not sure. Rows of the key are A, B, C …
[[nodiscard]] inline trace::Tracing tracingOf(const std::vector<std::string>& print,
                                              const std::vector<std::string>& read,
                                              const std::vector<chart::Cell>& unsure = {},
                                              std::size_t keyRows = 3) {
    trace::Tracing tracing;
    tracing.chart = chartOf("leaf", read, keyRows);
    for (std::size_t i = 0; i < tracing.chart.key.size(); ++i) {
        chart::KeyRow& row = tracing.chart.key[i];
        row.symbol = QString(QLatin1Char(static_cast<char>('A' + i)));
        row.card.clear();
        row.code = QStringLiteral("Q-%1").arg(7 + i); // of the fixture's card
        row.name = QStringLiteral("as printed");
    }
    tracing.straight = printed(print);
    tracing.cell = kPrintedCell;
    const chart::Grid& grid = tracing.chart.grid;
    tracing.confidence.assign(grid.cells().size(), 0.95F);
    float next = 0.1F;
    for (std::size_t row = 0; row < print.size(); ++row) {
        for (std::size_t column = 0; column < print[row].size(); ++column) {
            if (print[row][column] != read[row][column]) {
                tracing.confidence[row * print[row].size() + column] = next;
                next += 0.05F;
            }
        }
    }
    for (const chart::Cell& cell : unsure) {
        tracing.confidence[grid.indexOf(cell)] = 0.4F;
    }
    return tracing;
}

/// The place Charts beside a page on which the tracer took three cells for others: the least sure
/// at 1, 0, then 5, 1, then 0, 3; and was not sure of 6, 4, which is right.
struct OpenTraced : OpenCharts {
    std::vector<std::string> print{"aaa..bbb", //
                                   "aaa..bcb", //
                                   "aaa..bbb", //
                                   "c.......", //
                                   "ccca.bb.", //
                                   "aaaa...."};
    workbox::ChartId leaf{};

    OpenTraced() {
        std::vector<std::string> read = print;
        read[0][1] = 'b';
        read[1][5] = 'c';
        read[3][0] = '.';
        const trace::Tracing tracing = tracingOf(print, read, {{6, 4}});
        leaf = document.addTracedChart(tracing.chart, app::pageOf(tracing));
        session.chooseChart(leaf);
        document.undoStack().clear();
        change([](app::ChartsState& state) { state.pageView = app::PageView::Cells; });
        QTest::qWait(0); // the halves take their size
    }

    [[nodiscard]] app::TracedView& view() const { return place->tracedView(); }
    [[nodiscard]] app::TracedDesk& traced() const { return view().traced(); }
    [[nodiscard]] chart::Chart chart() const { return *document.chart(leaf); }
    [[nodiscard]] chart::KeyIndex at(const chart::Cell& cell) const {
        return chart().grid.at(cell);
    }
    [[nodiscard]] bool seen(const chart::Cell& cell) const {
        return document.tracedPage(leaf)->seen[chart().grid.indexOf(cell)] != 0;
    }
    [[nodiscard]] std::optional<chart::Cell> current() const { return state().current; }
    /// As the user types: to whatever has the focus.
    void press(Qt::Key key, Qt::KeyboardModifiers modifiers = {}) const {
        QWidget* focus = place->window()->focusWidget();
        QTest::keyClick(focus != nullptr ? focus : place.get(), key, modifiers);
    }
    [[nodiscard]] bool says(const QString& text) const {
        for (const auto* label : place->findChildren<QLabel*>()) {
            if (label->isVisible() && label->text() == text) {
                return true;
            }
        }
        return false;
    }
};

} // namespace otherskein::tests
