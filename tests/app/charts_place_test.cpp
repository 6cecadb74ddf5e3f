#include "app/charts_fixture.h"

#include "app/charts/charts_empty.h"

#include <catch2/catch.hpp>

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractSlider>
#include <QAbstractSpinBox>
#include <QAccessible>
#include <QCheckBox>
#include <QComboBox>
#include <QDropEvent>
#include <QFile>
#include <QLineEdit>
#include <QMenu>
#include <QMimeData>
#include <QPushButton>
#include <QScrollBar>

using namespace otherskein;
using tests::OpenCharts;

namespace {

app::ChartList& listOf(const OpenCharts& open) {
    return *open.place->findChild<app::ChartList*>();
}

/// Writes a chart into the fixture's folder; the path of its picture.
QString onDisk(const OpenCharts& open, const chart::Chart& chart) {
    const QString picture = open.folder.filePath(chart.name + QStringLiteral(".png"));
    chart::writeChart(chart, picture, open.folder.filePath(chart.name + QStringLiteral(".key.csv")),
                      base::Existing::Replace);
    return picture;
}

QString withBytes(const OpenCharts& open, const char* name, const QByteArray& bytes) {
    const QString path = open.folder.filePath(QString::fromLatin1(name));
    QFile file(path);
    REQUIRE(file.open(QIODevice::WriteOnly));
    REQUIRE(file.write(bytes) == bytes.size());
    return path;
}

} // namespace

TEST_CASE("a picture that is opened comes with its key, and is the chart in use") {
    OpenCharts open;
    QSignalSpy told(open.place.get(), &app::ChartsPlace::told);
    const chart::Chart chart = tests::chartOf("lantern", {"ab", "c."}, 3);
    open.place->openFiles({onDisk(open, chart)});
    REQUIRE(listOf(open).count() == 3);
    CHECK(listOf(open).currentItem()->text() == QStringLiteral("lantern"));
    REQUIRE(open.place->desk().chart());
    CHECK(open.place->desk().chart()->grid == chart.grid);
    CHECK(open.place->desk().chart()->key[1].code == QStringLiteral("Q-2"));
    CHECK(told.count() == 1);
    open.undo();
    CHECK(listOf(open).count() == 2);
}

TEST_CASE("a bad picture is refused in one line and keeps nothing else out") {
    OpenCharts open;
    QSignalSpy refused(open.place.get(), &app::ChartsPlace::refused);
    const chart::Chart before = open.stored();
    const QString good = onDisk(open, tests::chartOf("lantern", {"a"}, 1));
    const QString bad = withBytes(open, "bad.png", "not a picture");
    open.place->openFiles({bad});
    CHECK(listOf(open).count() == 2);
    CHECK(open.place->desk().id() == open.gate);
    CHECK(open.stored() == before);
    REQUIRE(refused.count() == 1);
    const QString line = refused.front().front().toString();
    CHECK(line.contains(QStringLiteral("bad.png")));
    CHECK_FALSE(line.contains(u'\n'));
    open.place->openFiles({bad, good});
    CHECK(listOf(open).count() == 3);
    CHECK(refused.count() == 2);
}

TEST_CASE("a key that does not fit its picture is refused and no chart comes") {
    OpenCharts open;
    QSignalSpy refused(open.place.get(), &app::ChartsPlace::refused);
    const QString picture = onDisk(open, tests::chartOf("lantern", {"ab"}, 2));
    withBytes(open, "lantern.key.csv", "srgb,code\n#010203,X-1\n");
    open.place->openFiles({picture});
    CHECK(listOf(open).count() == 2);
    REQUIRE(refused.count() == 1);
    CHECK(refused.front().front().toString().contains(QStringLiteral("lantern.key.csv")));
}

TEST_CASE("pictures are dropped on the place") {
    OpenCharts open;
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(onDisk(open, tests::chartOf("lantern", {"a"}, 1)))});
    QDragEnterEvent enter({300, 300}, Qt::CopyAction, &data, Qt::LeftButton, {});
    QCoreApplication::sendEvent(open.place.get(), &enter);
    REQUIRE(enter.isAccepted());
    QDropEvent drop({300, 300}, Qt::CopyAction, &data, Qt::LeftButton, {});
    QCoreApplication::sendEvent(open.place.get(), &drop);
    CHECK(drop.isAccepted());
    CHECK(listOf(open).count() == 3);
}

TEST_CASE("files that are no pictures are left to the window") {
    OpenCharts open;
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(QStringLiteral("/nowhere/card.csv"))});
    QDragEnterEvent enter({300, 300}, Qt::CopyAction, &data, Qt::LeftButton, {});
    enter.ignore();
    QCoreApplication::sendEvent(open.place.get(), &enter);
    CHECK_FALSE(enter.isAccepted());
}

