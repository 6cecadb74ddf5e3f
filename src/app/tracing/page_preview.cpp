#include "app/tracing/page_preview.h"

#include "app/frame/look.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

namespace otherskein::app {

namespace {

constexpr double kPreviewMargin = 10;

} // namespace

PagePreview::PagePreview(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setMinimumSize(320, 320);
    setAccessibleName(tr("The page and the grids on it"));
    setAccessibleDescription(tr("The number of a grid chooses it or lets it go."));
}

void PagePreview::show(const std::shared_ptr<const trace::Page>& page,
                       const std::vector<trace::FoundGrid>& grids,
                       const std::vector<bool>& chosen) {
    if (page != m_page) {
        m_shown = {};
    }
    m_page = page;
    m_grids = grids;
    m_chosen = chosen;
    update();
}

QRectF PagePreview::pageRect() const {
    const QRectF room =
        QRectF(rect()).adjusted(kPreviewMargin, kPreviewMargin, -kPreviewMargin, -kPreviewMargin);
    QRectF page(QPointF(), QSizeF(m_page->picture.size()).scaled(room.size(), Qt::KeepAspectRatio));
    page.moveCenter(room.center());
    return page;
}

QPolygonF PagePreview::outlineOf(std::size_t grid) const {
    const QRectF page = pageRect();
    const double scale = page.width() / m_page->picture.width();
    QPolygonF outline;
    for (const QPointF& corner : m_grids[grid].outline) {
        outline.push_back(page.topLeft() + corner * scale);
    }
    return outline;
}

void PagePreview::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), greys().surround);
    if (m_page == nullptr || m_page->picture.isNull()) {
        return;
    }
    const QRectF page = pageRect();
    const QSize pixels = (page.size() * devicePixelRatioF()).toSize();
    if (m_shown.size() != pixels) {
        m_shown = QPixmap::fromImage(
            m_page->picture.scaled(pixels, Qt::IgnoreAspectRatio, Qt::SmoothTransformation));
    }
    painter.drawPixmap(page, m_shown, QRectF(m_shown.rect()));
    painter.setRenderHint(QPainter::Antialiasing);
    for (std::size_t i = 0; i < m_grids.size(); ++i) {
        paintGrid(painter, i);
    }
    if (hasFocus()) {
        painter.setRenderHint(QPainter::Antialiasing, false);
        painter.setPen(QPen(greys().text, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

/// Light and dark, so that it is seen on any print; a plate with number and size in the corner.
void PagePreview::paintGrid(QPainter& painter, std::size_t grid) const {
    const bool chosen = m_chosen[grid];
    const QPolygonF outline = outlineOf(grid);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Qt::white, chosen ? 6 : 3));
    painter.drawPolygon(outline);
    painter.setPen(QPen(Qt::black, chosen ? 3 : 1, chosen ? Qt::SolidLine : Qt::DashLine));
    painter.drawPolygon(outline);
    const QString sign =
        tr("%1: %2 × %3").arg(grid + 1).arg(m_grids[grid].columns).arg(m_grids[grid].rows);
    painter.setFont(scaledFont(0.92, 600));
    const QFontMetrics metrics = painter.fontMetrics();
    const QRectF plate(outline.boundingRect().topLeft() + QPointF(5, 5),
                       QSizeF(metrics.horizontalAdvance(sign) + 14, metrics.height() + 6));
    painter.setPen(QPen(chosen ? Qt::white : Qt::black, 1));
    painter.setBrush(chosen ? Qt::black : Qt::white);
    painter.drawRoundedRect(plate, 4, 4);
    painter.drawText(plate, Qt::AlignCenter, sign);
}

void PagePreview::mousePressEvent(QMouseEvent* event) {
    if (m_page == nullptr || event->button() != Qt::LeftButton) {
        return;
    }
    // The smallest that holds the point: one grid may lie inside another.
    std::optional<std::size_t> hit;
    for (std::size_t i = 0; i < m_grids.size(); ++i) {
        if (outlineOf(i).containsPoint(event->position(), Qt::OddEvenFill) &&
            (!hit ||
             m_grids[i].columns * m_grids[i].rows < m_grids[*hit].columns * m_grids[*hit].rows)) {
            hit = i;
        }
    }
    if (hit) {
        Q_EMIT toggled(static_cast<int>(*hit));
    }
}

void PagePreview::keyPressEvent(QKeyEvent* event) {
    const int grid = event->key() - Qt::Key_1;
    if (grid >= 0 && grid < 9 && static_cast<std::size_t>(grid) < m_grids.size()) {
        Q_EMIT toggled(grid);
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        Q_EMIT confirmed();
        return;
    }
    QWidget::keyPressEvent(event);
}

} // namespace otherskein::app
