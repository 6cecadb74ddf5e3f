// What MendCanvas shows; what a hand does on it is in mend_canvas.cpp.
#include "app/charts/mend_canvas.h"

#include "app/charts/chart_overlay.h"
#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "colourway/coverage.h"

#include <QPainter>

#include <algorithm>

namespace otherskein::app {

namespace {

/// How far what is not looked for goes towards the ground, as in motifVeil.
constexpr int kDimmedPercent = 78;

QRgb dimmed(QRgb colour, QRgb ground) {
    const auto mix = [](int one, int other) {
        return (one * (100 - kDimmedPercent) + other * kDimmedPercent) / 100;
    };
    return qRgb(mix(qRed(colour), qRed(ground)), mix(qGreen(colour), qGreen(ground)),
                mix(qBlue(colour), qBlue(ground)));
}

/// The strands that most of the chart is worked with.
int usualStrands(const chart::Key& key) {
    const auto most = std::ranges::max_element(key, {}, &chart::KeyRow::stitches);
    return most == key.end() ? 2 : most->strands;
}

} // namespace

MendCanvas::MendCanvas(ChartDesk& desk, QWidget* parent) : ChartCanvas(parent), m_desk(desk) {
    setAccessibleName(tr("Chart"));
    setAccessibleDescription(tr("Arrow keys move the chart, + and - zoom, 0 shows all of it. In "
                                "the mending modes arrow keys move the cell and Space works it."));
    connect(&desk, &ChartDesk::chartReplaced, this, &MendCanvas::takeChart);
    connect(&desk, &ChartDesk::chartChanged, this, &MendCanvas::takeChange);
    connect(&desk, &ChartDesk::stateChanged, this, &MendCanvas::takeState);
    connect(&desk, &ChartDesk::motifsChanged, this, [this] {
        m_veil = {};
        update();
    });
    connect(&desk.session(), &Session::groundChanged, this, &MendCanvas::takePaint);
    takeChart();
}

void MendCanvas::takeChart() {
    m_stroke.reset();
    m_press.reset();
    m_cut.reset();
    m_rowOf.clear();
    m_veil = {};
    setCell(std::nullopt);
    const auto& chart = m_desk.chart();
    if (chart == nullptr) {
        update();
        return;
    }
    m_painter.setChart(*chart, paintNow());
    m_painter.setMarks(drawing::marksOf(chart->key));
    setGridSize(chart->grid.columns(), chart->grid.rows());
    fit();
}

void MendCanvas::takeChange(const chart::Area& cells, bool keyToo) {
    m_stroke.reset(); // an undo in the middle of a stroke
    m_rowOf.clear();
    m_veil = {};
    const chart::Chart& chart = *m_desk.chart();
    if (keyToo) {
        m_painter.setChart(chart, paintNow());
        m_painter.setMarks(drawing::marksOf(chart.key));
    } else if (!cells.isEmpty()) {
        m_painter.setCells(chart.grid, cells);
    }
    update();
    Q_EMIT cellChanged(); // what lies under the pointer may be new
}

void MendCanvas::takeState(const ChartsState& before) {
    const ChartsState& state = m_desk.state();
    if (state.row != before.row || state.mode != before.mode || state.page != before.page) {
        takePaint();
    }
    if (state.mode != before.mode) {
        dropStroke();
    }
    if (state.motifs != before.motifs) {
        m_veil = {};
    }
    setCursor(state.mode == MendMode::Look && !state.cutting ? Qt::ArrowCursor : Qt::CrossCursor);
    update();
}

bool MendCanvas::marksRow() const {
    const ChartsState& state = m_desk.state();
    return state.row && state.mode == MendMode::Look && state.page == ChartsPage::Key;
}

drawing::Paint MendCanvas::paintNow() {
    const chart::Chart& chart = *m_desk.chart();
    const thread::Ground ground = m_desk.session().ground();
    m_coverage = colourway::coverage(ground, usualStrands(chart.key));
    m_stitches = 0;
    for (const chart::KeyRow& row : chart.key) {
        m_stitches += row.stitches;
    }
    drawing::Paint paint = drawing::paintOf(chart.key, toQColor(ground.shown).rgb());
    if (marksRow()) {
        for (std::size_t row = 0; row < paint.rows.size(); ++row) {
            if (row != *m_desk.state().row) {
                paint.rows[row] = dimmed(paint.rows[row], paint.ground);
            }
        }
    }
    return paint;
}

void MendCanvas::takePaint() {
    if (m_desk.chart() != nullptr) {
        m_painter.setPaint(paintNow());
        m_veil = {};
        update();
    }
}

void MendCanvas::setCell(std::optional<chart::Cell> cell) {
    if (cell == m_cell) {
        return;
    }
    const auto before = std::exchange(m_cell, cell);
    if (m_desk.state().mode != MendMode::Look) {
        for (const auto& one : {before, m_cell}) {
            if (one) {
                update(frameRect(view(), *one));
            }
        }
    }
    Q_EMIT cellChanged();
}

void MendCanvas::outlineRow(QPainter& painter) {
    const chart::Grid& grid = m_desk.chart()->grid;
    if (m_rowOf.empty()) {
        m_rowOf.resize(grid.cells().size());
        std::ranges::transform(grid.cells(), m_rowOf.begin(), [](chart::KeyIndex row) {
            return row == chart::kBare ? chart::kNoMotif : std::uint32_t{row};
        });
    }
    drawing::paintOutlines(painter, view(), m_rowOf, grid.columns(), grid.rows(),
                           std::uint32_t{*m_desk.state().row});
}

void MendCanvas::veilMotifs(QPainter& painter) {
    const std::vector<chart::MotifIndex> chosen = m_desk.chosenMotifs();
    if (chosen.empty()) {
        return;
    }
    if (m_veil.isNull()) {
        m_veil =
            motifVeil(*m_desk.motifs(), chosen, toQColor(m_desk.session().ground().shown).rgb());
    }
    const QRectF all(view().origin, QSizeF(m_veil.size()) * view().cell);
    painter.setRenderHint(QPainter::SmoothPixmapTransform, false);
    painter.drawImage(all, m_veil);
}

void MendCanvas::paintChart(QPainter& painter, const QRect& clip) {
    const auto& chart = m_desk.chart();
    if (chart == nullptr) {
        painter.fillRect(clip, greys().surround);
        return;
    }
    const ChartsState& state = m_desk.state();
    drawing::Layers layers;
    layers.stitches = state.look == ChartLook::Stitches;
    layers.symbols = state.look == ChartLook::Symbols;
    layers.grid = state.grid;
    layers.coverage = m_coverage;
    const thread::Ground ground = m_desk.session().ground();
    layers.cloth = drawing::clothOf(ground);
    layers.lineWidth = colourway::kPlyWidthMm / thread::cellSideMm(ground);
    m_painter.paint(painter, view(), layers, clip, greys().surround);

    const auto& motifs = m_desk.motifs();
    if (motifs && (state.outlines || state.page == ChartsPage::Motifs)) {
        veilMotifs(painter);
        const std::vector<chart::MotifIndex> chosen = m_desk.chosenMotifs();
        // Of a few chosen ones only their own outlines are drawn: these are what is looked at.
        constexpr std::size_t kFew = 8;
        if (chosen.empty() || chosen.size() > kFew) {
            drawing::paintOutlines(painter, view(), motifs->of, motifs->columns, motifs->rows);
        } else {
            for (const chart::MotifIndex one : chosen) {
                drawing::paintOutlines(painter, view(), motifs->of, motifs->columns, motifs->rows,
                                       one);
            }
        }
        paintMotifSigns(painter, view(), *motifs, chosen, clip);
    }
    // Where a row is most of the chart, outlines would be all that is seen.
    constexpr int kRare = 4;
    if (marksRow() && !state.outlines && chart->key[*state.row].stitches * kRare < m_stitches) {
        outlineRow(painter);
    }
    if (m_cut) {
        paintCut(painter, view(), *m_cut);
    }
    if (m_cell && state.mode != MendMode::Look) {
        const bool lays = state.mode == MendMode::Stitch || state.mode == MendMode::Fill;
        std::optional<QRgb> fill;
        if (lays && state.row) {
            fill = toQColor(chart->key[*state.row].pixel).rgb();
        }
        paintFrame(painter, view(), *m_cell, fill);
    }
}

} // namespace otherskein::app
