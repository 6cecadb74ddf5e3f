#include "app/charts/key_page.h"

#include "app/charts/key_editors.h"
#include "app/charts/key_model.h"
#include "app/charts/key_table.h"
#include "app/frame/look.h"

#include <QLabel>
#include <QVBoxLayout>

namespace otherskein::app {

KeyPage::KeyPage(ChartDesk& desk, QWidget* parent)
    : QWidget(parent), m_model(new KeyModel(desk, this)), m_total(new QLabel(this)),
      m_table(new KeyTable(desk, *m_model, this)), m_editors(new KeyEditors(desk, *m_model, this)) {
    m_total->setFont(scaledFont(1, 600));
    m_total->setContentsMargins(16, 0, 16, 0);
    m_editors->setContentsMargins(16, 0, 16, 0);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(m_total);
    column->addWidget(m_table, 1);
    column->addWidget(m_editors);
    connect(m_table, &KeyTable::editAsked, m_editors, &KeyEditors::editThread);
    connect(m_table, &KeyTable::removeAsked, m_editors, &KeyEditors::removeRow);
    connect(m_model, &QAbstractItemModel::modelReset, this, &KeyPage::showTotal);
    connect(m_model, &QAbstractItemModel::dataChanged, this, &KeyPage::showTotal);
    showTotal();
}

void KeyPage::showTotal() {
    const QString stitches = tr("%Ln stitches", nullptr, m_model->totalStitches());
    m_total->setText(tr("%1 in %2").arg(stitches, tr("%n threads", nullptr, m_model->rowCount())));
}

} // namespace otherskein::app
