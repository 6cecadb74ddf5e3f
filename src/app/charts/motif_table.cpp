#include "app/charts/motif_table.h"

#include "app/charts/motif_model.h"
#include "app/charts/plain_header.h"
#include "app/frame/look.h"

#include <QPainter>
#include <QScopedValueRollback>
#include <QStyledItemDelegate>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kMotifRowHeight = 30;

class MotifCell : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const Greys& g = greys();
        painter->save();
        const bool chosen = option.state.testFlag(QStyle::State_Selected);
        const bool mirrored = option.direction == Qt::RightToLeft;
        const auto column = static_cast<MotifColumn>(index.column());
        if (chosen) {
            painter->fillRect(option.rect, g.chosen);
            if (column == MotifColumn::Number) {
                const int x = mirrored ? option.rect.right() - 2 : option.rect.left();
                painter->fillRect(QRect(x, option.rect.top(), 3, option.rect.height()), g.text);
            }
        }
        painter->setPen(g.line);
        painter->drawLine(option.rect.bottomLeft(), option.rect.bottomRight());
        const bool last = column == MotifColumn::Stitches;
        const bool first = column == MotifColumn::Number;
        const int leading = first ? 16 : 6;
        const int trailing = last ? 16 : 4;
        const QRect room = option.rect.adjusted(mirrored ? trailing : leading, 0,
                                                mirrored ? -leading : -trailing, 0);
        painter->setFont(scaledFont(0.95, chosen ? 600 : 400));
        painter->setPen(column == MotifColumn::Name ? g.text : g.quiet);
        painter->drawText(room,
                          static_cast<int>(QStyle::visualAlignment(
                              option.direction,
                              (last ? Qt::AlignTrailing : Qt::AlignLeading) | Qt::AlignVCenter)) |
                              Qt::TextSingleLine,
                          painter->fontMetrics().elidedText(index.data().toString(), Qt::ElideRight,
                                                            room.width()));
        painter->restore();
    }

    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override {
        QWidget* editor = QStyledItemDelegate::createEditor(parent, option, index);
        editor->setAccessibleName(MotifTable::tr("Name of the motif"));
        return editor;
    }

    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& /*index*/) const override {
        editor->setStyleSheet(
            QStringLiteral("QLineEdit { border-radius: 0; padding: 0 4px; min-height: 0; } "
                           "QLineEdit:focus { padding: 0 3px; }"));
        editor->setGeometry(option.rect);
    }
};

} // namespace

MotifTable::MotifTable(ChartDesk& desk, MotifModel& model, QWidget* parent)
    : QTableView(parent), m_desk(desk), m_model(model) {
    setModel(&model);
    setItemDelegate(new MotifCell(this));
    setAccessibleName(tr("Motifs"));
    setSelectionMode(ExtendedSelection);
    setSelectionBehavior(SelectRows);
    setEditTriggers(NoEditTriggers); // F2 must find the name, whatever column is current
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFrameShape(NoFrame);
    setShowGrid(false);
    setCornerButtonEnabled(false);
    setTabKeyNavigation(false);
    setAutoFillBackground(false);
    viewport()->setAutoFillBackground(false);
    setStyleSheet(QStringLiteral("QTableView { background: transparent; }"));
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setDefaultSectionSize(kMotifRowHeight);
    auto* header = new PlainHeader(tr("Columns of the motifs"), this);
    setHorizontalHeader(header);
    header->setInsets(static_cast<int>(MotifColumn::Number), 16, 0);
    header->setInsets(static_cast<int>(MotifColumn::Name), 6, 4);
    header->setInsets(static_cast<int>(MotifColumn::Stitches), 6, 16);
    setColumnWidth(static_cast<int>(MotifColumn::Number), 56);
    setColumnWidth(static_cast<int>(MotifColumn::Stitches), 84);
    header->setSectionResizeMode(static_cast<int>(MotifColumn::Name), QHeaderView::Stretch);

    auto* name = new QAction(tr("Name"), this);
    name->setShortcut(QKeySequence(Qt::Key_F2));
    name->setShortcutContext(Qt::WidgetShortcut);
    addAction(name);
    connect(name, &QAction::triggered, this, &MotifTable::editName);
    connect(this, &QTableView::doubleClicked, this, &MotifTable::editName);
    connect(selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &MotifTable::takeChosen);
    connect(&desk, &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        if (before.motifs != m_desk.state().motifs) {
            showChosen();
        }
    });
    connect(&model, &QAbstractItemModel::modelReset, this, &MotifTable::showChosen);
}

void MotifTable::editName() {
    const std::vector<chart::MotifIndex> chosen = m_desk.chosenMotifs();
    if (chosen.size() == 1) {
        const QModelIndex index =
            m_model.index(static_cast<int>(chosen.front()), static_cast<int>(MotifColumn::Name));
        setFocus();
        setCurrentIndex(index);
        edit(index);
    }
}

void MotifTable::takeChosen() {
    if (m_showing) {
        return;
    }
    const QScopedValueRollback showing(m_showing, true); // the table is right already
    const QModelIndexList rows = selectionModel()->selectedRows();
    m_desk.with([&](ChartsState& state) {
        // Those chosen before keep their order, new ones follow.
        std::vector<chart::Cell> now;
        for (const QModelIndex& row : rows) {
            now.push_back(m_model.motif(row.row()).first);
        }
        std::erase_if(state.motifs, [&](const chart::Cell& cell) {
            return std::ranges::find(now, cell) == now.end();
        });
        for (const chart::Cell& cell : now) {
            if (std::ranges::find(state.motifs, cell) == state.motifs.end()) {
                state.motifs.push_back(cell);
            }
        }
    });
}

void MotifTable::showChosen() {
    if (m_showing) {
        return;
    }
    const QScopedValueRollback showing(m_showing, true);
    QItemSelection selection;
    QModelIndex last;
    for (const chart::MotifIndex motif : m_desk.chosenMotifs()) {
        if (static_cast<int>(motif) < m_model.rowCount()) {
            last = m_model.index(static_cast<int>(motif), static_cast<int>(MotifColumn::Name));
            selection.select(last, last);
        }
    }
    selectionModel()->select(selection,
                             QItemSelectionModel::ClearAndSelect | QItemSelectionModel::Rows);
    if (last.isValid()) {
        selectionModel()->setCurrentIndex(last, QItemSelectionModel::NoUpdate);
        scrollTo(last);
    }
}

} // namespace otherskein::app
