// Several pages and files, reading that is stopped or goes wrong, pieces put right by hand.

#include "app/tracing_dialog_fixture.h"

#include "app/charts/chart_jobs.h"
#include "base/input_error.h"

#include <catch2/catch.hpp>

#include <QMouseEvent>
#include <QPushButton>
#include <QSpinBox>

using namespace otherskein;
using tests::OpenCharts;
using tests::OpenDialog;

TEST_CASE("several files are pages of one chart, in order, and all of them belong to it") {
    OpenDialog open(1, [](app::Tracer&) {},
                    {QStringLiteral("/pages/left.jpg"), QStringLiteral("/pages/right.jpg")});
    CHECK(open.asked.files ==
          QStringList{QStringLiteral("/pages/left.jpg"), QStringLiteral("/pages/right.jpg")});
    CHECK(open.pages().isVisible());
    CHECK(open.pages().item(1)->text() == QStringLiteral("2: right.jpg"));
    CHECK(open.pages().item(1)->checkState() == Qt::Checked);
    CHECK(open.asked.joinedGrids == std::vector<std::size_t>{1, 1});
    QTest::keyClick(&open.dialog, Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(QTest::qWaitFor([&] { return open.made.has_value(); }));
    CHECK(open.asked.traced.size() == 2);
    CHECK(open.charts.document.chart(*open.made)->name == QStringLiteral("left"));
}

TEST_CASE("a file that cannot be read is told of, and the others can be used") {
    const auto refuse = [](const QString& file) {
        throw base::InputError({file, {}, {}, QStringLiteral("a page"), QStringLiteral("soup")});
    };
    const QStringList files{QStringLiteral("a.jpg"), QStringLiteral("b.jpg"),
                            QStringLiteral("c.jpg")};
    SECTION("when its pages are counted") {
        OpenDialog open(
            1,
            [&](app::Tracer& tracer) {
                tracer.pageCount = [refuse](const QString& file) {
                    if (file == QStringLiteral("b.jpg")) {
                        refuse(file);
                    }
                    return 1;
                };
            },
            files);
        CHECK(open.trouble() == QStringLiteral("b.jpg: expected a page, found soup"));
        CHECK(open.pages().count() == 2);
        CHECK(open.asked.joinedGrids == std::vector<std::size_t>{1, 1});
    }
    SECTION("when it is read") {
        OpenDialog open(
            1,
            [&](app::Tracer& tracer) {
                tracer.readPage = [refuse, read = tracer.readPage](const QString& file, int page) {
                    if (file == QStringLiteral("b.jpg")) {
                        refuse(file);
                    }
                    return read(file, page);
                };
            },
            files);
        CHECK(open.trouble() == QStringLiteral("b.jpg: expected a page, found soup"));
        CHECK(open.pages().item(1)->text() == QStringLiteral("2: b.jpg, unreadable"));
        CHECK(open.pages().item(1)->checkState() == Qt::Unchecked);
        CHECK(open.asked.joinedGrids == std::vector<std::size_t>{1, 1});
        CHECK(open.control<QPushButton>("Make the chart").isEnabled());
    }
}

TEST_CASE("pages of another file are added to those that are there") {
    OpenDialog open;
    CHECK_FALSE(open.pages().isVisible());
    CHECK(open.control<QPushButton>("Add pages…").isEnabled());
    open.dialog.addFiles({QStringLiteral("/pages/b.jpg"), QStringLiteral("/pages/a.jpg")});
    open.settle();
    CHECK(open.asked.files == QStringList{QStringLiteral("/pages/Leaf of May.pdf"),
                                          QStringLiteral("/pages/a.jpg"),
                                          QStringLiteral("/pages/b.jpg")});
    CHECK(open.asked.joinedGrids == std::vector<std::size_t>{1, 1, 1});
    CHECK(open.pages().isVisible());
}

TEST_CASE("All pages ticks those that have a chart") {
    OpenDialog open(4);
    QTest::mouseClick(&open.control<QPushButton>("All pages"), Qt::LeftButton);
    open.settle();
    CHECK(open.asked.read == std::vector<int>{1, 2, 3, 4});
    CHECK(open.asked.joinedGrids == std::vector<std::size_t>{1, 1, 1});
    CHECK(open.pages().item(2)->checkState() == Qt::Unchecked);
    CHECK(open.pages().item(2)->text() == QStringLiteral("Page 3, no chart"));
    CHECK_FALSE(open.control<QPushButton>("All pages").isEnabled());
}

TEST_CASE("Stop acts at once while a page is being read, and Read on takes it up again") {
    std::atomic<bool> begun = false;
    std::atomic<bool> goOn = false;
    OpenDialog open(
        1,
        [&](app::Tracer& tracer) {
            tracer.readPage = [&begun, &goOn, read = tracer.readPage](const QString& file,
                                                                      int page) {
                begun = true;
                while (!goOn) {
                    QThread::msleep(1);
                }
                return read(file, page);
            };
        },
        {QStringLiteral("a.png")}, false);
    const bool reading = QTest::qWaitFor([&] { return begun.load(); });
    QTest::mouseClick(&open.control<QPushButton>("Stop"), Qt::LeftButton);
    const bool stopped = !open.dialog.isBusy();
    const bool told = open.says(QStringLiteral("Stopped."));
    goOn = true; // whatever comes, the job must end
    CHECK(reading);
    CHECK(stopped);
    CHECK(told);
    QThreadPool::globalInstance()->waitForDone();
    QTest::qWait(20);
    CHECK_FALSE(open.control<QPushButton>("Make the chart").isEnabled()); // it is not heard
    QTest::mouseClick(&open.control<QPushButton>("Read on"), Qt::LeftButton);
    open.settle();
    CHECK(open.asked.joinedGrids == std::vector<std::size_t>{1});
    CHECK(open.control<QPushButton>("Make the chart").isEnabled());
}

TEST_CASE("closing does not wait for a page that is being read") {
    std::atomic<bool> begun = false;
    std::atomic<bool> goOn = false;
    OpenDialog open(
        1,
        [&](app::Tracer& tracer) {
            tracer.readPage = [&](const QString& file, int page) {
                begun = true;
                while (!goOn) {
                    QThread::msleep(1);
                }
                return trace::Page{file, page, QImage(3, 4, QImage::Format_BGR888), {}};
            };
        },
        {QStringLiteral("a.png")}, false);
    const bool reading = QTest::qWaitFor([&] { return begun.load(); });
    QTest::keyClick(&open.dialog, Qt::Key_Escape);
    const bool closed = !open.dialog.isVisible() && !open.dialog.isBusy();
    goOn = true;
    CHECK(reading);
    CHECK(closed);
}

TEST_CASE("a piece is dragged in the sketch to where it belongs") {
    OpenDialog open(2);
    open.pages().item(1)->setCheckState(Qt::Checked);
    open.settle();
    CHECK(open.says(QStringLiteral("Together 16 × 6 stitches")));
    auto* sketch = open.dialog.findChild<app::PieceSketch*>();
    REQUIRE(sketch);
    REQUIRE(sketch->isVisible());
    const QRectF piece = sketch->rectOf(1);
    const double cell = piece.width() / 8;
    const auto send = [&](QEvent::Type type, const QPointF& at) {
        QMouseEvent event(type, at, sketch->mapToGlobal(at), Qt::LeftButton, Qt::LeftButton, {});
        QCoreApplication::sendEvent(sketch, &event);
    };
    send(QEvent::MouseButtonPress, piece.center());
    send(QEvent::MouseMove, piece.center() + QPointF(-3.1, 2.1) * cell);
    send(QEvent::MouseButtonRelease, piece.center() + QPointF(-3.1, 2.1) * cell);
    CHECK(open.control<QSpinBox>("First column of piece 2").value() == 6);
    CHECK(open.control<QSpinBox>("First row of piece 2").value() == 3);
    CHECK(open.says(QStringLiteral("Together 13 × 8 stitches")));
}

TEST_CASE("files that are opened together are pages in the order of their numbers") {
    CHECK(app::inOrderOfPages({QStringLiteral("p/scan 10.jpg"), QStringLiteral("p/scan 9.jpg"),
                               QStringLiteral("p/scan 1.jpg")}) ==
          QStringList{QStringLiteral("p/scan 1.jpg"), QStringLiteral("p/scan 9.jpg"),
                      QStringLiteral("p/scan 10.jpg")});
    OpenCharts open;
    QStringList files;
    for (const char* name : {"b.jpg", "a.jpg"}) {
        files.push_back(open.folder.filePath(QLatin1String(name)));
        QImage blank(60, 60, QImage::Format_RGB32);
        blank.fill(Qt::white);
        REQUIRE(blank.save(files.back()));
    }
    open.place->openFiles(files);
    auto* dialog = open.place->findChild<app::TraceDialog*>();
    REQUIRE(dialog);
    REQUIRE(QTest::qWaitFor([&] { return !dialog->isBusy(); }));
    const auto* pages = dialog->findChild<QListWidget*>();
    REQUIRE(pages->count() == 2);
    CHECK(pages->item(0)->text().startsWith(QStringLiteral("1: a.jpg")));
    dialog->reject();
}
