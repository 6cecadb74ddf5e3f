#include "app/ground/shopping_list.h"

#include "app/frame/chip.h"
#include "app/frame/panel.h"
#include "app/ground/ground_words.h"

#include <QClipboard>
#include <QDialogButtonBox>
#include <QGuiApplication>
#include <QHeaderView>
#include <QLocale>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include <cmath>

namespace otherskein::app {

namespace {

enum Column { Chip, Thread, Stitches, Metres, Skeins, Stash, Buy, Columns };

QTableWidgetItem* itemOf(const QString& text, bool isNumber = true) {
    auto* item = new QTableWidgetItem(text);
    item->setFlags(Qt::ItemIsSelectable | Qt::ItemIsEnabled);
    item->setTextAlignment(isNumber ? Qt::AlignRight | Qt::AlignVCenter
                                    : Qt::AlignLeft | Qt::AlignVCenter);
    return item;
}

} // namespace

ShoppingList::ShoppingList(const QString& chart, const colourway::Quantities& quantities,
                           const colourway::Usage& usage, QWidget* parent)
    : QDialog(parent), m_chart(chart), m_quantities(quantities) {
    setWindowTitle(tr("Shopping list: %1").arg(chart));
    auto* table = new QTableWidget(this);
    fill(*table);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 16, 16, 14);
    column->setSpacing(10);
    column->addWidget(table, 1);
    QString note =
        tr("Estimates: full crosses from geometry and %1 % for tails and ways; 1 strand for "
           "backstitch. Hands differ: \"Measure…\" takes yours.")
            .arg(qRound(usage.waste * 100));
    if (quantities.mixesLots) {
        note +=
            QLatin1Char(' ') + tr("New skeins beside old ones may be of another dye lot: do not "
                                  "change within one area.");
    }
    column->addWidget(noteLabel(note, this));
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    auto* copy = buttons->addButton(tr("Copy"), QDialogButtonBox::ActionRole);
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::close);
    connect(copy, &QPushButton::clicked, this,
            [this] { QGuiApplication::clipboard()->setText(text()); });
    constexpr int kWidth = 720;
    constexpr int kHeight = 480;
    resize(kWidth, kHeight);
}

void ShoppingList::fill(QTableWidget& table) {
    const auto rows = static_cast<int>(m_quantities.threads.size());
    table.setAccessibleName(tr("Thread that the chart takes"));
    table.setColumnCount(Columns);
    table.setRowCount(rows);
    table.setHorizontalHeaderLabels({QString(), tr("Thread"), tr("Stitches"), tr("Metres"),
                                     tr("Skeins"), tr("In stash"), tr("To buy")});
    for (int row = 0; row < rows; ++row) {
        const colourway::Quantity& one = m_quantities.threads[static_cast<std::size_t>(row)];
        auto* chip = itemOf({}, false);
        chip->setBackground(toQColor(one.shown));
        table.setItem(row, Chip, chip);
        auto* name = itemOf(one.code + QLatin1Char(' ') + one.name, false);
        if (one.assumed) {
            name->setToolTip(tr("On none of your cards: six plies of 8 m are taken for granted."));
        }
        table.setItem(row, Thread, name);
        table.setItem(row, Stitches, itemOf(QLocale().toString(one.stitches)));
        table.setItem(row, Metres, itemOf(figure(one.metres)));
        table.setItem(row, Skeins, itemOf(figure(one.skeins, 2)));
        table.setItem(row, Stash, itemOf(one.assumed ? tr("?") : QLocale().toString(one.stash)));
        auto* buy = itemOf(QString::number(one.toBuy));
        QFont bold = buy->font();
        bold.setBold(one.toBuy > 0);
        buy->setFont(bold);
        table.setItem(row, Buy, buy);
    }
    table.verticalHeader()->hide();
    table.setSelectionBehavior(QAbstractItemView::SelectRows);
    table.setShowGrid(false);
    constexpr int kNumberWidth = 86;
    for (int column = Stitches; column < Columns; ++column) {
        table.setColumnWidth(column, kNumberWidth);
    }
    table.setColumnWidth(Chip, 36);
    table.horizontalHeader()->setSectionResizeMode(Thread, QHeaderView::Stretch);
    table.horizontalHeader()->setMinimumSectionSize(36);
    for (int column = Thread; column < Columns; ++column) {
        table.horizontalHeaderItem(column)->setTextAlignment(
            column == Thread ? Qt::AlignLeft | Qt::AlignVCenter
                             : Qt::AlignRight | Qt::AlignVCenter);
    }
}

QString ShoppingList::text() const {
    QStringList lines{m_chart};
    for (const colourway::Quantity& one : m_quantities.threads) {
        lines.push_back(tr("%1 %2: %3 skeins, %4 to buy")
                            .arg(one.code, one.name, figure(one.skeins, 2))
                            .arg(one.toBuy));
    }
    lines.push_back(tr("To buy: %1").arg(m_quantities.toBuy));
    return lines.join(QLatin1Char('\n'));
}

} // namespace otherskein::app
