// From a file of pages to a chart in the workbox, with a tracer that answers as it is told.

#include "app/tracing_dialog_fixture.h"

#include "base/input_error.h"

#include <catch2/catch.hpp>

#include <QLabel>
#include <QPushButton>
#include <QSpinBox>

using namespace otherskein;
using tests::Asked;
using tests::OpenCharts;
using tests::OpenDialog;
using tests::tracerOf;

TEST_CASE("one page with a grid becomes a chart with its page at one press") {
    OpenDialog open;
    CHECK_FALSE(open.pages().isVisible());
    CHECK(open.says(QStringLiteral("For your own stitching.")));
    auto& make = open.control<QPushButton>("Make the chart");
    REQUIRE(make.isEnabled());
    QTest::keyClick(&open.dialog, Qt::Key_Return, Qt::ControlModifier);
    // A button that is pressed by its keys goes down for a moment first.
    REQUIRE(QTest::qWaitFor([&] { return open.made.has_value(); }));
    open.settle();
    const auto chart = open.charts.document.chart(*open.made);
    CHECK(chart->name == QStringLiteral("Leaf of May"));
    CHECK(chart->grid == open.tracing.chart.grid);
    CHECK(chart->key[0].name == QStringLiteral("Rust")); // its code is on the card
    REQUIRE(open.charts.document.tracedPage(*open.made));
    CHECK(open.charts.document.tracedPage(*open.made)->cell == tests::kPrintedCell);
    CHECK(open.charts.steps() == 1);
    CHECK_FALSE(open.dialog.isVisible());
    open.charts.undo();
    CHECK(open.charts.document.chart(*open.made) == nullptr);
    open.charts.document.undoStack().redo();
    CHECK(open.charts.document.tracedPage(*open.made));
}

TEST_CASE("Enter on the page makes the chart") {
    OpenDialog open;
    QTest::keyClick(&open.preview(), Qt::Key_Return);
    REQUIRE(QTest::qWaitFor([&] { return open.made.has_value(); }));
}

TEST_CASE("a click or a number chooses a grid, and none leaves nothing to make") {
    OpenDialog open;
    REQUIRE(open.asked.joinedGrids == std::vector<std::size_t>{1}); // the largest by itself
    const QPointF second = open.preview().outlineOf(1).boundingRect().center();
    QTest::mouseClick(&open.preview(), Qt::LeftButton, {}, second.toPoint());
    open.settle();
    CHECK(open.asked.joinedGrids == std::vector<std::size_t>{2});
    QTest::keyClick(&open.preview(), Qt::Key_1);
    open.settle();
    CHECK(open.asked.joinedGrids == std::vector<std::size_t>{1});
    QTest::keyClick(&open.preview(), Qt::Key_2);
    open.settle();
    CHECK_FALSE(open.control<QPushButton>("Make the chart").isEnabled());
}

TEST_CASE("pages are read when they are looked at or ticked, and joined as the user says") {
    OpenDialog open(4);
    CHECK(open.pages().isVisible());
    CHECK(open.asked.read == std::vector<int>{1});
    CHECK(open.pages().item(0)->checkState() == Qt::Checked);
    open.pages().setFocus();
    QTest::keyClick(&open.pages(), Qt::Key_Down);
    QTest::keyClick(&open.pages(), Qt::Key_Space);
    open.settle();
    CHECK(open.asked.read == std::vector<int>{1, 2});
    CHECK(open.asked.joinedGrids == std::vector<std::size_t>{1, 1});
    auto& column = open.control<QSpinBox>("First column of piece 2");
    CHECK(column.isVisible());
    CHECK(column.value() == 9); // beside the first
    column.setFocus();
    QTest::keyClick(&column, Qt::Key_Down);
    auto& row = open.control<QSpinBox>("First row of piece 2");
    QTest::keyClick(&row, Qt::Key_Up);
    QTest::mouseClick(&open.control<QPushButton>("Make the chart"), Qt::LeftButton);
    open.settle();
    REQUIRE(open.made);
    REQUIRE(open.asked.traced.size() == 2);
    CHECK(open.asked.traced[1].place == chart::Cell{7, 1});
    CHECK(open.asked.traced[1].page == 1);
}

TEST_CASE("a page without a chart says so, and does not count") {
    OpenDialog open(4);
    open.pages().setCurrentRow(2);
    open.settle();
    CHECK(open.says(QStringLiteral("No chart was found on this page.")));
    CHECK(open.pages().item(2)->checkState() == Qt::Unchecked);
    CHECK(open.control<QPushButton>("Make the chart").isEnabled()); // of page 1
}

