#include "app/frame/rail.h"

#include "app/frame/look.h"

#include <QAbstractButton>
#include <QButtonGroup>
#include <QPainter>
#include <QSvgRenderer>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

constexpr int kRailWidth = 86;
constexpr int kButtonHeight = 62;
constexpr int kIconSide = 24;

class PlaceButton : public QAbstractButton {
  public:
    PlaceButton(PlaceId place, QWidget* parent) : QAbstractButton(parent), m_place(place) {
        setText(placeName(place));
        setAccessibleName(placeName(place));
        setAccessibleDescription(placeQuestion(place));
        setToolTip(placeQuestion(place));
        setCheckable(true);
        setFixedSize(kRailWidth - 16, kButtonHeight);
        setFocusPolicy(Qt::TabFocus);
    }

  protected:
    void paintEvent(QPaintEvent* /*event*/) override {
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        const Greys& g = greys();
        const QRectF box = QRectF(rect()).adjusted(1, 1, -1, -1);
        if (isChecked() || underMouse()) {
            painter.setPen(Qt::NoPen);
            painter.setBrush(isChecked() ? g.strong : g.line);
            painter.drawRoundedRect(box, 8, 8);
        }
        if (hasFocus()) {
            painter.setPen(QPen(isChecked() ? g.edge : g.text, 2));
            painter.setBrush(Qt::NoBrush);
            painter.drawRoundedRect(box, 8, 8);
        }
        const QColor ink = isChecked() ? g.onStrong : g.text;
        painter.drawPixmap((width() - kIconSide) / 2, 9,
                           placeIcon(m_place, kIconSide, ink, devicePixelRatioF()));
        painter.setPen(ink);
        painter.setFont(scaledFont(0.86));
        painter.drawText(QRect(0, 36, width(), 20), Qt::AlignHCenter | Qt::AlignVCenter, text());
    }
    void enterEvent(QEnterEvent* /*event*/) override { update(); }
    void leaveEvent(QEvent* /*event*/) override { update(); }

  private:
    PlaceId m_place;
};

const char* iconFile(PlaceId place) {
    switch (place) {
    case PlaceId::Threads:
        return ":/icons/threads.svg";
    case PlaceId::Charts:
        return ":/icons/charts.svg";
    case PlaceId::Substitute:
        return ":/icons/substitute.svg";
    case PlaceId::Recolour:
        return ":/icons/recolour.svg";
    case PlaceId::Ground:
        break;
    }
    return ":/icons/ground.svg";
}

} // namespace

QString placeName(PlaceId place) {
    switch (place) {
    case PlaceId::Threads:
        return Rail::tr("Threads");
    case PlaceId::Charts:
        return Rail::tr("Charts");
    case PlaceId::Substitute:
        return Rail::tr("Substitute");
    case PlaceId::Recolour:
        return Rail::tr("Recolour");
    case PlaceId::Ground:
        break;
    }
    return Rail::tr("Ground");
}

QString placeQuestion(PlaceId place) {
    switch (place) {
    case PlaceId::Threads:
        return Rail::tr("What do I have, and what colour is it?");
    case PlaceId::Charts:
        return Rail::tr("What will I stitch?");
    case PlaceId::Substitute:
        return Rail::tr("What else can I use for a thread I cannot get?");
    case PlaceId::Recolour:
        return Rail::tr("How would the chart look in other colours?");
    case PlaceId::Ground:
        break;
    }
    return Rail::tr("Does it show on this fabric?");
}

QPixmap placeIcon(PlaceId place, int side, const QColor& colour, double pixelRatio) {
    QPixmap icon(QSize(side, side) * pixelRatio);
    icon.setDevicePixelRatio(pixelRatio);
    icon.fill(Qt::transparent);
    QPainter painter(&icon);
    QSvgRenderer(QString::fromLatin1(iconFile(place))).render(&painter, QRectF(0, 0, side, side));
    // The drawings are black; laying the ink over them keeps one file for both tones.
    painter.setCompositionMode(QPainter::CompositionMode_SourceIn);
    painter.fillRect(QRectF(0, 0, side, side), colour);
    return icon;
}

Rail::Rail(QWidget* parent) : QWidget(parent), m_buttons(new QButtonGroup(this)) {
    setFixedWidth(kRailWidth);
    setAccessibleName(tr("Places"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(8, 12, 8, 12);
    column->setSpacing(6);
    for (int i = 0; i < kPlaces; ++i) {
        auto* button = new PlaceButton(static_cast<PlaceId>(i), this);
        m_buttons->addButton(button, i);
        column->addWidget(button);
    }
    column->addStretch();
    m_buttons->setExclusive(true);
    connect(m_buttons, &QButtonGroup::idClicked, this,
            [this](int id) { Q_EMIT chosen(static_cast<PlaceId>(id)); });
}

void Rail::setCurrent(PlaceId place) {
    m_buttons->button(static_cast<int>(place))->setChecked(true);
}

void Rail::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), greys().chrome);
    painter.setPen(greys().line);
    const int edge = isRightToLeft() ? 0 : width() - 1;
    painter.drawLine(edge, 0, edge, height());
}

} // namespace otherskein::app
