#include "app/frame/segmented.h"

#include <QButtonGroup>
#include <QHBoxLayout>
#include <QPushButton>

namespace otherskein::app {

Segmented::Segmented(const QString& accessibleName, const QStringList& labels, QWidget* parent)
    : QWidget(parent), m_buttons(new QButtonGroup(this)) {
    setAccessibleName(accessibleName);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    for (int i = 0; i < labels.size(); ++i) {
        auto* button = new QPushButton(labels[i], this);
        button->setCheckable(true);
        button->setAutoDefault(false);
        button->setAccessibleName(accessibleName + QStringLiteral(": ") + labels[i]);
        button->setProperty("segment", i == 0                   ? QStringLiteral("first")
                                       : i + 1 == labels.size() ? QStringLiteral("last")
                                                                : QStringLiteral("middle"));
        m_buttons->addButton(button, i);
        row->addWidget(button);
    }
    m_buttons->setExclusive(true);
    setCurrent(0);
    connect(m_buttons, &QButtonGroup::idToggled, this, [this](int id, bool down) {
        if (down) {
            Q_EMIT chosen(id);
        }
    });
}

int Segmented::current() const {
    return m_buttons->checkedId();
}

void Segmented::setCurrent(int index) {
    const QSignalBlocker quiet(m_buttons);
    m_buttons->button(index)->setChecked(true);
}

} // namespace otherskein::app
