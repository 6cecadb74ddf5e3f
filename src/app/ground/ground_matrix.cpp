#include "app/ground/ground_matrix.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/ground/ground_matrix_model.h"
#include "app/ground/ground_words.h"
#include "colourway/colourway.h"
#include "drawing/swatch.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>
#include <QStyledItemDelegate>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

constexpr int kCellHeight = 100;
constexpr int kLeastCellWidth = 176;
constexpr int kNamesWidth = 150;
constexpr int kHeadHeight = 44;
/// All cloths at one scale, so that a finer count looks finer.
constexpr double kPixelsPerMm = 5.6;

QRgb swatchRgb(const colour::Srgb8& srgb) {
    return qRgb(srgb.r, srgb.g, srgb.b);
}

/// Words and numbers over the bare cloth's corner, on a grey plate that every cloth lets read.
void paintFigures(QPainter& painter, const QRect& cell, const colourway::Contrast& contrast) {
    const QString verdict = verdictText(contrast.verdict);
    const QString de00 = QStringLiteral(" · %1").arg(figure(contrast.de00));
    const QString more =
        QStringLiteral("ΔL* %1   %2 : 1").arg(figure(contrast.dL, 0), figure(contrast.ratio));
    const QFont bold = scaledFont(0.92, 700);
    const QFont plain = scaledFont(0.92);
    const QFont small = scaledFont(0.85);
    const int verdictWidth = QFontMetrics(bold).horizontalAdvance(verdict);
    const int first = verdictWidth + QFontMetrics(plain).horizontalAdvance(de00);
    const int width = std::max(first, QFontMetrics(small).horizontalAdvance(more)) + 18;
    const int line = QFontMetrics(bold).height();
    const QRect plate(cell.right() - width + 1, cell.bottom() - 2 * line - 7, width, 2 * line + 8);
    painter.fillRect(plate, greys().chrome);
    const QRect text = plate.adjusted(9, 3, -9, -4);
    painter.setPen(greys().text);
    painter.setFont(bold);
    const int left = text.right() - first + 1;
    painter.drawText(QRect(left, text.top(), verdictWidth, line), Qt::AlignLeft, verdict);
    painter.setFont(plain);
    painter.drawText(QRect(left, text.top(), first, line), Qt::AlignRight, de00);
    painter.setFont(small);
    painter.setPen(greys().quiet);
    painter.drawText(QRect(text.left(), text.top() + line, text.width(), line), Qt::AlignRight,
                     more);
}

class SwatchDelegate : public QStyledItemDelegate {
  public:
    SwatchDelegate(const GroundMatrixModel& model, QObject* parent)
        : QStyledItemDelegate(parent), m_model(model) {}

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const GroundRow& row = m_model.row(index.row());
        const thread::Ground& ground = m_model.column(index.column()).ground;
        const colourway::Contrast& contrast = m_model.at(index);
        const double ratio = painter->device()->devicePixelRatioF();
        drawing::Swatch swatch;
        swatch.size = (QSizeF(option.rect.size()) * ratio).toSize();
        swatch.thread = swatchRgb(colourway::shownColour(row.choice));
        swatch.ground = swatchRgb(ground.shown);
        swatch.coverage = contrast.coverage;
        swatch.cloth = drawing::clothOf(ground);
        swatch.cell = std::max(3.0, kPixelsPerMm * thread::cellSideMm(ground) * ratio);
        QImage image = drawing::swatch(swatch);
        image.setDevicePixelRatio(ratio);
        painter->drawImage(option.rect.topLeft(), image);
        paintFigures(*painter, option.rect, contrast);
        if (option.state.testFlag(QStyle::State_HasFocus)) {
            painter->setBrush(Qt::NoBrush);
            painter->setPen(QPen(greys().field, 1));
            painter->drawRect(option.rect.adjusted(1, 1, -2, -2));
            painter->setPen(QPen(greys().strong, 2));
            painter->drawRect(option.rect.adjusted(3, 3, -3, -3));
        }
    }

    QSize sizeHint(const QStyleOptionViewItem& /*option*/,
                   const QModelIndex& /*index*/) const override {
        return {kLeastCellWidth, kCellHeight};
    }

  private:
    const GroundMatrixModel& m_model;
};

/// Names of grounds above, of threads at the side.
class MatrixHead : public QHeaderView {
  public:
    MatrixHead(Qt::Orientation orientation, const GroundMatrixModel& model, QWidget* parent)
        : QHeaderView(orientation, parent), m_model(model) {
        setSectionsClickable(orientation == Qt::Horizontal);
        setHighlightSections(false);
    }

