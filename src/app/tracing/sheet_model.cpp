#include "app/tracing/sheet_model.h"

#include "app/frame/look.h"

#include <QLocale>
#include <QPainter>

namespace otherskein::app {

SheetModel::SheetModel(TracedDesk& traced, QObject* parent)
    : QAbstractListModel(parent), m_traced(traced) {
    const ChartDesk& desk = traced.desk();
    connect(&desk, &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        const ChartsState& now = m_traced.desk().state();
        if (before.row != now.row || before.bare != now.bare || before.pageView != now.pageView) {
            load();
        }
    });
    connect(&desk, &ChartDesk::chartChanged, this, &SheetModel::load);
    connect(&traced, &TracedDesk::pictureReplaced, this, &SheetModel::load);
    connect(&traced, &TracedDesk::doubtChanged, this, [this] {
        if (!m_cells.empty()) {
            Q_EMIT dataChanged(index(0), index(rowCount() - 1));
        }
    });
    load();
}

void SheetModel::load() {
    const ChartDesk& desk = m_traced.desk();
    std::vector<chart::Cell> cells;
    if (desk.chart() && desk.state().pageView == PageView::Symbols) {
        if (desk.state().bare) {
            cells = m_traced.cellsOf(chart::kBare);
        } else if (desk.state().row && *desk.state().row < desk.chart()->key.size()) {
            cells = m_traced.cellsOf(*desk.state().row);
        }
    }
    if (cells == m_cells) {
        return;
    }
    beginResetModel();
    m_cells = std::move(cells);
    endResetModel();
}

int SheetModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_cells.size());
}

QVariant SheetModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || (role != Qt::AccessibleTextRole && role != Qt::ToolTipRole)) {
        return {};
    }
    const chart::Cell& cell = this->cell(index.row());
    const QLocale locale;
    const QString where = tr("Column %1, row %2")
                              .arg(locale.toString(cell.column + 1), locale.toString(cell.row + 1));
    return m_traced.isSeen(cell) ? tr("%1: you have seen it").arg(where)
                                 : tr("%1: %2 % sure").arg(where).arg(m_traced.surenessOf(cell));
}

void SheetDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
    const Greys& g = greys();
    const chart::Cell& cell = m_model.cell(index.row());
    const bool selected = option.state.testFlag(QStyle::State_Selected);
    painter->save();
    const QRect place = option.rect.adjusted(kAround, kAround, -kAround, -kAround);
    paintPrint(*painter, option.rect, m_model.traced(), cell);
    painter->setBrush(Qt::NoBrush);
    if (selected) {
        // With a gap, or a light frame would be part of the paper.
        painter->setPen(QPen(g.text, 3, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
        painter->drawRect(place.adjusted(-4, -4, 3, 3));
    } else if (m_model.traced().isDoubtful(cell)) {
        painter->setPen(QPen(g.text, 1, Qt::DotLine));
        painter->drawRect(place.adjusted(-3, -3, 2, 2));
    }
    if (option.state.testFlag(QStyle::State_HasFocus)) {
        painter->setPen(QPen(g.text, 1));
        painter->drawRect(option.rect.adjusted(0, 0, -1, -1));
    }
    painter->restore();
}

void SheetDelegate::paintPrint(QPainter& painter, const QRect& place, const TracedDesk& traced,
                               const chart::Cell& cell) {
    // A little of the neighbours, so that a cell that was cut askew is told from a strange one.
    constexpr double kMargin = 0.12;
    traced.picture().paintCell(painter, place.adjusted(kAround, kAround, -kAround, -kAround), cell,
                               kMargin);
}

QSize SheetDelegate::sizeHint(const QStyleOptionViewItem& /*option*/,
                              const QModelIndex& /*index*/) const {
    return {m_side, m_side};
}

bool SheetDelegate::fitInto(const QSize& room, int count, int moreRows) {
    constexpr int kStep = 8;
    int side = kMostSide;
    const auto fits = [&] {
        return count <= (room.width() / side) * (room.height() / side - moreRows);
    };
    while (side > kLeastSide && !fits()) {
        side -= kStep;
    }
    return std::exchange(m_side, side) != side;
}

} // namespace otherskein::app
