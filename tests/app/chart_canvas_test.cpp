#include "app/chart_view/chart_canvas.h"

#include <catch2/catch.hpp>

#include <QPainter>
#include <QSignalSpy>
#include <QTest>
#include <QWheelEvent>

using namespace otherskein;

namespace {

/// Remembers which parts it was asked to paint.
class PlainCanvas : public app::ChartCanvas {
  public:
    QRegion painted;
    bool takes = false;
    QList<QPointF> points;

  protected:
    void paintChart(QPainter& painter, const QRect& clip) override {
        painter.fillRect(clip, Qt::white);
        painted += clip;
    }
    bool pressed(const QPointF& point, Qt::KeyboardModifiers /*modifiers*/) override {
        if (takes) {
            points.push_back(point);
        }
        return takes;
    }
    void dragged(const QPointF& point, Qt::KeyboardModifiers /*modifiers*/) override {
        points.push_back(point);
    }
    void released(const QPointF& point) override { points.push_back(point); }
};

struct OpenCanvas {
    PlainCanvas canvas;

    OpenCanvas() {
        canvas.resize(400, 300);
        canvas.setGridSize(100, 50);
        canvas.show();
        [[maybe_unused]] const bool shown = QTest::qWaitForWindowExposed(&canvas);
    }

    void wheel(const QPointF& at, int notches, Qt::KeyboardModifiers keys = {}) {
        QWheelEvent event(at, canvas.mapToGlobal(at), {}, {0, 120 * notches}, Qt::NoButton, keys,
                          Qt::NoScrollPhase, false);
        QCoreApplication::sendEvent(&canvas, &event);
    }
    void move(const QPoint& to, Qt::MouseButtons buttons) {
        QMouseEvent event(QEvent::MouseMove, to, canvas.mapToGlobal(to), Qt::NoButton, buttons, {});
        QCoreApplication::sendEvent(&canvas, &event);
    }
};

} // namespace

TEST_CASE("a chart is shown whole with its cloth and in the middle") {
    OpenCanvas open;
    const drawing::View view = open.canvas.view();
    CHECK_THAT(view.cell, Catch::WithinAbs(400.0 / 106, 1e-9));
    CHECK_THAT(view.origin.x() + 50 * view.cell, Catch::WithinAbs(200, 1e-9));
    CHECK_THAT(view.origin.y() + 25 * view.cell, Catch::WithinAbs(150, 1e-9));
}

TEST_CASE("a chart that is shown whole stays so when the window changes") {
    OpenCanvas open;
    open.canvas.resize(800, 300);
    CHECK_THAT(open.canvas.view().cell, Catch::WithinAbs(300.0 / 56, 1e-9));
    open.canvas.zoomBy(2);
    const double before = open.canvas.view().cell;
    open.canvas.resize(400, 300);
    CHECK(open.canvas.view().cell == before);
    open.canvas.fit();
    open.canvas.resize(212, 300);
    CHECK_THAT(open.canvas.view().cell, Catch::WithinAbs(2, 1e-9));
}

TEST_CASE("the wheel zooms and the point under it stays") {
    OpenCanvas open;
    const QPointF at(120, 140);
    const QPointF before = drawing::toCells(open.canvas.view(), at);
    const double cell = open.canvas.view().cell;
    open.wheel(at, 3);
    CHECK(open.canvas.view().cell > 1.5 * cell);
    const QPointF after = drawing::toCells(open.canvas.view(), at);
    CHECK_THAT(after.x(), Catch::WithinAbs(before.x(), 1e-9));
    CHECK_THAT(after.y(), Catch::WithinAbs(before.y(), 1e-9));
    open.wheel(at, -3);
    CHECK_THAT(open.canvas.view().cell, Catch::WithinAbs(cell, 1e-9));
}

TEST_CASE("zoom ends at the largest and the smallest cell") {
    OpenCanvas open;
    open.wheel({200, 150}, 60);
    CHECK(open.canvas.view().cell == drawing::kMostCell);
    open.wheel({200, 150}, -120);
    CHECK(open.canvas.view().cell == drawing::kLeastCell);
}

