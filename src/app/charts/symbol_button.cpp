#include "app/charts/symbol_button.h"

#include "app/frame/look.h"

#include <QKeyEvent>
#include <QListWidget>
#include <QPainter>
#include <QScreen>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kSide = 22;  // of a drawn symbol
constexpr int kCell = 36;  // of a place in the set
constexpr int kAcross = 8; // places in a row of the set
constexpr int kMostDown = 8;

QIcon symbolIcon(int symbol, const QColor& ink, double pixelRatio) {
    QPixmap pixmap(QSize(kSide, kSide) * pixelRatio);
    pixmap.setDevicePixelRatio(pixelRatio);
    pixmap.fill(Qt::transparent);
    QPainter painter(&pixmap);
    painter.setRenderHint(QPainter::Antialiasing);
    drawing::paintSymbol(painter, symbol, QRectF(0, 0, kSide, kSide), ink);
    return {pixmap};
}

} // namespace

SymbolButton::SymbolButton(QWidget* parent) : QPushButton(parent), m_set(new QListWidget(this)) {
    setAutoDefault(false);
    setToolTip(tr("Pick a sign for this row"));
    setFixedSize(56, 32);
    m_set->setWindowFlags(Qt::Popup);
    m_set->setAccessibleName(tr("Signs to pick from"));
    m_set->setViewMode(QListView::IconMode);
    m_set->setMovement(QListView::Static);
    m_set->setResizeMode(QListView::Adjust);
    m_set->setUniformItemSizes(true);
    m_set->setIconSize({kSide, kSide});
    m_set->setGridSize({kCell, kCell});
    m_set->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_set->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_set->setStyleSheet(QStringLiteral("QListWidget { border: 1px solid palette(dark); "
                                        "padding: 6px; } QListWidget::item:selected { "
                                        "background: palette(midlight); }"));
    m_set->installEventFilter(this);
    connect(this, &QPushButton::clicked, this, &SymbolButton::open);
    connect(m_set, &QListWidget::itemClicked, this, &SymbolButton::pickCurrent);
}

void SymbolButton::showMark(const drawing::Mark& mark, const std::vector<int>& taken) {
    m_mark = mark;
    m_taken = taken;
    setAccessibleName(tr("Sign of this row: %1")
                          .arg(mark.symbol ? drawing::symbolName(*mark.symbol) : mark.letters));
    update();
}

void SymbolButton::open() {
    m_set->clear();
    QListWidgetItem* current = nullptr; // the row's own, else the first that is free
    for (int symbol = 0; symbol < drawing::symbolCount(); ++symbol) {
        const bool taken = std::ranges::find(m_taken, symbol) != m_taken.end();
        auto* item = new QListWidgetItem(m_set);
        item->setIcon(symbolIcon(symbol, taken ? greys().line : greys().text, devicePixelRatioF()));
        const QString name = drawing::symbolName(symbol);
        item->setToolTip(taken ? tr("%1 (another row has it)").arg(name) : name);
        item->setData(Qt::AccessibleTextRole, name);
        item->setSizeHint({kCell, kCell});
        item->setData(Qt::UserRole, symbol);
        item->setFlags(taken ? Qt::NoItemFlags : Qt::ItemIsEnabled | Qt::ItemIsSelectable);
        if (symbol == m_mark.symbol || (current == nullptr && !taken)) {
            current = item;
        }
    }
    m_set->setCurrentItem(current);
    const int down = std::min(kMostDown, (drawing::symbolCount() + kAcross - 1) / kAcross);
    m_set->resize(kAcross * kCell + 32, down * kCell + 14);
    QPoint at = mapToGlobal(QPoint(0, height() + 2));
    if (const QScreen* screen = this->screen()) {
        const QRect room = screen->availableGeometry();
        at.setX(
            std::clamp(at.x(), room.left(), std::max(room.left(), room.right() - m_set->width())));
        if (at.y() + m_set->height() > room.bottom()) {
            at.setY(mapToGlobal(QPoint(0, 0)).y() - m_set->height() - 2);
        }
    }
    m_set->move(at);
    m_set->show();
    m_set->setFocus();
}

void SymbolButton::pickCurrent() {
    const QListWidgetItem* item = m_set->currentItem();
    m_set->hide();
    if (item != nullptr && item->flags().testFlag(Qt::ItemIsEnabled)) {
        Q_EMIT picked(item->data(Qt::UserRole).toInt());
    }
}

bool SymbolButton::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_set && event->type() == QEvent::KeyPress) {
        switch (static_cast<QKeyEvent*>(event)->key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
        case Qt::Key_Space:
            pickCurrent();
            return true;
        case Qt::Key_Escape:
            m_set->hide();
            return true;
        default:
            break;
        }
    }
    return QPushButton::eventFilter(watched, event);
}

void SymbolButton::paintEvent(QPaintEvent* event) {
    QPushButton::paintEvent(event);
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    QRectF cell(0, 0, kSide, kSide);
    cell.moveCenter(QRectF(rect()).center());
    drawing::paintMark(painter, m_mark, cell, isEnabled() ? greys().text : greys().edge);
}

} // namespace otherskein::app
