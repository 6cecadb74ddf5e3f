#include "app/recolour/before_after_canvas.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/recolour/part_words.h"
#include "colour/conversion.h"
#include "colourway/coverage.h"

#include <QApplication>
#include <QKeyEvent>
#include <QLocale>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

constexpr double kGrab = 9;        // pixels to each side of the line that take hold of it
constexpr double kHandle = 17;     // radius of its handle
constexpr double kHandleGrab = 24; // the handle takes hold generously
constexpr double kKeyStep = 0.04;
constexpr int kPlateGap = 12;

QRgb rgbOf(const colour::Srgb8& srgb) {
    return qRgb(srgb.r, srgb.g, srgb.b);
}

/// A small grey plate with text, so that it is read on every cloth.
void paintPlate(QPainter& painter, const QRect& within, Qt::Alignment where, const QString& text) {
    painter.setFont(scaledFont(0.9, 600));
    const QFontMetrics metrics(painter.font());
    const QString shown = metrics.elidedText(text, Qt::ElideRight, within.width() - 18);
    const QSize size(metrics.horizontalAdvance(shown) + 18, metrics.height() + 8);
    QRect plate(within.topLeft(), size);
    if (where.testFlag(Qt::AlignRight)) {
        plate.moveRight(within.right());
    }
    if (where.testFlag(Qt::AlignBottom)) {
        plate.moveBottom(within.bottom());
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(greys().chrome);
    painter.drawRoundedRect(plate, 5, 5);
    painter.setPen(greys().text);
    painter.drawText(plate, Qt::AlignCenter, shown);
}

/// Which part each cell belongs to.
std::vector<std::uint32_t> partsOfCells(const colourway::Subject& subject) {
    if (subject.motifs) {
        return subject.motifs->of;
    }
    std::vector<std::uint32_t> partOfKey(subject.chart.key.size(), chart::kNoMotif);
    for (std::size_t i = 0; i < subject.parts.parts.size(); ++i) {
        partOfKey[subject.parts.parts[i].key] = static_cast<std::uint32_t>(i);
    }
    std::vector<std::uint32_t> result;
    const auto cells = subject.chart.grid.cells();
    result.reserve(cells.size());
    for (const chart::KeyIndex key : cells) {
        result.push_back(key == chart::kBare ? chart::kNoMotif : partOfKey[key]);
    }
    return result;
}

} // namespace

BeforeAfterCanvas::BeforeAfterCanvas(QWidget* parent) : ChartCanvas(parent) {
    setAccessibleName(tr("The chart as charted and recoloured"));
    m_layers.grid = false; // lines between the stitches would dull the colours that are judged
}

void BeforeAfterCanvas::setSubject(const std::shared_ptr<const colourway::Subject>& subject,
                                   const thread::Ground& ground, int strands) {
    setStitched(subject, {ground, strands, {}});
}

void BeforeAfterCanvas::setStitched(const std::shared_ptr<const colourway::Subject>& subject,
                                    const colourway::Stitched& stitched) {
    if (subject == m_subject && stitched == m_stitched) {
        return;
    }
    const bool other = subject != m_subject;
    m_subject = subject;
    m_stitched = stitched;
    m_layers.cloth = drawing::clothOf(stitched.ground);
    m_layers.lineWidth = colourway::kPlyWidthMm / thread::cellSideMm(stitched.ground);
    if (other) {
        m_chosen.reset();
        m_hovered.reset();
        m_colourway.reset();
        m_partOf = partsOfCells(*subject);
        setGridSize(subject->chart.grid.columns(), subject->chart.grid.rows());
    }
    showBefore(other);
    showAfter();
    update();
}

void BeforeAfterCanvas::setSight(const colour::Sight& sight) {
    if (sight == m_sight) {
        return;
    }
    m_sight = sight;
    if (m_subject) {
        showBefore(false);
        showAfter();
        update();
    }
}

/// Threads and cloth as these eyes see them, each row as thick as its strands lie.
drawing::Paint BeforeAfterCanvas::seenPaint(const chart::Key& key,
                                            const std::vector<colourway::Choice>& ofRows) const {
    const bool full = m_sight.kind == colour::Sight::Kind::Full;
    const auto seen = [&](const colour::Lab& lab, const colour::Srgb8& shown) {
        return rgbOf(full ? shown : colour::srgbFromLab(colour::seen(lab, m_sight)));
    };
    drawing::Paint paint;
    paint.ground = seen(m_stitched.ground.lab, m_stitched.ground.shown);
    for (std::size_t i = 0; i < key.size(); ++i) {
        const bool known = i < ofRows.size() && !ofRows[i].portions.empty();
        paint.rows.push_back(known ? seen(ofRows[i].lab, colourway::shownColour(ofRows[i]))
                                   : seen(key[i].lab, key[i].pixel));
        const int strands = colourway::strandsOf(key[i], m_stitched);
        paint.cover.push_back(static_cast<float>(
            colourway::coverageOf(known ? ofRows[i] : colourway::Choice{}, strands, m_stitched)));
    }
    return paint;
}