TEST_CASE("errors are one line in the dialog, which stays") {
    SECTION("of the file") {
        OpenDialog open(1, [](app::Tracer& tracer) {
            tracer.pageCount = [](const QString& file) -> int {
                throw base::InputError(
                    {file, {}, {}, QStringLiteral("a PDF"), QStringLiteral("x")});
            };
        });
        CHECK(open.trouble() == QStringLiteral("/pages/Leaf of May.pdf: expected a PDF, found x"));
        CHECK_FALSE(open.control<QPushButton>("Make the chart").isEnabled());
    }
    SECTION("of a page") {
        OpenDialog open(2, [](app::Tracer& tracer) {
            tracer.readPage = [](const QString& file, int) -> trace::Page {
                throw base::InputError(
                    {file, {}, {}, QStringLiteral("a page"), QStringLiteral("y")});
            };
        });
        CHECK(open.trouble().endsWith(QStringLiteral("found y")));
    }
    SECTION("of tracing") {
        OpenDialog open(1, [](app::Tracer& tracer) {
            tracer.traced = [](auto, auto, const auto&) -> std::optional<trace::Tracing> {
                throw base::InputError({QStringLiteral("p"),
                                        {},
                                        {},
                                        QStringLiteral("symbols"),
                                        QStringLiteral("none")});
            };
        });
        QTest::mouseClick(&open.control<QPushButton>("Make the chart"), Qt::LeftButton);
        open.settle();
        CHECK(open.trouble() == QStringLiteral("p: expected symbols, found none"));
        CHECK(open.dialog.isVisible());
        CHECK_FALSE(open.made);
        CHECK(open.charts.steps() == 0);
        CHECK(open.control<QPushButton>("Make the chart").isEnabled()); // to try again
    }
}

TEST_CASE("Stop ends tracing with nothing added") {
    std::atomic<bool> begun = false;
    OpenDialog open(1, [&](app::Tracer& tracer) {
        tracer.traced = [&](auto, auto,
                            const trace::Progress& progress) -> std::optional<trace::Tracing> {
            begun = true;
            while (progress(0.25)) {
                QThread::msleep(1);
            }
            return std::nullopt;
        };
    });
    QTest::mouseClick(&open.control<QPushButton>("Make the chart"), Qt::LeftButton);
    REQUIRE(QTest::qWaitFor([&] { return begun.load(); }));
    CHECK_FALSE(open.preview().isEnabled());
    QTest::mouseClick(&open.control<QPushButton>("Stop"), Qt::LeftButton);
    open.settle();
    CHECK(open.trouble() == QStringLiteral("Stopped. Nothing has been added."));
    CHECK_FALSE(open.made);
    CHECK(open.charts.steps() == 0);
}

TEST_CASE("closing the dialog while it traces stops the work") {
    OpenCharts charts;
    Asked asked;
    app::Tracer tracer = tracerOf(asked, 1, {});
    std::atomic<bool> begun = false;
    tracer.traced = [&](auto, auto,
                        const trace::Progress& progress) -> std::optional<trace::Tracing> {
        begun = true;
        while (progress(0)) {
            QThread::msleep(1);
        }
        return std::nullopt;
    };
    auto dialog = std::make_unique<app::TraceDialog>(
        charts.session, QStringList{QStringLiteral("a.png")}, nullptr, tracer);
    dialog->show();
    dialog->activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(dialog.get()));
    REQUIRE(QTest::qWaitFor([&] { return !dialog->isBusy(); }));
    QTest::keyClick(dialog.get(), Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(QTest::qWaitFor([&] { return begun.load(); }));
    QTest::keyClick(dialog.get(), Qt::Key_Escape);
    dialog.reset();
    CHECK(QThreadPool::globalInstance()->waitForDone(5000)); // it would never end by itself
    CHECK(charts.steps() == 0);
}

TEST_CASE("a picture of many colours is refused as a chart and offered for tracing") {
    OpenCharts open;
    const QString path = open.folder.filePath(QStringLiteral("scan.png"));
    QImage scan(40, 40, QImage::Format_RGB32);
    for (int i = 0; i < 1600; ++i) {
        scan.setPixel(i % 40, i / 40, qRgb(i % 256, i / 256, 7));
    }
    REQUIRE(scan.save(path));
    QSignalSpy refused(open.place.get(), &app::ChartsPlace::refused);
    open.place->openFiles({path});
    REQUIRE(refused.count() == 1);
    CHECK(refused.front().front().toString().endsWith(
        QStringLiteral("If it is a printed page, use “Trace a page…”.")));
    CHECK(open.control<QPushButton>("Trace a page…"));
}
