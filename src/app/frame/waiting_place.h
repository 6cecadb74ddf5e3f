#pragma once

#include "app/frame/rail.h"

#include <QWidget>

namespace otherskein::app {

/// Stands where a place is still to be built: says so in one line, and what can be used meanwhile.
class WaitingPlace : public QWidget {
    Q_OBJECT

  public:
    WaitingPlace(PlaceId place, const QString& meanwhile, QWidget* parent = nullptr);
};

} // namespace otherskein::app
