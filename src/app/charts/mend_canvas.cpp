#include "app/charts/mend_canvas.h"

#include "app/charts/chart_overlay.h"
#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "chart/mending.h"

#include <QApplication>
#include <QKeyEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

bool MendCanvas::pressed(const QPointF& point, Qt::KeyboardModifiers modifiers) {
    if (m_desk.chart() == nullptr) {
        return false;
    }
    const auto cell = cellAt(point);
    setCell(cell);
    switch (m_desk.state().mode) {
    case MendMode::Look:
        // Only when the button is let go is it known whether this was a click.
        m_press = Press{point, point, modifiers};
        return true;
    case MendMode::Stitch:
    case MendMode::Unpick:
        if (cell) {
            beginStroke(*cell);
        }
        return cell.has_value();
    case MendMode::Fill:
    case MendMode::Pick:
        if (cell) {
            work(*cell);
        }
        return cell.has_value();
    }
    return false;
}

void MendCanvas::dragged(const QPointF& point, Qt::KeyboardModifiers /*modifiers*/) {
    if (m_stroke) {
        const QPointF at = drawing::toCells(view(), point);
        drawTo({static_cast<int>(std::floor(at.x())), static_cast<int>(std::floor(at.y()))});
        setCell(cellAt(point));
    }
    if (!m_press) {
        return;
    }
    m_press->moved |= (point - m_press->at).manhattanLength() >= QApplication::startDragDistance();
    if (m_desk.state().cutting) {
        m_cut = QLineF(drawing::toCells(view(), m_press->at), drawing::toCells(view(), point));
        update();
    } else if (m_press->moved) {
        setCursor(Qt::ClosedHandCursor);
        drawing::View after = view();
        after.origin += point - m_press->last;
        setView(after);
        m_press->last = point;
    }
}

void MendCanvas::released(const QPointF& point) {
    if (m_stroke) {
        endStroke();
    }
    if (const auto press = std::exchange(m_press, std::nullopt)) {
        const auto line = std::exchange(m_cut, std::nullopt);
        if (m_desk.state().cutting && line && press->moved) {
            cut(*line);
        } else if (!press->moved) {
            click(*press);
        }
        setCursor(m_desk.state().cutting ? Qt::CrossCursor : Qt::ArrowCursor);
        update();
    }
    hovered(point);
}

void MendCanvas::hovered(const QPointF& point) {
    setCell(cellAt(point));
}

void MendCanvas::leaveEvent(QEvent* event) {
    setCell(std::nullopt);
    ChartCanvas::leaveEvent(event);
}

void MendCanvas::beginStroke(const chart::Cell& cell) {
    const bool unpick = m_desk.state().mode == MendMode::Unpick;
    if (!unpick && !m_desk.state().row) {
        return;
    }
    m_stroke = Stroke{m_desk.chart()->grid, {}, cell, unpick ? chart::kBare : *m_desk.state().row};
    drawTo(cell);
}

void MendCanvas::drawTo(const chart::Cell& cell) {
    const chart::Area area =
        chart::setCells(m_stroke->grid, chart::cellsBetween(m_stroke->last, cell), m_stroke->key);
    m_stroke->last = cell;
    if (area.isEmpty()) {
        return;
    }
    m_stroke->changed = chart::united(m_stroke->changed, area);
    m_painter.setCells(m_stroke->grid, area);
    const QRect first = frameRect(view(), {area.left, area.top});
    update(
        first.united(frameRect(view(), {area.left + area.columns - 1, area.top + area.rows - 1})));
}

void MendCanvas::endStroke() {
    const Stroke stroke = *std::exchange(m_stroke, std::nullopt);
    if (stroke.changed.isEmpty()) {
        return;
    }
    chart::Chart after = *m_desk.chart();
    after.grid = stroke.grid;
    chart::recount(after);
    const QString text = stroke.key == chart::kBare
                             ? tr("Unpick stitches")
                             : tr("Stitch with %1").arg(shownRow(after.key[stroke.key]));
    // What a hand has stitched needs no second look.
    std::vector<chart::Cell> seen;
    const chart::Grid& before = m_desk.chart()->grid;
    for (int y = stroke.changed.top; y < stroke.changed.top + stroke.changed.rows; ++y) {
        for (int x = stroke.changed.left; x < stroke.changed.left + stroke.changed.columns; ++x) {
            if (before.at({x, y}) != after.grid.at({x, y})) {
                seen.push_back({x, y});
            }
        }
    }
    if (!m_desk.change(after, text, {}, seen)) {
        m_painter.setCells(m_desk.chart()->grid, stroke.changed);
        update();
    }
}

void MendCanvas::dropStroke() {
    if (const auto stroke = std::exchange(m_stroke, std::nullopt)) {
        m_painter.setCells(m_desk.chart()->grid, stroke->changed);
        update();
    }
}

void MendCanvas::fill(const chart::Cell& cell) {
    if (!m_desk.state().row) {
        return;
    }
    chart::Chart after = *m_desk.chart();
    chart::setCells(after.grid, chart::regionOf(after.grid, cell), *m_desk.state().row);
    chart::recount(after);
    m_desk.change(after, tr("Fill with %1").arg(shownRow(after.key[*m_desk.state().row])));
}

