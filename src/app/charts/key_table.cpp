#include "app/charts/key_table.h"

#include "app/charts/chart_desk.h"
#include "app/charts/key_model.h"
#include "app/charts/plain_header.h"
#include "app/frame/chip.h"
#include "app/frame/look.h"

#include <QKeyEvent>
#include <QPainter>
#include <QStyledItemDelegate>

namespace otherskein::app {

namespace {

constexpr int kRowHeight = 40;
constexpr int kSign = 22; // side of a drawn symbol
constexpr int kMargin = 16;

class KeyCell : public QStyledItemDelegate {
  public:
    KeyCell(const KeyModel& model, QObject* parent) : QStyledItemDelegate(parent), m_model(model) {}

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        const Greys& g = greys();
        painter->save();
        const bool chosen = option.state.testFlag(QStyle::State_Selected);
        if (chosen) {
            painter->fillRect(option.rect, g.chosen);
            if (index.column() == 0) {
                const int x = option.direction == Qt::RightToLeft ? option.rect.right() - 2
                                                                  : option.rect.left();
                painter->fillRect(QRect(x, option.rect.top(), 3, option.rect.height()), g.text);
            }
        }
        painter->setPen(g.line);
        painter->drawLine(option.rect.bottomLeft(), option.rect.bottomRight());
        const chart::KeyRow& row = m_model.row(index.row());
        switch (static_cast<KeyColumn>(index.column())) {
        case KeyColumn::Symbol: {
            QRect sign(0, 0, kSign, kSign);
            sign.moveCenter(option.rect.center());
            const double ratio = painter->device()->devicePixelRatioF();
            if (const QImage print = m_model.print(index.row(), qRound(kSign * ratio));
                !print.isNull()) {
                // As printed and as charted, side by side.
                painter->drawImage(sign.translated(-kSign / 2 - 1, 0), print);
                sign.translate(kSign / 2 + 2, 0);
            }
            painter->setRenderHint(QPainter::Antialiasing);
            drawing::paintMark(*painter, m_model.mark(index.row()), sign, g.text);
            break;
        }
        case KeyColumn::Colour:
            // Chips of rows that follow each other touch, so that they can be compared.
            painter->fillRect(option.rect, toQColor(row.pixel));
            break;
        case KeyColumn::Thread:
            drawTwoLines(*painter, option, index.data().toString(), row, chosen);
            break;
        case KeyColumn::Strands:
            painter->setPen(g.text);
            painter->drawText(option.rect, Qt::AlignCenter, index.data().toString());
            break;
        case KeyColumn::Stitches:
            drawLines(*painter, option, m_model.amount(index.row()),
                      m_model.amountMore(index.row()), Qt::AlignTrailing, {0, kMargin}, chosen);
            break;
        }
        painter->restore();
    }

  private:
    const KeyModel& m_model;

    struct Sides {
        int leading = 0;
        int trailing = 0;
    };

    static void drawTwoLines(QPainter& painter, const QStyleOptionViewItem& option,
                             const QString& text, const chart::KeyRow& row, bool chosen) {
        const bool named = !row.code.isEmpty();
        const bool none = !named && row.name.isEmpty();
        drawLines(painter, option,
                  named  ? row.code
                  : none ? colour::toHex(row.pixel)
                         : text,
                  named  ? row.name
                  : none ? KeyTable::tr("no thread")
                         : QString(),
                  Qt::AlignLeading, {10, 2}, chosen);
    }

