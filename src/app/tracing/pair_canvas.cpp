#include "app/tracing/pair_canvas.h"

#include "app/charts/chart_overlay.h"
#include "app/frame/chip.h"
#include "app/frame/look.h"

#include <QApplication>
#include <QKeyEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

constexpr double kReadable = 26;     // side of a cell that is to be told from others, pixels
constexpr double kLeastMarked = 4;   // frames of smaller cells would hide them
constexpr double kDotted = 14;       // cells with frames in which dots are seen
constexpr double kSurroundCells = 2; // that stay in sight around the current one

} // namespace

PairCanvas::PairCanvas(TracedDesk& traced, Half half, QWidget* parent)
    : ChartCanvas(parent), m_traced(traced), m_half(half) {
    setAccessibleName(half == Half::Page ? tr("The page") : tr("The cells traced from it"));
    setAccessibleDescription(
        tr("Arrow keys go from cell to cell, + and - zoom, 0 shows all of it."));
    const ChartDesk& desk = traced.desk();
    connect(&desk, &ChartDesk::chartReplaced, this, &PairCanvas::takeChart);
    connect(&desk, &ChartDesk::chartChanged, this, &PairCanvas::takeChange);
    connect(&desk, &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        if (before.current != m_traced.desk().state().current) {
            update();
        }
    });
    connect(&traced, &TracedDesk::doubtChanged, this, qOverload<>(&QWidget::update));
    connect(&desk.session(), &Session::groundChanged, this, [this] {
        if (m_traced.desk().chart() != nullptr) {
            m_painter.setPaint(paintNow());
            update();
        }
    });
    takeChart();
}

drawing::Paint PairCanvas::paintNow() const {
    return drawing::paintOf(m_traced.desk().chart()->key,
                            toQColor(m_traced.desk().session().ground().shown).rgb());
}

void PairCanvas::takeChart() {
    m_press.reset();
    const auto& chart = m_traced.desk().chart();
    if (chart == nullptr) {
        update();
        return;
    }
    if (m_half == Half::Cells) {
        m_painter.setChart(*chart, paintNow());
        m_painter.setMarks(drawing::marksOf(chart->key));
    }
    setGridSize(chart->grid.columns(), chart->grid.rows());
    fit();
}

void PairCanvas::takeChange(const chart::Area& cells, bool keyToo) {
    const chart::Chart& chart = *m_traced.desk().chart();
    if (m_half == Half::Cells && keyToo) {
        m_painter.setChart(chart, paintNow());
        m_painter.setMarks(drawing::marksOf(chart.key));
    } else if (m_half == Half::Cells && !cells.isEmpty()) {
        m_painter.setCells(chart.grid, cells);
    }
    update();
}

void PairCanvas::paintChart(QPainter& painter, const QRect& clip) {
    const ChartDesk& desk = m_traced.desk();
    if (desk.chart() == nullptr || desk.page() == nullptr || m_half == Half::Page) {
        painter.fillRect(clip, greys().surround);
    }
    if (desk.chart() == nullptr || desk.page() == nullptr) {
        return;
    }
    if (m_half == Half::Page) {
        m_traced.picture().paint(painter, view(), clip);
    } else {
        drawing::Layers layers;
        layers.stitches = false;
        layers.symbols = true;
        m_painter.paint(painter, view(), layers, clip, greys().surround);
    }
    frameDoubtful(painter, clip);
    if (desk.state().current) {
        frameCurrent(painter, *desk.state().current);
    }
}

/// A thin frame, light and dark, inside each doubtful cell. Thousands may be in sight, so they are
/// drawn together, and dotted only where dots are seen.
void PairCanvas::frameDoubtful(QPainter& painter, const QRect& clip) {
    if (view().cell < kLeastMarked) {
        return;
    }
    const chart::Grid& grid = m_traced.desk().chart()->grid;
    const QPointF first = drawing::toCells(view(), clip.topLeft());
    const QPointF last = drawing::toCells(view(), clip.bottomRight() + QPoint(1, 1));
    const int left = std::max(0, static_cast<int>(std::floor(first.x())));
    const int right = std::min(grid.columns() - 1, static_cast<int>(std::floor(last.x())));
    const int bottom = std::min(grid.rows() - 1, static_cast<int>(std::floor(last.y())));
    const bool small = view().cell < kDotted;
    const double inside = small ? 0.5 : 1.5;
    QList<QRectF> frames;
    for (int y = std::max(0, static_cast<int>(std::floor(first.y()))); y <= bottom; ++y) {
        for (int x = left; x <= right; ++x) {
            if (m_traced.isDoubtful({x, y})) {
                frames.push_back(
                    cellRect(view(), {x, y}).adjusted(inside, inside, -inside, -inside));
            }
        }
    }
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing, !small);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Qt::white, 1));
    if (small) {
        // One line has room, which is to be seen on any print.
        painter.setCompositionMode(QPainter::CompositionMode_Difference);
    }
    painter.drawRects(frames);
    if (!small) {
        painter.setPen(QPen(Qt::black, 1, Qt::DotLine));
        painter.drawRects(frames);
    }
    painter.restore();
}