  protected:
    QSize sizeHint() const override {
        return orientation() == Qt::Horizontal ? QSize(kLeastCellWidth, kHeadHeight)
                                               : QSize(kNamesWidth, kCellHeight);
    }

    void paintSection(QPainter* painter, const QRect& rect, int section) const override {
        const bool across = orientation() == Qt::Horizontal;
        const bool chosen = across && section == m_model.chosen();
        painter->fillRect(rect, chosen ? greys().strong : greys().surround);
        painter->setPen(greys().line);
        painter->drawLine(rect.bottomLeft(), rect.bottomRight());
        painter->drawLine(rect.topRight(), rect.bottomRight());
        const QRect text = rect.adjusted(12, across ? 5 : 10, -8, -4);
        QString first;
        QString second;
        if (across) {
            const thread::Ground& ground = m_model.column(section).ground;
            first = ground.name;
            second = countText(ground);
        } else {
            const colourway::Choice& choice = m_model.row(section).choice;
            first = choice.code().isEmpty() ? colour::toHex(colourway::shownColour(choice))
                                            : choice.code();
            const bool lines = m_model.row(section).part && m_model.row(section).stitches == 0;
            second = lines ? GroundMatrix::tr("%1, backstitch").arg(choice.name()) : choice.name();
        }
        const auto line = [&](const QString& words, const QFont& font, const QColor& ink, int top) {
            painter->setFont(font);
            painter->setPen(ink);
            const QFontMetrics metrics(font);
            painter->drawText(QRect(text.left(), top, text.width(), metrics.height()),
                              Qt::AlignLeft,
                              metrics.elidedText(words, Qt::ElideRight, text.width()));
            return top + metrics.height();
        };
        const int next =
            line(first, scaledFont(1.0, 600), chosen ? greys().onStrong : greys().text, text.top());
        line(second, scaledFont(0.9), chosen ? greys().onStrong : greys().quiet, next);
    }

  private:
    const GroundMatrixModel& m_model;
};

} // namespace

GroundMatrix::GroundMatrix(QWidget* parent)
    : QTableView(parent), m_model(new GroundMatrixModel(this)) {
    setAccessibleName(tr("Threads on grounds"));
    setModel(m_model);
    setItemDelegate(new SwatchDelegate(*m_model, this));
    auto* above = new MatrixHead(Qt::Horizontal, *m_model, this);
    auto* beside = new MatrixHead(Qt::Vertical, *m_model, this);
    setHorizontalHeader(above);
    setVerticalHeader(beside);
    above->setSectionResizeMode(QHeaderView::Fixed);
    beside->setSectionResizeMode(QHeaderView::Fixed);
    beside->setDefaultSectionSize(kCellHeight);
    viewport()->setBackgroundRole(QPalette::Window);
    setShowGrid(false);
    setCornerButtonEnabled(false);
    setSelectionMode(SingleSelection);
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollMode(ScrollPerPixel);
    setTabKeyNavigation(false);
    connect(above, &QHeaderView::sectionClicked, this, &GroundMatrix::groundChosen);
    connect(this, &QTableView::doubleClicked, this,
            [this](const QModelIndex& index) { Q_EMIT substituteAsked(index.row()); });
}

void GroundMatrix::show(const GroundDesk& desk) {
    m_model->take(desk);
    share();
    viewport()->update();
    horizontalHeader()->viewport()->update();
    verticalHeader()->viewport()->update();
}

/// Grounds share the width; many of them scroll.
void GroundMatrix::share() {
    const int columns = m_model->columnCount();
    if (columns == 0) {
        return;
    }
    const int width = viewport()->width();
    const int each = std::max(kLeastCellWidth, width / columns);
    for (int i = 0; i < columns; ++i) {
        const bool last = i == columns - 1 && each * columns <= width;
        setColumnWidth(i, last ? width - each * (columns - 1) : each);
    }
}

void GroundMatrix::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    share();
}

void GroundMatrix::keyPressEvent(QKeyEvent* event) {
    if ((event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) &&
        currentIndex().isValid()) {
        Q_EMIT groundChosen(currentIndex().column());
        return;
    }
    QTableView::keyPressEvent(event);
}

void GroundMatrix::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    QTableView::currentChanged(current, previous);
    if (current.isValid()) {
        Q_EMIT rowChosen(current.row());
    }
}

} // namespace otherskein::app