/// The chart's own colours: those of its threads where a card has them.
void BeforeAfterCanvas::showBefore(bool anew) {
    std::vector<colourway::Choice> ofRows(m_subject->chart.key.size());
    for (std::size_t i = 0; i < m_subject->parts.parts.size(); ++i) {
        ofRows[m_subject->parts.parts[i].key] = m_subject->charted[i];
    }
    const drawing::Paint paint = seenPaint(m_subject->chart.key, ofRows);
    if (anew) {
        m_before.setChart(m_subject->chart, paint);
    } else {
        m_before.setPaint(paint);
    }
}

void BeforeAfterCanvas::showAfter() {
    if (!m_colourway) {
        return;
    }
    const chart::Chart worked = colourway::workedChart(*m_subject, *m_colourway);
    // Rows of the worked key follow the parts' different choices.
    std::vector<colourway::Choice> ofRows;
    for (const colourway::Choice& choice : m_colourway->now) {
        const auto same = [&](const colourway::Choice& one) { return one.isSameAs(choice); };
        if (std::ranges::none_of(ofRows, same)) {
            ofRows.push_back(choice);
        }
    }
    m_after.setChart(worked, seenPaint(worked.key, ofRows));
}

void BeforeAfterCanvas::setColourway(const std::optional<colourway::Colourway>& colourway) {
    if (colourway && m_colourway && isSameWork(*colourway, *m_colourway)) {
        return;
    }
    m_colourway = colourway;
    showAfter();
    update();
}

void BeforeAfterCanvas::setAfterLabel(const QString& text) {
    m_afterLabel = text;
    update();
}

void BeforeAfterCanvas::setDivider(double share) {
    m_divider = std::clamp(share, 0.0, 1.0);
    setAccessibleDescription(tr("The first %1 % show the chart as charted. Shift and the arrow "
                                "keys move the line between.")
                                 .arg(std::lround(m_divider * 100)));
    update();
}

void BeforeAfterCanvas::setChosen(std::optional<std::size_t> part) {
    m_chosen = part;
    update();
}

std::optional<std::size_t> BeforeAfterCanvas::partAt(const QPointF& point) const {
    const auto cell = m_subject ? cellAt(point) : std::nullopt;
    if (!cell) {
        return std::nullopt;
    }
    const std::uint32_t part = m_partOf[m_subject->chart.grid.indexOf(*cell)];
    return part == chart::kNoMotif ? std::nullopt : std::optional<std::size_t>(part);
}

QString BeforeAfterCanvas::textOf(std::size_t part) const {
    const QString was = threadText(m_subject->charted[part]);
    const QString name = partName(*m_subject, part);
    return m_colourway ? tr("%1: %2, was %3").arg(name, threadText(m_colourway->now[part]), was)
                       : tr("%1: %2").arg(name, was);
}

void BeforeAfterCanvas::paintChart(QPainter& painter, const QRect& clip) {
    if (!m_subject) {
        painter.fillRect(clip, greys().surround);
        return;
    }
    // The line stands on whole pixels: no column is both before and after.
    const int line = m_colourway ? static_cast<int>(std::lround(dividerX())) : width();
    const QRect left = clip & QRect(0, 0, line, height());
    const QRect right = clip & QRect(line, 0, width() - line, height());
    const auto side = [&](drawing::ChartPainter& chart, const QRect& area) {
        if (!area.isEmpty()) {
            painter.save();
            painter.setClipRect(area);
            chart.paint(painter, view(), m_layers, QRectF(area), greys().surround);
            painter.restore();
        }
    };
    side(m_before, left);
    side(m_after, right);
    for (const auto& part : {m_hovered, m_chosen}) {
        if (part && *part < m_subject->parts.parts.size()) {
            drawing::paintOutlines(painter, view(), m_partOf, m_subject->chart.grid.columns(),
                                   m_subject->chart.grid.rows(), static_cast<std::uint32_t>(*part));
        }
    }
    painter.setRenderHint(QPainter::Antialiasing);
    const QRect plates = rect().adjusted(kPlateGap, kPlateGap, -kPlateGap, -kPlateGap);
    constexpr int kNoRoom = 120;
    if (line > kNoRoom || !m_colourway) {
        paintPlate(painter, plates, Qt::AlignLeft, tr("As charted"));
    }
    if (m_colourway && width() - line > kNoRoom) {
        paintPlate(painter, plates, Qt::AlignRight, m_afterLabel);
    }
    if (const auto told = m_hovered ? m_hovered : m_chosen;
        told && *told < m_subject->parts.parts.size()) {
        paintPlate(painter, plates, Qt::AlignLeft | Qt::AlignBottom, textOf(*told));
    }
    if (m_colourway) {
        paintDivider(painter);
    }
}