/// Stands off its cell and is bolder than the boldest line of a printed grid.
void PairCanvas::frameCurrent(QPainter& painter, const chart::Cell& cell) {
    const QRectF frame = cellRect(view(), cell).adjusted(-3, -3, 3, 3);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    for (const auto& [ink, width] : {std::pair(Qt::white, 7), std::pair(Qt::black, 3)}) {
        painter.setPen(QPen(ink, width, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
        painter.drawRect(frame);
    }
    painter.restore();
}

bool PairCanvas::pressed(const QPointF& point, Qt::KeyboardModifiers /*modifiers*/) {
    // Only when the button is let go is it known whether this was a click.
    m_press = Press{point, point};
    return true;
}

void PairCanvas::dragged(const QPointF& point, Qt::KeyboardModifiers /*modifiers*/) {
    m_press->moved |= (point - m_press->at).manhattanLength() >= QApplication::startDragDistance();
    if (m_press->moved) {
        setCursor(Qt::ClosedHandCursor);
        drawing::View after = view();
        after.origin += point - m_press->last;
        setView(after);
        m_press->last = point;
    }
}

void PairCanvas::released(const QPointF& /*point*/) {
    const auto press = std::exchange(m_press, std::nullopt);
    unsetCursor();
    if (press && !press->moved) {
        if (const auto cell = cellAt(press->at)) {
            m_traced.goTo(cell);
        }
    }
}

void PairCanvas::reveal(const chart::Cell& cell, Size size) {
    drawing::View after = view();
    if (size == Size::Readable && after.cell < kReadable) {
        after = drawing::zoomed(after, kReadable, QRectF(rect()).center());
    }
    const QRectF at = cellRect(after, cell);
    const double around = std::min(kSurroundCells * after.cell, height() / 4.0);
    if (!QRectF(rect()).adjusted(around, around, -around, -around).contains(at)) {
        after.origin += QRectF(rect()).center() - at.center();
        keepFilled(after);
    }
    if (!(after == view())) {
        setView(after);
    }
}

/// At the chart's edge little else is shown than chart, as far as it has that much.
void PairCanvas::keepFilled(drawing::View& shown) const {
    const chart::Grid& grid = m_traced.desk().chart()->grid;
    const auto kept = [&](double origin, int cells, int room) {
        const double margin = std::min(shown.cell, room / 20.0);
        const double chart = cells * shown.cell;
        return chart + 2 * margin < room ? (room - chart) / 2
                                         : std::clamp(origin, room - margin - chart, margin);
    };
    shown.origin = {kept(shown.origin.x(), grid.columns(), width()),
                    kept(shown.origin.y(), grid.rows(), height())};
}

void PairCanvas::step(int columns, int rows) {
    const ChartDesk& desk = m_traced.desk();
    if (desk.chart() == nullptr) {
        return;
    }
    const chart::Grid& grid = desk.chart()->grid;
    const auto middle = cellAt(QRectF(rect()).center());
    const chart::Cell from = desk.state().current.value_or(
        middle.value_or(chart::Cell{grid.columns() / 2, grid.rows() / 2}));
    const chart::Cell to =
        desk.state().current ? chart::Cell{std::clamp(from.column + columns, 0, grid.columns() - 1),
                                           std::clamp(from.row + rows, 0, grid.rows() - 1)}
                             : from; // the first press only shows where it is
    m_traced.goTo(to);
    reveal(to, Size::AsIs);
}

void PairCanvas::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_Left:
        step(-1, 0);
        break;
    case Qt::Key_Right:
        step(1, 0);
        break;
    case Qt::Key_Up:
        step(0, -1);
        break;
    case Qt::Key_Down:
        step(0, 1);
        break;
    default:
        ChartCanvas::keyPressEvent(event);
    }
}

} // namespace otherskein::app
