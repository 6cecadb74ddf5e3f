#include "app/charts/key_page.h"

#include "app/charts/key_editors.h"
#include "app/charts/key_model.h"
#include "app/charts/key_table.h"
#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/ground/shopping_list.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLocale>
#include <QPushButton>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

/// A traced chart's key has none until they are chosen, or read from the page.
bool hasThreads(const chart::Key& key) {
    return std::ranges::any_of(key, [](const chart::KeyRow& row) { return !row.code.isEmpty(); });
}

} // namespace

KeyPage::KeyPage(ChartDesk& desk, QWidget* parent)
    : QWidget(parent), m_desk(desk), m_model(new KeyModel(desk, this)), m_total(new QLabel(this)),
      m_table(new KeyTable(desk, *m_model, this)), m_editors(new KeyEditors(desk, *m_model, this)),
      m_skeins(noteLabel({}, this)), m_list(new QPushButton(tr("Shopping list…"), this)),
      m_soon(new QTimer(this)) {
    m_total->setFont(scaledFont(1, 600));
    m_total->setContentsMargins(16, 0, 16, 0);
    m_editors->setContentsMargins(16, 0, 16, 0);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(m_total);
    auto* thread = new QHBoxLayout;
    thread->setContentsMargins(16, 0, 16, 0);
    thread->addWidget(m_skeins, 1);
    thread->addWidget(m_list);
    column->addLayout(thread);
    column->addWidget(m_table, 1);
    column->addWidget(m_editors);
    connect(m_table, &KeyTable::editAsked, m_editors, &KeyEditors::editThread);
    connect(m_table, &KeyTable::removeAsked, m_editors, &KeyEditors::removeRow);
    connect(m_model, &QAbstractItemModel::modelReset, this, &KeyPage::showTotal);
    connect(m_model, &QAbstractItemModel::dataChanged, this, &KeyPage::showTotal);
    m_list->setAccessibleName(tr("Shopping list"));
    m_list->setAutoDefault(false);
    connect(m_list, &QPushButton::clicked, this, &KeyPage::openList);
    constexpr int kSoon = 150;
    m_soon->setSingleShot(true);
    m_soon->setInterval(kSoon);
    connect(m_soon, &QTimer::timeout, this, &KeyPage::showSkeins);
    for (const auto change :
         {&Session::groundChanged, &Session::cardsChanged, &Session::measuresChanged}) {
        connect(&desk.session(), change, m_soon, qOverload<>(&QTimer::start));
    }
    showTotal();
}

colourway::Usage KeyPage::usage() const {
    colourway::Usage usage;
    usage.waste = m_desk.session().waste();
    return usage;
}

void KeyPage::showSkeins() {
    m_list->setEnabled(m_desk.chart() != nullptr && hasThreads(m_desk.chart()->key));
    if (!m_desk.chart()) {
        m_skeins->clear();
        return;
    }
    if (!hasThreads(m_desk.chart()->key)) {
        m_skeins->setText(tr("No threads chosen yet"));
        m_quantities = {};
        m_model->setThreadNotes({});
        return;
    }
    Session& session = m_desk.session();
    std::vector<const thread::ShadeCard*> cards;
    for (const thread::ShadeCard& card : *session.cards()) {
        cards.push_back(&card);
    }
    const thread::Ground ground = session.ground();
    m_quantities = colourway::quantitiesOf(
        *m_desk.chart(), {ground, std::nullopt, session.plyWidths()}, usage(), cards);
    m_skeins->setText((m_quantities.toBuy == 1
                           ? tr("1 skein to buy for %2")
                           : tr("%1 skeins to buy for %2").arg(m_quantities.toBuy))
                          .replace(QStringLiteral("%2"), ground.name));
    QStringList notes;
    for (const chart::KeyRow& row : m_desk.chart()->key) {
        const auto found =
            std::ranges::find_if(m_quantities.threads, [&](const colourway::Quantity& one) {
                return one.code == row.code && (row.card.isEmpty() || one.card == row.card);
            });
        notes.push_back(found == m_quantities.threads.end()
                            ? QString()
                            : tr("%1 skeins for %2, %3 in stash, %4 to buy")
                                  .arg(QLocale().toString(found->skeins, 'f', 2), ground.name,
                                       QLocale().toString(found->stash))
                                  .arg(found->toBuy));
    }
    m_model->setThreadNotes(notes);
}

void KeyPage::openList() {
    showSkeins();
    if (m_desk.chart()) {
        ShoppingList(m_desk.chart()->name, m_quantities, usage(), this).exec();
    }
}

void KeyPage::showTotal() {
    m_soon->start();
    const QString stitches = tr("%Ln stitches", nullptr, m_model->totalStitches());
    const int rows = m_model->rowCount();
    const bool areThreads = m_desk.chart() && hasThreads(m_desk.chart()->key);
    m_total->setText(tr("%1 in %2")
                         .arg(stitches, areThreads ? tr("%n threads", nullptr, rows)
                                                   : tr("%n symbols", nullptr, rows)));
}

} // namespace otherskein::app
