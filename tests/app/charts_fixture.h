#pragma once

#include "app/charts/chart_desk.h"
#include "app/charts/chart_list.h"
#include "app/charts/charts_place.h"
#include "app/charts/mend_canvas.h"
#include "chart/chart_files.h"
#include "drawing/symbols.h"

#include <QDir>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <memory>
#include <string>
#include <vector>

namespace otherskein::tests {

/// Letters name rows of the key (a is 0), a dot is bare.
[[nodiscard]] inline chart::Chart chartOf(const char* name, const std::vector<std::string>& rows,
                                          std::size_t keyRows) {
    chart::Chart chart;
    chart.name = QString::fromLatin1(name);
    chart.grid = {static_cast<int>(rows.front().size()), static_cast<int>(rows.size())};
    for (int row = 0; row < chart.grid.rows(); ++row) {
        for (int column = 0; column < chart.grid.columns(); ++column) {
            const char letter =
                rows[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
            if (letter != '.') {
                chart.grid.set({column, row}, static_cast<chart::KeyIndex>(letter - 'a'));
            }
        }
    }
    for (std::size_t i = 0; i < keyRows; ++i) {
        chart::KeyRow row;
        row.pixel = {static_cast<std::uint8_t>(60 + 50 * i), 80, 120};
        row.symbol = drawing::symbolName(static_cast<int>(i));
        row.card = QStringLiteral("quay");
        row.code = QStringLiteral("Q-%1").arg(i + 1);
        row.name = QStringLiteral("Quay %1").arg(i + 1);
        chart.key.push_back(row);
    }
    chart::recount(chart);
    return chart;
}

/// The place Charts alone in a window, on a workbox with a card of three threads and two charts:
/// `gate`, 8 × 6, is the one in use, and `sill`, 4 × 3.
struct OpenCharts {
    QTemporaryDir folder;
    workbox::Document document{folder.filePath(QStringLiteral("workbox.sqlite"))};
    app::Session session{document};
    std::unique_ptr<app::ChartsPlace> place;
    workbox::ChartId gate{};
    workbox::ChartId sill{};

    OpenCharts() {
        thread::ShadeCard card{QStringLiteral("quay"), {}, {}};
        card.threads = {
            thread::threadOfSrgb(QStringLiteral("Q-7"), QStringLiteral("Rust"), {0xa0, 0x40, 0x20}),
            thread::threadOfSrgb(QStringLiteral("Q-8"), QStringLiteral("Sail"), {0xf2, 0xf0, 0xec}),
            thread::threadOfSrgb(QStringLiteral("Q-9"), QStringLiteral("Tar"), {0x20, 0x20, 0x20})};
        document.addCard(card);
        gate = document.addChart(chartOf("gate",
                                         {"aaa..bbb", //
                                          "aaa..bbb", //
                                          "aaa..bbb", //
                                          "........", //
                                          "aaaa.bb.", //
                                          "aaaa...."},
                                         3));
        sill = document.addChart(chartOf("sill", {"ab.b", "....", "aaaa"}, 2));
        session.chooseChart(gate);
        document.undoStack().clear();
        place = std::make_unique<app::ChartsPlace>(session);
        place->resize(1194, 776);
        place->show();
        [[maybe_unused]] const bool shown = QTest::qWaitForWindowExposed(place.get());
    }

    [[nodiscard]] app::MendCanvas& canvas() const { return place->canvas(); }
    [[nodiscard]] const app::ChartsState& state() const { return place->state(); }
    [[nodiscard]] chart::Chart stored() const { return *document.chart(gate); }
    [[nodiscard]] int steps() const {
        return const_cast<workbox::Document&>(document).undoStack().index();
    }
    void undo() { document.undoStack().undo(); }

    template <typename Change>
    void change(const Change& how) const {
        app::ChartsState state = place->state();
        how(state);
        place->setState(state);
    }
    void setMode(app::MendMode mode, std::optional<chart::KeyIndex> row = std::nullopt) const {
        change([&](app::ChartsState& state) {
            state.mode = mode;
            state.row = row;
        });
    }

    /// The middle of a cell, as the mouse sees it.
    [[nodiscard]] QPoint at(int column, int row) const {
        return drawing::fromCells(canvas().view(), {column + 0.5, row + 0.5}).toPoint();
    }
    void click(int column, int row, Qt::KeyboardModifiers keys = {}) const {
        QTest::mouseClick(&canvas(), Qt::LeftButton, keys, at(column, row));
    }
    void drag(const std::vector<QPoint>& points) const {
        QTest::mousePress(&canvas(), Qt::LeftButton, {}, points.front());
        for (const QPoint& point : points) {
            // QTest's own moves come without the button on some platforms.
            QMouseEvent move(QEvent::MouseMove, point, canvas().mapToGlobal(point), Qt::NoButton,
                             Qt::LeftButton, {});
            QCoreApplication::sendEvent(&canvas(), &move);
        }
        QTest::mouseRelease(&canvas(), Qt::LeftButton, {}, points.back());
    }

    /// The shown control of that accessible name, or null.
    template <typename Widget>
    [[nodiscard]] Widget* control(const char* name) const {
        for (auto* one : place->template findChildren<Widget*>()) {
            if (one->accessibleName() == QString::fromUtf8(name) && one->isVisible()) {
                return one;
            }
        }
        return nullptr;
    }
};

} // namespace otherskein::tests
