#include "app/recolour/colourway_bar.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QStackedWidget>

namespace otherskein::app {

ColourwayBar::ColourwayBar(QWidget* parent)
    : QWidget(parent), m_pages(new QStackedWidget(this)), m_kept(new QComboBox(m_pages)),
      m_name(new QLineEdit(m_pages)), m_menu(new QPushButton(QStringLiteral("⋯"), this)) {
    m_kept->setAccessibleName(tr("Kept colourways of this chart"));
    m_kept->setMinimumContentsLength(10);
    m_kept->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_name->setAccessibleName(tr("Name of the colourway"));
    m_name->installEventFilter(this);
    m_pages->addWidget(m_kept);
    m_pages->addWidget(m_name);
    m_pages->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_menu->setAccessibleName(tr("What to do with this colourway"));
    m_menu->setToolTip(m_menu->accessibleName());
    auto* menu = new QMenu(m_menu);
    menu->addAction(tr("Rename"), this, &ColourwayBar::beginRename);
    menu->addAction(tr("Keep a copy"), this, &ColourwayBar::copyAsked);
    menu->addAction(tr("Delete"), this, &ColourwayBar::deleteAsked);
    connect(m_menu, &QPushButton::clicked, this,
            [this, menu] { menu->popup(m_menu->mapToGlobal(QPoint(0, m_menu->height()))); });
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(6);
    row->addWidget(m_pages, 1);
    row->addWidget(m_menu);

    connect(m_kept, &QComboBox::activated, this, [this](int index) {
        if (const qlonglong id = m_kept->itemData(index).toLongLong(); id > 0) {
            Q_EMIT chosen(workbox::ColourwayId{id});
        }
    });
    connect(m_name, &QLineEdit::editingFinished, this, &ColourwayBar::endRename);
}

void ColourwayBar::show(const std::vector<workbox::StoredColourway>& kept,
                        std::optional<workbox::ColourwayId> current) {
    m_kept->clear();
    if (!current) {
        m_kept->addItem(tr("A suggestion, not kept yet"), 0);
    }
    for (const workbox::StoredColourway& one : kept) {
        m_kept->addItem(one.name, static_cast<qlonglong>(one.id));
        if (current == one.id) {
            m_kept->setCurrentIndex(m_kept->count() - 1);
        }
    }
    m_menu->setEnabled(current.has_value());
}

void ColourwayBar::beginRename() {
    m_name->setText(m_kept->currentText());
    m_pages->setCurrentWidget(m_name);
    m_name->setFocus();
    m_name->selectAll();
}

void ColourwayBar::endRename() {
    if (m_pages->currentWidget() != m_name) {
        return;
    }
    m_pages->setCurrentWidget(m_kept);
    const QString name = m_name->text().trimmed();
    if (!name.isEmpty() && name != m_kept->currentText()) {
        Q_EMIT renamed(name);
    }
}

bool ColourwayBar::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_name && event->type() == QEvent::KeyPress &&
        static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        m_name->setText(m_kept->currentText());
        endRename();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace otherskein::app
