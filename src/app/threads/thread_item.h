#pragma once

#include "thread/thread.h"
#include "workbox/store.h"

#include <QRgb>

namespace otherskein::app {

/// Names a thread of the workbox for good.
struct ThreadRef {
    workbox::CardId card{};
    workbox::ThreadId id{};

    bool operator==(const ThreadRef&) const = default;
};

/// A thread as the wall and the table show it.
struct ThreadItem {
    ThreadRef ref;
    QString card; ///< its card's name
    thread::Thread thread;
    QRgb shown = 0;      ///< its colour on the screen
    double distance = 0; ///< ΔE00 to the colour searched for; 0 when none is
    bool kept = false;   ///< stays in view although the filter leaves it out
};

} // namespace otherskein::app