void BeforeAfterCanvas::paintDivider(QPainter& painter) const {
    const double x = std::round(dividerX());
    // Dark between light, so that it is seen on every cloth.
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.fillRect(QRectF(x - 2, 0, 4, height()), Qt::white);
    painter.fillRect(QRectF(x - 1, 0, 2, height()), Qt::black);
    painter.setRenderHint(QPainter::Antialiasing);
    const QPointF middle(x, height() / 2.0);
    painter.setPen(QPen(Qt::white, 2));
    painter.setBrush(Qt::black);
    painter.drawEllipse(middle, kHandle, kHandle);
    painter.setPen(Qt::NoPen);
    painter.setBrush(Qt::white);
    for (const double side : {-1.0, 1.0}) {
        QPainterPath arrow(middle + QPointF(side * 10, 0));
        arrow.lineTo(middle + QPointF(side * 4, -5));
        arrow.lineTo(middle + QPointF(side * 4, 5));
        arrow.closeSubpath();
        painter.drawPath(arrow);
    }
}

bool BeforeAfterCanvas::isOnDivider(const QPointF& point) const {
    const double off = std::abs(point.x() - dividerX());
    const bool nearHandle = std::hypot(off, point.y() - height() / 2.0) <= kHandleGrab;
    return m_colourway && (off <= kGrab || nearHandle);
}

void BeforeAfterCanvas::moveDivider(double share) {
    setDivider(share);
    Q_EMIT dividerMoved(m_divider);
}

bool BeforeAfterCanvas::pressed(const QPointF& point, Qt::KeyboardModifiers /*modifiers*/) {
    m_grabbedAt = point.x() - dividerX();
    return isOnDivider(point);
}

void BeforeAfterCanvas::dragged(const QPointF& point, Qt::KeyboardModifiers /*modifiers*/) {
    moveDivider((point.x() - m_grabbedAt) / std::max(1, width()));
}

void BeforeAfterCanvas::hovered(const QPointF& point) {
    const bool onDivider = isOnDivider(point);
    const auto part = onDivider ? std::nullopt : partAt(point);
    setCursor(onDivider ? Qt::SplitHCursor : part ? Qt::PointingHandCursor : Qt::ArrowCursor);
    if (part != m_hovered) {
        m_hovered = part;
        update();
    }
}

void BeforeAfterCanvas::mousePressEvent(QMouseEvent* event) {
    m_pressedAt = event->position();
    ChartCanvas::mousePressEvent(event);
}

void BeforeAfterCanvas::mouseReleaseEvent(QMouseEvent* event) {
    ChartCanvas::mouseReleaseEvent(event);
    const double moved = (event->position() - m_pressedAt).manhattanLength();
    if (event->button() != Qt::LeftButton || moved >= QApplication::startDragDistance() ||
        isOnDivider(event->position())) {
        return;
    }
    if (const auto part = partAt(event->position())) {
        Q_EMIT partChosen(*part);
    }
}

void BeforeAfterCanvas::keyPressEvent(QKeyEvent* event) {
    const bool moves = event->modifiers().testFlag(Qt::ShiftModifier) && m_colourway;
    if (moves && (event->key() == Qt::Key_Left || event->key() == Qt::Key_Right)) {
        moveDivider(m_divider + (event->key() == Qt::Key_Left ? -kKeyStep : kKeyStep));
        return;
    }
    ChartCanvas::keyPressEvent(event);
}

void BeforeAfterCanvas::leaveEvent(QEvent* event) {
    m_hovered.reset();
    update();
    ChartCanvas::leaveEvent(event);
}

} // namespace otherskein::app
