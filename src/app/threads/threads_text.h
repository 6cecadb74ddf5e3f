#pragma once

#include <QCoreApplication>
#include <QString>

namespace otherskein::app {

/// A text of the Threads place, translated, for functions that belong to no widget.
inline QString threadsText(const char* text) {
    return QCoreApplication::translate("Threads", text);
}

} // namespace otherskein::app