TEST_CASE("what is exported reads back as the same chart") {
    OpenCharts open;
    QSignalSpy refused(open.place.get(), &app::ChartsPlace::refused);
    const QString picture = open.folder.filePath(QStringLiteral("out.png"));
    open.place->exportTo(picture);
    const chart::Chart back = chart::readChart(chart::pathsBeside(picture));
    CHECK(back.grid == open.stored().grid);
    CHECK(back.key.size() == 3);
    CHECK(refused.count() == 0);
    // A key that stands there without its picture is somebody else's.
    QFile::remove(picture);
    open.place->exportTo(picture);
    CHECK(refused.count() == 1);
    CHECK_FALSE(QFile::exists(picture));
}

TEST_CASE("the keys of the list of charts go from chart to chart") {
    OpenCharts open;
    listOf(open).setFocus();
    QTest::keyClick(&listOf(open), Qt::Key_Down);
    CHECK(open.session.chartId() == open.sill);
    CHECK(open.place->desk().chart()->grid.columns() == 4);
    QTest::keyClick(&listOf(open), Qt::Key_Up);
    CHECK(open.session.chartId() == open.gate);
}

TEST_CASE("a chart is renamed in the list, and undo gives the old name back") {
    OpenCharts open;
    listOf(open).setFocus();
    QTest::keyClick(&listOf(open), Qt::Key_F2);
    auto* editor = listOf(open).viewport()->findChild<QLineEdit*>();
    REQUIRE(editor != nullptr);
    editor->selectAll();
    QTest::keyClicks(editor, QStringLiteral("north gate"));
    QTest::keyClick(editor, Qt::Key_Return);
    QCoreApplication::processEvents(); // the list takes the text
    QCoreApplication::processEvents(); // and then renames the chart
    CHECK(open.stored().name == QStringLiteral("north gate"));
    CHECK(open.place->desk().chart()->name == QStringLiteral("north gate"));
    open.undo();
    CHECK(listOf(open).item(0)->text() == QStringLiteral("gate"));
}

TEST_CASE("a deleted chart gives way to another one, and undo brings it back") {
    OpenCharts open;
    QSignalSpy told(open.place.get(), &app::ChartsPlace::told);
    listOf(open).setFocus();
    QTest::keyClick(&listOf(open), Qt::Key_Delete);
    CHECK(listOf(open).count() == 1);
    CHECK(open.place->desk().id() == open.sill);
    REQUIRE(told.count() == 1);
    CHECK(told.front().front().toString() ==
          QStringLiteral("The chart gate is deleted. Undo brings it back."));
    open.undo();
    CHECK(listOf(open).count() == 2);
    CHECK(open.stored().key.size() == 3);
}

TEST_CASE("without charts the place says how to begin") {
    OpenCharts open;
    open.document.removeChart(open.gate);
    open.document.removeChart(open.sill);
    auto* empty = open.place->findChild<app::ChartsEmpty*>();
    CHECK(empty->isVisible());
    QSignalSpy demo(open.place.get(), &app::ChartsPlace::demoAsked);
    QTest::mouseClick(open.control<QPushButton>("Open the demo"), Qt::LeftButton);
    CHECK(demo.count() == 1);
    QTest::keyClick(open.place.get(), Qt::Key_2); // no chart to mend
    QTest::keyClick(open.place.get(), Qt::Key_Escape);
    open.undo();
    CHECK_FALSE(empty->isVisible());
}

TEST_CASE("the looks of the chart") {
    OpenCharts open;
    const QImage stitches = open.canvas().grab().toImage();
    auto* grid = open.control<QCheckBox>("Grid");
    QTest::keyClick(grid, Qt::Key_Space);
    CHECK_FALSE(open.state().grid);
    CHECK_FALSE(open.canvas().grab().toImage() == stitches);
    auto* outlines = open.control<QCheckBox>("Outlines of motifs");
    const QImage before = open.canvas().grab().toImage();
    QTest::keyClick(outlines, Qt::Key_Space);
    CHECK(open.state().outlines);
    CHECK_FALSE(open.canvas().grab().toImage() == before);
    auto* symbols = open.control<QPushButton>("Drawn as: Symbols");
    const QImage drawn = open.canvas().grab().toImage();
    QTest::mouseClick(symbols, Qt::LeftButton);
    CHECK(open.state().look == app::ChartLook::Symbols);
    CHECK_FALSE(open.canvas().grab().toImage() == drawn);
}

