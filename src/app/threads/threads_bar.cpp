#include "app/threads/threads_bar.h"

#include "app/frame/look.h"
#include "app/frame/segmented.h"
#include "app/threads/thread_columns.h"
#include "app/threads/thread_filter.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QPushButton>
#include <QSlider>
#include <QVBoxLayout>

namespace otherskein::app {

ThreadsBar::ThreadsBar(QWidget* parent)
    : Panel(PanelEdge::Below, parent), m_search(new QLineEdit(this)), m_count(new QLabel(this)),
      m_countMore(noteLabel({}, this)), m_chipWidth(new QSlider(Qt::Horizontal, this)),
      m_order(
          new Segmented(tr("Order of the wall"), {tr("Hue"), tr("Lightness"), tr("Code")}, this)),
      m_view(new Segmented(tr("Show as"), {tr("Wall"), tr("Table")}, this)) {
    column()->setContentsMargins(16, 12, 16, 12);
    column()->setSpacing(10);
    m_search->setPlaceholderText(tr("Code, name or #hex"));
    m_search->setAccessibleName(tr("Search threads by code, name or colour"));
    m_search->setClearButtonEnabled(true);
    m_search->installEventFilter(this);
    auto* add = new QPushButton(tr("Add thread"), this);
    add->setAccessibleName(tr("Add thread"));
    add->setToolTip(tr("Add a thread to a card (Insert)"));
    m_count->setFont(scaledFont(1.05, 600));
    m_countMore->setWordWrap(false);
    m_countMore->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_chipWidth->setRange(kLeastChipWidth, kMostChipWidth);
    m_chipWidth->setFixedWidth(96);
    m_chipWidth->setPageStep(20);
    m_chipWidth->setAccessibleName(tr("Size of the chips"));
    m_chipWidth->setToolTip(tr("Size of the chips (Ctrl and wheel, or + and −)"));

    auto* above = new QHBoxLayout;
    above->setSpacing(10);
    above->addWidget(m_search, 1);
    above->addWidget(add);
    column()->addLayout(above);
    auto* below = new QHBoxLayout;
    below->setSpacing(10);
    below->addWidget(m_count);
    below->addWidget(m_countMore, 1);
    below->addWidget(m_chipWidth);
    below->addSpacing(4);
    below->addWidget(m_order);
    below->addWidget(m_view);
    column()->addLayout(below);

    connect(m_search, &QLineEdit::textChanged, this, &ThreadsBar::searchTyped);
    connect(add, &QPushButton::clicked, this, &ThreadsBar::addAsked);
    connect(m_chipWidth, &QSlider::valueChanged, this, &ThreadsBar::chipWidthChosen);
    connect(m_order, &Segmented::chosen, this,
            [this](int order) { Q_EMIT orderChosen(static_cast<WallOrder>(order)); });
    connect(m_view, &Segmented::chosen, this,
            [this](int view) { Q_EMIT viewChosen(static_cast<ThreadsView>(view)); });
}

void ThreadsBar::showState(const ThreadsState& state, int shown, int total, int chosen) {
    const QSignalBlocker quiet[] = {QSignalBlocker(m_search), QSignalBlocker(m_chipWidth),
                                    QSignalBlocker(m_order), QSignalBlocker(m_view)};
    if (m_search->text() != state.search) {
        m_search->setText(state.search);
    }
    m_chipWidth->setValue(state.chipWidth);
    m_order->setCurrent(static_cast<int>(state.order));
    m_view->setCurrent(static_cast<int>(state.view));
    // The table has its header to sort by, and no chips to make larger.
    // A colour searched for is an order of its own.
    const Search search = parsedSearch(state.search);
    m_order->setVisible(state.view == ThreadsView::Wall && !search.near);
    m_chipWidth->setVisible(state.view == ThreadsView::Wall);

    m_count->setText(shownCount(shown));
    QStringList more;
    if (shown != total) {
        more.push_back(tr("of %1").arg(QLocale().toString(total)));
    }
    if (search.near && shown > 0) {
        more.push_back(tr("nearest to %1 first").arg(colour::toHex(*search.near)));
    }
    if (chosen > 1) {
        more.push_back(tr("%1 chosen").arg(QLocale().toString(chosen)));
    }
    m_countMore->setText(more.join(QStringLiteral(", ")));
}

bool ThreadsBar::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_search && event->type() == QEvent::KeyPress) {
        switch (static_cast<QKeyEvent*>(event)->key()) {
        case Qt::Key_Down:
        case Qt::Key_Return:
        case Qt::Key_Enter:
            Q_EMIT intoThreadsAsked();
            return true;
        case Qt::Key_Escape:
            m_search->clear();
            return true;
        default:
            break;
        }
    }
    return Panel::eventFilter(watched, event);
}

} // namespace otherskein::app
