#include "app/tracing/pieces_panel.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"

#include <QGridLayout>
#include <QLabel>
#include <QLocale>
#include <QMouseEvent>
#include <QPainter>
#include <QScrollArea>
#include <QSpinBox>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kSketchHeight = 150; // at least
constexpr int kRowsHeight = 120;   // at least
constexpr int kPiecesWidth = 292;

/// Of the whole chart, 1 × 1 at least.
QSize sizeOf(const std::vector<trace::Piece>& pieces) {
    QSize size(1, 1);
    for (const trace::Piece& one : pieces) {
        size =
            size.expandedTo({one.place.column + one.grid.columns, one.place.row + one.grid.rows});
    }
    return size;
}

} // namespace

PieceSketch::PieceSketch(QWidget* parent) : QWidget(parent) {
    setMinimumHeight(kSketchHeight);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    setToolTip(tr("Drag a piece to where it belongs"));
}

void PieceSketch::show(const std::vector<trace::Piece>& pieces, const QStringList& numbers) {
    m_pieces = pieces;
    m_numbers = numbers;
    setAccessibleName(tr("How the %n pieces lie", nullptr, static_cast<int>(pieces.size())));
    update();
}

PieceSketch::Fit PieceSketch::fit() const {
    if (m_drag) {
        return m_drag->fit;
    }
    const QSize chart = sizeOf(m_pieces);
    constexpr double kAround = 14; // room to drag a piece a little further out
    const QRectF room = QRectF(rect()).adjusted(kAround, kAround, -kAround, -kAround);
    const QSizeF size = QSizeF(chart).scaled(room.size(), Qt::KeepAspectRatio);
    return {size.width() / chart.width(), room.center() - QPointF(size.width(), size.height()) / 2};
}

QRectF PieceSketch::rectOf(std::size_t piece) const {
    const trace::Piece& one = m_pieces[piece];
    const Fit now = fit();
    return {now.origin + QPointF(one.place.column, one.place.row) * now.scale,
            QSizeF(one.grid.columns, one.grid.rows) * now.scale};
}

void PieceSketch::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), greys().surround);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(scaledFont(0.88, 600));
    for (std::size_t i = 0; i < m_pieces.size(); ++i) {
        const QRectF piece = rectOf(i);
        QColor fill = greys().field;
        fill.setAlphaF(0.6F); // where two lie over each other, both are seen
        painter.setBrush(fill);
        painter.setPen(QPen(greys().text, m_drag && m_drag->piece == i ? 3 : 1.5));
        painter.drawRect(piece);
        painter.drawText(piece, Qt::AlignCenter, m_numbers.value(static_cast<int>(i)));
    }
}

void PieceSketch::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) {
        return;
    }
    for (std::size_t i = m_pieces.size(); i-- > 0;) { // the last is drawn on top
        if (rectOf(i).contains(event->position())) {
            m_drag = Drag{i, event->position(), m_pieces[i].place, fit()};
            setCursor(Qt::ClosedHandCursor);
            update();
            return;
        }
    }
}

void PieceSketch::mouseMoveEvent(QMouseEvent* event) {
    if (!m_drag) {
        return;
    }
    const QPointF cells = (event->position() - m_drag->from) / m_drag->fit.scale;
    const trace::FoundGrid& grid = m_pieces[m_drag->piece].grid;
    const chart::Cell place{std::clamp(m_drag->place.column + qRound(cells.x()), 0,
                                       std::max(0, chart::kMostColumns - grid.columns)),
                            std::clamp(m_drag->place.row + qRound(cells.y()), 0,
                                       std::max(0, chart::kMostRows - grid.rows))};
    if (place != m_pieces[m_drag->piece].place) {
        Q_EMIT moved(static_cast<int>(m_drag->piece), place);
    }
}

void PieceSketch::mouseReleaseEvent(QMouseEvent* /*event*/) {
    m_drag.reset();
    unsetCursor();
    update();
}

