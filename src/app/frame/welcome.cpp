#include "app/frame/welcome.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/frame/rail.h"
#include "colour/conversion.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include <cmath>
#include <numbers>

namespace otherskein::app {

namespace {

/// A place's drawing, in the ink of the tone in force.
class PlaceSign : public QWidget {
  public:
    PlaceSign(PlaceId place, QWidget* parent) : QWidget(parent), m_place(place) {
        setFixedSize(kSide, kSide);
    }

  protected:
    void paintEvent(QPaintEvent* /*event*/) override {
        QPainter painter(this);
        painter.drawPixmap(0, 0, placeIcon(m_place, kSide, greys().text, devicePixelRatioF()));
    }

  private:
    static constexpr int kSide = 28;
    PlaceId m_place;
};

/// A ramp of our own round the hues, chips touching: what the program is about, before a word is
/// read.
class ChipBand : public QWidget {
  public:
    explicit ChipBand(QWidget* parent) : QWidget(parent) { setFixedHeight(56); }

  protected:
    void paintEvent(QPaintEvent* /*event*/) override {
        constexpr int kChips = 24;
        QPainter painter(this);
        for (int i = 0; i < kChips; ++i) {
            const double turn = 2 * std::numbers::pi * i / kChips;
            const double C = 34 + 8 * std::cos(turn - 1);
            const double L = 56 + 14 * std::cos(turn - 1.6);
            const int left = i * width() / kChips;
            painter.fillRect(
                left, 0, (i + 1) * width() / kChips - left, height(),
                toQColor(colour::srgbFromLab({L, C * std::cos(turn), C * std::sin(turn)})));
        }
    }
};

} // namespace

Welcome::Welcome(QWidget* parent) : QWidget(parent) {
    auto* middle = new QWidget(this);
    middle->setFixedWidth(600);
    auto* column = new QVBoxLayout(middle);
    column->setSpacing(10);
    column->addWidget(new ChipBand(middle));
    column->addSpacing(14);

    auto* title = new QLabel(tr("Stitch it in the threads you have"), middle);
    title->setFont(scaledFont(2.0, 600));
    title->setWordWrap(true);
    column->addWidget(title);
    column->addWidget(noteLabel(
        tr("Otherskein knows your threads by measured colour. It finds what else would do for a "
           "thread that the shop is out of, and gives a whole chart other colours: on your fabric, "
           "your own skeins first."),
        middle));
    column->addSpacing(14);

    auto* lines = new QGridLayout;
    lines->setHorizontalSpacing(16);
    lines->setVerticalSpacing(12);
    for (int i = 0; i < kPlaces; ++i) {
        const auto place = static_cast<PlaceId>(i);
        lines->addWidget(new PlaceSign(place, middle), i, 0);
        auto* name = new QLabel(placeName(place), middle);
        name->setFont(scaledFont(1.0, 600));
        lines->addWidget(name, i, 1);
        lines->addWidget(new QLabel(placeQuestion(place), middle), i, 2);
    }
    lines->setColumnStretch(2, 1);
    column->addLayout(lines);
    column->addSpacing(18);

    auto* buttons = new QHBoxLayout;
    auto* demo = new QPushButton(tr("Open the demo"), middle);
    demo->setProperty("strong", true);
    demo->setDefault(true);
    auto* import = new QPushButton(tr("Import shade cards…"), middle);
    buttons->addWidget(demo);
    buttons->addWidget(import);
    buttons->addStretch();
    column->addLayout(buttons);
    column->addWidget(noteLabel(
        tr("The demo is invented: three lines of thread, a stash, four fabrics, two charts. "
           "You can also drop shade cards, chart pictures and printed pages anywhere on this "
           "window."),
        middle));

    auto* across = new QHBoxLayout(this);
    across->addStretch(1);
    across->addWidget(middle, 0, Qt::AlignVCenter);
    across->addStretch(1);

    setFocusProxy(demo);
    connect(demo, &QPushButton::clicked, this, &Welcome::demoAsked);
    connect(import, &QPushButton::clicked, this, &Welcome::importAsked);
}

} // namespace otherskein::app
