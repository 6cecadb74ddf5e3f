#include "app/frame/waiting_place.h"

#include "app/frame/panel.h"

#include <QLabel>
#include <QVBoxLayout>

namespace otherskein::app {

WaitingPlace::WaitingPlace(PlaceId place, const QString& meanwhile, QWidget* parent)
    : QWidget(parent) {
    auto* column = new QVBoxLayout(this);
    column->addStretch(2);
    auto* title = titleLabel(placeQuestion(place), this);
    title->setAlignment(Qt::AlignHCenter);
    auto* note = noteLabel(meanwhile, this);
    note->setAlignment(Qt::AlignHCenter);
    column->addWidget(title);
    column->addWidget(note);
    column->addStretch(3);
}

} // namespace otherskein::app