void MendCanvas::pick(const chart::Cell& cell) {
    const chart::KeyIndex row = m_desk.chart()->grid.at(cell);
    if (row != chart::kBare) {
        m_desk.with([&](ChartsState& state) {
            state.row = row;
            state.mode = MendMode::Stitch; // that is what it was picked for
        });
    }
}

void MendCanvas::work(const chart::Cell& cell) {
    switch (m_desk.state().mode) {
    case MendMode::Look:
        break;
    case MendMode::Stitch:
    case MendMode::Unpick:
        beginStroke(cell);
        if (m_stroke) {
            endStroke();
        }
        break;
    case MendMode::Fill:
        fill(cell);
        break;
    case MendMode::Pick:
        pick(cell);
        break;
    }
}

void MendCanvas::click(const Press& press) {
    const auto cell = cellAt(press.at);
    const chart::KeyIndex row = cell ? m_desk.chart()->grid.at(*cell) : chart::kBare;
    m_desk.with([&](ChartsState& state) {
        if (state.page == ChartsPage::Key) {
            state.row = row == chart::kBare || row == state.row ? std::nullopt : std::optional(row);
            return;
        }
        const bool adds = press.modifiers.testFlag(Qt::ControlModifier) ||
                          press.modifiers.testFlag(Qt::ShiftModifier);
        if (!adds) {
            state.motifs.clear();
        }
        const auto& motifs = m_desk.motifs();
        const chart::MotifIndex motif = cell && motifs ? motifs->at(*cell) : chart::kNoMotif;
        if (motif == chart::kNoMotif) {
            return;
        }
        const auto before = std::ranges::find_if(
            state.motifs, [&](const chart::Cell& one) { return motifs->at(one) == motif; });
        if (before == state.motifs.end()) {
            state.motifs.push_back(motifs->motifs[motif].first);
        } else {
            state.motifs.erase(before);
        }
    });
}

void MendCanvas::cut(const QLineF& line) {
    const chart::CutMotif::Point from{line.x1(), line.y1()};
    const chart::CutMotif::Point to{line.x2(), line.y2()};
    const auto& motifs = m_desk.motifs();
    const auto motif = motifs ? chart::motifUnder(*motifs, from, to) : std::nullopt;
    m_desk.with([](ChartsState& state) { state.cutting = false; });
    if (!motif) {
        Q_EMIT m_desk.refused(tr("The line crosses no motif: draw it across the one to cut."));
        return;
    }
    const std::size_t before = motifs->motifs.size();
    const chart::MotifIndex cut = motif.value_or(0); // GCC 12 doubts that the optional is set here
    const QString name = shownMotif(*motifs, cut);
    if (!m_desk.addMotifEdit(chart::CutMotif{motifs->motifs[cut].first, {from, to}},
                             tr("Cut motif %1").arg(name))) {
        return;
    }
    if (!m_desk.isBusy() && m_desk.motifs()->motifs.size() == before) {
        Q_EMIT m_desk.told(
            tr("The line leaves motif %1 whole: begin and end it outside the motif.").arg(name));
    }
}

void MendCanvas::stepCell(int columns, int rows) {
    const chart::Grid& grid = m_desk.chart()->grid;
    const auto middle = cellAt(QRectF(rect()).center());
    const chart::Cell from =
        m_cell.value_or(middle.value_or(chart::Cell{grid.columns() / 2, grid.rows() / 2}));
    const chart::Cell to =
        m_cell ? chart::Cell{std::clamp(from.column + columns, 0, grid.columns() - 1),
                             std::clamp(from.row + rows, 0, grid.rows() - 1)}
               : from; // the first press only shows where it is
    setCell(to);
    // Keeps it in sight.
    const QRectF at = cellRect(view(), to);
    const QRectF room = QRectF(rect()).adjusted(12, 12, -12, -12);
    drawing::View after = view();
    after.origin +=
        {std::max(0.0, room.left() - at.left()) - std::max(0.0, at.right() - room.right()),
         std::max(0.0, room.top() - at.top()) - std::max(0.0, at.bottom() - room.bottom())};
    if (after.origin != view().origin) {
        setView(after);
    }
}

void MendCanvas::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && (m_stroke || m_press)) {
        dropStroke();
        m_press.reset();
        m_cut.reset();
        update();
        return;
    }
    if (m_desk.state().mode == MendMode::Look || m_desk.chart() == nullptr) {
        ChartCanvas::keyPressEvent(event);
        return;
    }
    switch (event->key()) {
    case Qt::Key_Left:
        stepCell(-1, 0);
        break;
    case Qt::Key_Right:
        stepCell(1, 0);
        break;
    case Qt::Key_Up:
        stepCell(0, -1);
        break;
    case Qt::Key_Down:
        stepCell(0, 1);
        break;
    case Qt::Key_Space:
        if (m_cell && !m_stroke) {
            work(*m_cell);
        }
        break;
    default:
        ChartCanvas::keyPressEvent(event);
    }
}

} // namespace otherskein::app