    static void drawLines(QPainter& painter, const QStyleOptionViewItem& option,
                          const QString& above, const QString& below, Qt::Alignment side,
                          const Sides& sides, bool chosen) {
        const bool mirrored = option.direction == Qt::RightToLeft;
        QRect room = option.rect.adjusted(mirrored ? sides.trailing : sides.leading, 3,
                                          mirrored ? -sides.leading : -sides.trailing, -4);
        const auto flags =
            static_cast<int>(QStyle::visualAlignment(option.direction, side)) | Qt::TextSingleLine;
        const auto draw = [&](const QRect& where, const QString& text, const QFont& font,
                              const QColor& ink, Qt::AlignmentFlag vertical) {
            painter.setFont(font);
            painter.setPen(ink);
            painter.drawText(where, flags | vertical,
                             painter.fontMetrics().elidedText(text, Qt::ElideRight, where.width()));
        };
        const QFont strong = scaledFont(0.95, chosen || side == Qt::AlignLeading ? 600 : 400);
        if (below.isEmpty()) {
            draw(room, above, strong, greys().text, Qt::AlignVCenter);
            return;
        }
        draw(room, above, strong, greys().text, Qt::AlignTop);
        draw(room, below, scaledFont(0.86), greys().quiet, Qt::AlignBottom);
    }
};

} // namespace

KeyTable::KeyTable(ChartDesk& desk, KeyModel& model, QWidget* parent)
    : QTableView(parent), m_desk(desk) {
    setModel(&model);
    setItemDelegate(new KeyCell(model, this));
    setAccessibleName(tr("Key"));
    setSelectionMode(SingleSelection);
    setSelectionBehavior(SelectRows);
    setEditTriggers(NoEditTriggers);
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
    verticalHeader()->setDefaultSectionSize(kRowHeight);
    auto* header = new PlainHeader(tr("Columns of the key"), this);
    setHorizontalHeader(header);
    header->setInsets(static_cast<int>(KeyColumn::Symbol), kMargin, 0);
    header->setInsets(static_cast<int>(KeyColumn::Thread), 10, 2);
    header->setInsets(static_cast<int>(KeyColumn::Stitches), 0, kMargin);
    const std::pair<KeyColumn, int> widths[] = {{KeyColumn::Symbol, 54},
                                                {KeyColumn::Colour, 44},
                                                {KeyColumn::Strands, 32},
                                                {KeyColumn::Stitches, 88}};
    for (const auto& [column, width] : widths) {
        setColumnWidth(static_cast<int>(column), width);
    }
    header->setSectionResizeMode(static_cast<int>(KeyColumn::Thread), QHeaderView::Stretch);

    connect(selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            [this](const QModelIndex& index) {
                if (index.isValid()) {
                    m_desk.with([&](ChartsState& state) {
                        state.row = static_cast<chart::KeyIndex>(index.row());
                    });
                }
            });
    connect(&desk, &ChartDesk::stateChanged, this, &KeyTable::showState);
    connect(&model, &QAbstractItemModel::modelReset, this, &KeyTable::showState);
    connect(this, &QTableView::doubleClicked, this, &KeyTable::editAsked);
    showState();
}

void KeyTable::showState() {
    const auto row = m_desk.state().row;
    const QSignalBlocker quiet(selectionModel());
    if (!row || *row >= model()->rowCount()) {
        // The signals of the selection are what repaints rows.
        selectionModel()->clear();
    } else if (currentIndex().row() != *row || !selectionModel()->hasSelection()) {
        const QModelIndex index = model()->index(*row, static_cast<int>(KeyColumn::Thread));
        selectionModel()->setCurrentIndex(index, QItemSelectionModel::ClearAndSelect |
                                                     QItemSelectionModel::Rows);
        scrollTo(index);
    }
    viewport()->update();
}

void KeyTable::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    if (m_desk.state().row) {
        scrollTo(currentIndex());
    }
}

void KeyTable::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_F2:
        if (m_desk.state().row) {
            Q_EMIT editAsked();
        }
        return;
    case Qt::Key_Delete:
        if (m_desk.state().row) {
            Q_EMIT removeAsked();
        }
        return;
    default:
        if (m_desk.state().pageView != PageView::Off && event->text().size() == 1 &&
            event->text().front().isLetterOrNumber()) {
            event->ignore(); // a row that is clicked is to be looked at: such keys are the view's
            return;
        }
        QTableView::keyPressEvent(event);
    }
}

} // namespace otherskein::app
