#include "app/tracing/pieces_panel.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"

#include <QGridLayout>
#include <QLabel>
#include <QPainter>
#include <QScrollArea>
#include <QSpinBox>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kSketchHeight = 150;
constexpr int kPiecesWidth = 252;

} // namespace

PieceSketch::PieceSketch(QWidget* parent) : QWidget(parent) {
    setFixedHeight(kSketchHeight);
}

void PieceSketch::show(const std::vector<trace::Piece>& pieces, const QStringList& numbers) {
    m_pieces = pieces;
    m_numbers = numbers;
    setAccessibleName(tr("How the %n pieces lie", nullptr, static_cast<int>(pieces.size())));
    update();
}

void PieceSketch::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), greys().surround);
    int columns = 1;
    int rows = 1;
    for (const trace::Piece& one : m_pieces) {
        columns = std::max(columns, one.place.column + one.grid.columns);
        rows = std::max(rows, one.place.row + one.grid.rows);
    }
    const QRectF room = QRectF(rect()).adjusted(8, 8, -8, -8);
    const QSizeF size = QSizeF(columns, rows).scaled(room.size(), Qt::KeepAspectRatio);
    const double scale = size.width() / columns;
    const QPointF origin = room.center() - QPointF(size.width(), size.height()) / 2;
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(scaledFont(0.88, 600));
    for (std::size_t i = 0; i < m_pieces.size(); ++i) {
        const trace::Piece& one = m_pieces[i];
        const QRectF piece(origin + QPointF(one.place.column, one.place.row) * scale,
                           QSizeF(one.grid.columns, one.grid.rows) * scale);
        QColor fill = greys().field;
        fill.setAlphaF(0.6F); // where two lie over each other, both are seen
        painter.setBrush(fill);
        painter.setPen(QPen(greys().text, 1.5));
        painter.drawRect(piece);
        painter.drawText(piece, Qt::AlignCenter, m_numbers.value(static_cast<int>(i)));
    }
}

PiecesPanel::PiecesPanel(QWidget* parent)
    : QWidget(parent), m_sketch(new PieceSketch(this)), m_rows(new QWidget(this)) {
    setFixedWidth(kPiecesWidth);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(headingLabel(tr("How the pieces lie"), this));
    column->addWidget(m_sketch);
    column->addWidget(noteLabel(tr("Where each piece begins in the whole chart. Pieces that "
                                   "overlap share the cells there."),
                                this));
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(m_rows);
    column->addWidget(scroll, 1);
}

void PiecesPanel::show(const std::vector<trace::Piece>& pieces, const std::vector<int>& pages) {
    m_pieces = pieces;
    m_pages = pages;
    makeRows();
}

void PiecesPanel::makeRows() {
    delete m_rows->layout();
    qDeleteAll(m_rows->findChildren<QWidget*>(QString(), Qt::FindDirectChildrenOnly));
    auto* grid = new QGridLayout(m_rows);
    grid->setContentsMargins(0, 0, 8, 0);
    grid->setHorizontalSpacing(6);
    grid->setVerticalSpacing(6);
    grid->addWidget(noteLabel(tr("Column"), m_rows), 0, 1);
    grid->addWidget(noteLabel(tr("Row"), m_rows), 0, 2);
    QStringList numbers;
    for (std::size_t i = 0; i < m_pieces.size(); ++i) {
        numbers.push_back(QString::number(m_pages[i]));
        const int line = static_cast<int>(i) + 1;
        grid->addWidget(new QLabel(tr("Page %1").arg(m_pages[i]), m_rows), line, 0);
        const auto box = [&](int value, int most, const QString& name, int chart::Cell::*part) {
            auto* one = new QSpinBox(m_rows);
            one->setRange(1, most);
            one->setValue(value + 1);
            one->setAccessibleName(name);
            connect(one, &QSpinBox::valueChanged, this, [this, i, part, numbers](int now) {
                m_pieces[i].place.*part = now - 1;
                QStringList all;
                for (const int page : m_pages) {
                    all.push_back(QString::number(page));
                }
                m_sketch->show(m_pieces, all);
            });
            return one;
        };
        grid->addWidget(box(m_pieces[i].place.column, chart::kMostColumns,
                            tr("First column of piece %1").arg(line), &chart::Cell::column),
                        line, 1);
        grid->addWidget(box(m_pieces[i].place.row, chart::kMostRows,
                            tr("First row of piece %1").arg(line), &chart::Cell::row),
                        line, 2);
    }
    grid->setRowStretch(static_cast<int>(m_pieces.size()) + 1, 1);
    grid->setColumnStretch(1, 1);
    grid->setColumnStretch(2, 1);
    m_sketch->show(m_pieces, numbers);
}

} // namespace otherskein::app