PiecesPanel::PiecesPanel(QWidget* parent)
    : QWidget(parent), m_sketch(new PieceSketch(this)), m_size(new QLabel(this)),
      m_rows(new QWidget(this)) {
    setFixedWidth(kPiecesWidth);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(headingLabel(tr("How the pieces lie"), this));
    column->addWidget(m_sketch, 1);
    column->addWidget(m_size);
    column->addWidget(noteLabel(tr("Drag a piece to where it belongs, or type where it begins "
                                   "in the whole chart. Pieces that overlap share the cells "
                                   "there."),
                                this));
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(m_rows);
    scroll->setMinimumHeight(kRowsHeight);
    column->addWidget(scroll, 1);
    connect(m_sketch, &PieceSketch::moved, this, [this](int piece, const chart::Cell& place) {
        const auto& boxes = m_boxes[static_cast<std::size_t>(piece)];
        boxes[0]->setValue(place.column + 1);
        boxes[1]->setValue(place.row + 1);
    });
}

void PiecesPanel::show(const std::vector<trace::Piece>& pieces, const std::vector<int>& pages) {
    m_pieces = pieces;
    m_pages = pages;
    makeRows();
}

QStringList PiecesPanel::numbers() const {
    QStringList all;
    for (std::size_t i = 0; i < m_pages.size(); ++i) {
        all.push_back(nameOf(i));
    }
    return all;
}

/// The number of its page; with a letter where the page has several pieces.
QString PiecesPanel::nameOf(std::size_t piece) const {
    const int page = m_pages[piece];
    const QString number = QString::number(page);
    if (std::ranges::count(m_pages, page) < 2) {
        return number;
    }
    const auto before =
        std::count(m_pages.begin(), m_pages.begin() + static_cast<std::ptrdiff_t>(piece), page);
    return number + QChar(static_cast<char16_t>(u'a' + before % 26));
}

void PiecesPanel::makeRows() {
    delete m_rows->layout();
    qDeleteAll(m_rows->findChildren<QWidget*>(QString(), Qt::FindDirectChildrenOnly));
    m_boxes.clear();
    auto* grid = new QGridLayout(m_rows);
    grid->setContentsMargins(0, 0, 8, 0);
    grid->setHorizontalSpacing(6);
    grid->setVerticalSpacing(6);
    grid->addWidget(noteLabel(tr("Column"), m_rows), 0, 1);
    grid->addWidget(noteLabel(tr("Row"), m_rows), 0, 2);
    for (std::size_t i = 0; i < m_pieces.size(); ++i) {
        const int line = static_cast<int>(i) + 1;
        grid->addWidget(new QLabel(tr("Page %1").arg(nameOf(i)), m_rows), line, 0);
        const auto box = [&](int value, int most, const QString& name, int chart::Cell::*part) {
            auto* one = new QSpinBox(m_rows);
            one->setRange(1, most);
            one->setValue(value + 1);
            one->setAccessibleName(name);
            connect(one, &QSpinBox::valueChanged, this, [this, i, part](int now) {
                m_pieces[i].place.*part = now - 1;
                showPlaces();
            });
            return one;
        };
        m_boxes.push_back({box(m_pieces[i].place.column, chart::kMostColumns,
                               tr("First column of piece %1").arg(line), &chart::Cell::column),
                           box(m_pieces[i].place.row, chart::kMostRows,
                               tr("First row of piece %1").arg(line), &chart::Cell::row)});
        grid->addWidget(m_boxes.back()[0], line, 1);
        grid->addWidget(m_boxes.back()[1], line, 2);
    }
    grid->setRowStretch(static_cast<int>(m_pieces.size()) + 1, 1);
    grid->setColumnStretch(1, 1);
    grid->setColumnStretch(2, 1);
    showPlaces();
}

void PiecesPanel::showPlaces() {
    m_sketch->show(m_pieces, numbers());
    // What a page's title often says, and a join that is wrong does not give.
    const QSize size = sizeOf(m_pieces);
    const QLocale locale;
    m_size->setText(tr("Together %1 × %2 stitches")
                        .arg(locale.toString(size.width()), locale.toString(size.height())));
}

} // namespace otherskein::app
