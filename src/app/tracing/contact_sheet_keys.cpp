// What the keys do in the sheet.
#include "app/tracing/contact_sheet.h"

#include "app/tracing/pick_list.h"

#include <QKeyEvent>
#include <QPushButton>

#include <utility>

namespace otherskein::app {

bool ContactSheet::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_list->viewport() && event->type() == QEvent::Resize) {
        fitPlaces();
    }
    if (watched != m_list || event->type() != QEvent::KeyPress) {
        return QWidget::eventFilter(watched, event);
    }
    const auto* key = static_cast<QKeyEvent*>(event);
    const Qt::KeyboardModifiers modifiers = key->modifiers() & ~Qt::KeypadModifier;
    if (modifiers == Qt::ShiftModifier && key->key() == Qt::Key_N) {
        step(-1);
        return true;
    }
    return modifiers == Qt::NoModifier && pressKey(key->key());
}

void ContactSheet::walk(bool on) {
    if (std::exchange(m_walked, on) != on) {
        showState();
        Q_EMIT selectionChanged();
    }
}

bool ContactSheet::pressKey(int key) {
    if (key >= Qt::Key_1 && key <= Qt::Key_9) {
        Q_EMIT numberTyped(key - Qt::Key_0);
        return true;
    }
    const std::pair<int, QPushButton*> buttons[] = {{Qt::Key_A, m_accept},
                                                    {Qt::Key_M, m_move},
                                                    {Qt::Key_P, m_split},
                                                    {Qt::Key_L, m_alike},
                                                    {Qt::Key_N, m_on}};
    for (const auto& [letter, button] : buttons) {
        if (key == letter) {
            button->click();
            return true;
        }
    }
    const bool some = !selected().empty();
    switch (key) {
    case Qt::Key_Left:
    case Qt::Key_Right:
    case Qt::Key_Up:
    case Qt::Key_Down:
    case Qt::Key_Home:
    case Qt::Key_End:
        walk(true);
        return false; // the list goes there
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (m_list->currentIndex().isValid()) {
            Q_EMIT cellAsked(m_model->cell(m_list->currentIndex().row()));
        }
        return true;
    case Qt::Key_J:
        joinMostAlike();
        return true;
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        if (some && !m_traced.desk().state().bare) {
            moveTo(chart::kBare);
        }
        return true;
    case Qt::Key_Escape:
        walk(false);
        m_list->clearSelection(); // a second time it is for the place
        return some;
    default:
        return false;
    }
}

} // namespace otherskein::app