TEST_CASE("buttons and keys zoom the chart") {
    OpenCharts open;
    const double whole = open.canvas().view().cell;
    QTest::mouseClick(open.control<QPushButton>("Zoom in"), Qt::LeftButton);
    CHECK(open.canvas().view().cell > whole);
    QTest::keyClick(&open.canvas(), Qt::Key_Minus);
    QTest::mouseClick(open.control<QPushButton>("Zoom out"), Qt::LeftButton);
    CHECK(open.canvas().view().cell < whole);
    QTest::mouseClick(open.control<QPushButton>("Whole chart"), Qt::LeftButton);
    CHECK_THAT(open.canvas().view().cell, Catch::WithinAbs(whole, 1e-9));
}

TEST_CASE("every control of Charts has an accessible name") {
    OpenCharts open;
    for (const auto page : {app::ChartsPage::Key, app::ChartsPage::Motifs}) {
        open.change([page](app::ChartsState& state) { state.page = page; });
        int controls = 0;
        for (const auto* widget : open.place->findChildren<QWidget*>()) {
            const bool control =
                qobject_cast<const QAbstractButton*>(widget) != nullptr ||
                qobject_cast<const QAbstractItemView*>(widget) != nullptr ||
                qobject_cast<const QAbstractSpinBox*>(widget) != nullptr ||
                (qobject_cast<const QAbstractSlider*>(widget) != nullptr &&
                 qobject_cast<const QScrollBar*>(widget) == nullptr) ||
                (qobject_cast<const QLineEdit*>(widget) != nullptr &&
                 qobject_cast<const QAbstractSpinBox*>(widget->parent()) == nullptr) ||
                qobject_cast<const app::ChartCanvas*>(widget) != nullptr;
            // Parts of Qt's tables that are never shown here.
            const bool unseen = widget->inherits("QTableCornerButton") ||
                                (widget->inherits("QHeaderView") && widget->isHidden());
            if (control && !unseen) {
                ++controls;
                CAPTURE(widget->metaObject()->className(), widget->objectName());
                CHECK_FALSE(widget->accessibleName().isEmpty());
            }
        }
        CHECK(controls > 25);
    }
}

TEST_CASE("a small window has a menu of charts instead of their list") {
    OpenCharts open;
    CHECK(open.control<QPushButton>("Charts of the workbox") == nullptr);
    open.place->resize(open.place->minimumSizeHint());
    CHECK_FALSE(listOf(open).isVisible());
    auto* charts = open.control<QPushButton>("Charts of the workbox");
    REQUIRE(charts != nullptr);
    Q_EMIT charts->menu()->aboutToShow();
    REQUIRE(charts->menu()->actions().size() == 5); // two charts, a line, to open or trace one
    charts->menu()->actions()[1]->trigger();
    CHECK(open.session.chartId() == open.sill);
    // Nothing is pushed out of the place.
    for (const char* name : {"Whole chart", "Drawn as: Symbols", "Recolour this chart"}) {
        auto* button = open.control<QPushButton>(name);
        CAPTURE(name);
        REQUIRE(button != nullptr);
        const QRect at(button->mapTo(open.place.get(), QPoint()), button->size());
        CHECK(open.place->rect().contains(at));
        CHECK(button->width() >= button->minimumSizeHint().width());
    }
}

TEST_CASE("from right to left the list stands on the right and the chart keeps its sides") {
    OpenCharts open;
    open.place->setLayoutDirection(Qt::RightToLeft);
    QCoreApplication::processEvents();
    CHECK(listOf(open).mapTo(open.place.get(), QPoint()).x() >
          open.canvas().mapTo(open.place.get(), QPoint()).x());
    CHECK(open.at(0, 0).x() < open.at(7, 0).x());
    open.click(6, 1);
    CHECK(open.state().row == chart::KeyIndex{1});
}

TEST_CASE("moving the pointer over the chart repaints no more than two cells") {
    OpenCharts open;
    open.setMode(app::MendMode::Stitch, chart::KeyIndex{2});
    QTest::mouseMove(&open.canvas(), open.at(1, 1));
    QTest::qWait(20);
    struct Watch : QObject {
        QRegion painted;
        bool eventFilter(QObject* /*watched*/, QEvent* event) override {
            if (event->type() == QEvent::Paint) {
                painted += static_cast<QPaintEvent*>(event)->region();
            }
            return false;
        }
    } watch;
    open.canvas().installEventFilter(&watch);
    QTest::mouseMove(&open.canvas(), open.at(3, 1));
    QTest::qWait(50);
    open.canvas().removeEventFilter(&watch);
    REQUIRE_FALSE(watch.painted.isEmpty());
    const double side = open.canvas().view().cell + 10;
    double area = 0;
    for (const QRect& rect : watch.painted) {
        area += static_cast<double>(rect.width()) * rect.height();
    }
    CHECK(area <= 2 * side * side);
}