TEST_CASE("a drag moves the chart with the hand") {
    OpenCanvas open;
    open.canvas.zoomBy(4);
    const QPointF before = open.canvas.view().origin;
    QTest::mousePress(&open.canvas, Qt::LeftButton, {}, {100, 100});
    open.move({130, 80}, Qt::LeftButton);
    QTest::mouseRelease(&open.canvas, Qt::LeftButton, {}, {130, 80});
    CHECK(open.canvas.view().origin == before + QPointF(30, -20));
    open.move({200, 200}, Qt::NoButton);
    CHECK(open.canvas.view().origin == before + QPointF(30, -20));
}

TEST_CASE("a gesture that a subclass takes does not move the chart, the middle button still does") {
    OpenCanvas open;
    open.canvas.takes = true;
    open.canvas.zoomBy(4);
    const QPointF before = open.canvas.view().origin;
    QTest::mousePress(&open.canvas, Qt::LeftButton, {}, {100, 100});
    open.move({130, 80}, Qt::LeftButton);
    QTest::mouseRelease(&open.canvas, Qt::LeftButton, {}, {130, 80});
    CHECK(open.canvas.view().origin == before);
    CHECK(open.canvas.points == QList<QPointF>{{100, 100}, {130, 80}, {130, 80}});
    QTest::mousePress(&open.canvas, Qt::MiddleButton, {}, {100, 100});
    open.move({110, 100}, Qt::MiddleButton);
    QTest::mouseRelease(&open.canvas, Qt::MiddleButton, {}, {110, 100});
    CHECK(open.canvas.view().origin == before + QPointF(10, 0));
}

TEST_CASE("no panning loses the chart") {
    OpenCanvas open;
    drawing::View view = open.canvas.view();
    for (const QPointF& far : {QPointF(1e6, 1e6), QPointF(-1e6, -1e6)}) {
        view.origin = far;
        open.canvas.setView(view);
        const QRectF chart(open.canvas.view().origin,
                           QSizeF(100 * open.canvas.view().cell, 50 * open.canvas.view().cell));
        const QRectF seen = chart & QRectF(open.canvas.rect());
        CHECK(seen.width() >= 47.9);
        CHECK(seen.height() >= 47.9);
    }
}

TEST_CASE("the canvas's keys") {
    struct Case {
        const char* what;
        Qt::Key key;
        double zoom;
        QPointF move;
    };
    const Case cases[] = {{"plus", Qt::Key_Plus, 1.25, {}},      {"equal", Qt::Key_Equal, 1.25, {}},
                          {"minus", Qt::Key_Minus, 0.8, {}},     {"left", Qt::Key_Left, 1, {48, 0}},
                          {"right", Qt::Key_Right, 1, {-48, 0}}, {"up", Qt::Key_Up, 1, {0, 48}},
                          {"down", Qt::Key_Down, 1, {0, -48}}};
    for (const Case& one : cases) {
        OpenCanvas open;
        CAPTURE(one.what);
        open.canvas.zoomBy(3);
        const drawing::View before = open.canvas.view();
        QTest::keyClick(&open.canvas, one.key);
        CHECK_THAT(open.canvas.view().cell, Catch::WithinAbs(before.cell * one.zoom, 1e-9));
        if (one.zoom == 1) {
            CHECK(open.canvas.view().origin == before.origin + one.move);
        }
        QTest::keyClick(&open.canvas, Qt::Key_0);
        CHECK_THAT(open.canvas.view().cell, Catch::WithinAbs(400.0 / 106, 1e-9));
    }
}

TEST_CASE("cells are found under the pointer and none outside the chart") {
    OpenCanvas open;
    const drawing::View& view = open.canvas.view();
    CHECK(open.canvas.cellAt(drawing::fromCells(view, {0.5, 0.5})) == chart::Cell{0, 0});
    CHECK(open.canvas.cellAt(drawing::fromCells(view, {99.5, 49.5})) == chart::Cell{99, 49});
    CHECK_FALSE(open.canvas.cellAt(drawing::fromCells(view, {-0.5, 3})));
    CHECK_FALSE(open.canvas.cellAt(drawing::fromCells(view, {100.5, 3})));
    CHECK_FALSE(open.canvas.cellAt(drawing::fromCells(view, {3, 50.2})));
}

TEST_CASE("every change of the view is told once and an equal view is none") {
    OpenCanvas open;
    QSignalSpy changed(&open.canvas, &app::ChartCanvas::viewChanged);
    open.canvas.setView(open.canvas.view());
    CHECK(changed.count() == 0);
    open.canvas.zoomBy(2);
    CHECK(changed.count() == 1);
}
