#include "app/ground/piece_form.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/frame/segmented.h"
#include "app/ground/photo_view.h"
#include "base/input_error.h"
#include "colour/conversion.h"
#include "drawing/stitch.h"

#include <QColorDialog>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QImageReader>
#include <QLabel>
#include <QLineEdit>
#include <QMessageBox>
#include <QPainter>
#include <QPushButton>
#include <QSpinBox>
#include <QVBoxLayout>

namespace otherskein::app {

/// The cloth in its colour and weave.
class ColourPatch : public QWidget {
  public:
    explicit ColourPatch(QWidget* parent) : QWidget(parent) {
        setFixedHeight(54);
        setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    }
    void show(const thread::Ground& ground) {
        m_ground = ground;
        update();
    }

  protected:
    void paintEvent(QPaintEvent* /*event*/) override {
        constexpr double kCell = 12;
        const double ratio = devicePixelRatioF();
        const colour::Srgb8& srgb = m_ground.shown;
        QImage cloth =
            drawing::clothPicture(static_cast<int>(kCell * ratio), qRgb(srgb.r, srgb.g, srgb.b),
                                  drawing::clothOf(m_ground));
        cloth.setDevicePixelRatio(ratio);
        QPainter painter(this);
        painter.fillRect(rect(), QBrush(cloth));
        painter.setPen(greys().edge);
        painter.drawRect(rect().adjusted(0, 0, -1, -1));
    }

  private:
    thread::Ground m_ground;
};

PieceForm::PieceForm(QWidget* parent)
    : QWidget(parent), m_name(new QLineEdit(this)), m_hex(new QLineEdit(this)),
      m_patch(new ColourPatch(this)), m_pick(new QPushButton(tr("Choose…"), this)),
      m_open(new QPushButton(tr("From a photo…"), this)), m_count(new QSpinBox(this)),
      m_over(new Segmented(tr("Over"), {tr("over 1"), tr("over 2")}, this)),
      m_weave(new QComboBox(this)), m_width(new QDoubleSpinBox(this)),
      m_height(new QDoubleSpinBox(this)),
      m_unit(new Segmented(tr("Unit"), {tr("in"), tr("cm")}, this)), m_photo(new PhotoView(this)),
      m_photoNote(noteLabel({}, this)) {
    build();
    connectAll();
}

void PieceForm::build() {
    // Return in a field means the field, not the first button.
    m_pick->setAutoDefault(false);
    m_open->setAutoDefault(false);
    auto* form = new QFormLayout(this);
    form->setContentsMargins(0, 0, 0, 0);
    form->setHorizontalSpacing(14);
    form->setVerticalSpacing(9);
    form->setFieldGrowthPolicy(QFormLayout::ExpandingFieldsGrow);
    const auto across = [](std::initializer_list<QWidget*> widgets) {
        auto* row = new QHBoxLayout;
        row->setSpacing(6);
        for (QWidget* widget : widgets) {
            row->addWidget(widget);
        }
        return row;
    };
    m_name->setAccessibleName(tr("Name of the fabric"));
    m_hex->setAccessibleName(tr("Colour as #rrggbb"));
    m_hex->setMaximumWidth(96);
    m_count->setRange(thread::limits::kLeastCount, thread::limits::kMostCount);
    m_count->setAccessibleName(tr("Count, threads or holes per inch"));
    m_weave->setEditable(true);
    m_weave->addItems({tr("evenweave"), tr("linen"), tr("block weave")});
    m_weave->setAccessibleName(tr("Weave"));
    for (QDoubleSpinBox* box : {m_width, m_height}) {
        box->setDecimals(1);
        box->setSpecialValueText(tr("not known"));
    }
    m_width->setAccessibleName(tr("Width of the piece"));
    m_height->setAccessibleName(tr("Height of the piece"));
    form->addRow(tr("Name"), m_name);
    auto* colour = across({m_hex, m_pick, m_open});
    colour->addStretch();
    form->addRow(tr("Colour"), colour);
    form->addRow(QString(), m_patch);
    form->addRow(QString(), m_photo);
    form->addRow(QString(), m_photoNote);
    auto* count = across({m_count, m_over});
    count->addStretch();
    form->addRow(tr("Count"), count);
    form->addRow(tr("Weave"), m_weave);
    auto* size = across({m_width, new QLabel(QStringLiteral("×"), this), m_height, m_unit});
    size->addStretch();
    form->addRow(tr("Piece"), size);
}

void PieceForm::connectAll() {
    connect(m_name, &QLineEdit::textEdited, this, [this](const QString& text) {
        m_ground.name = text;
        tell(1);
    });
    connect(m_hex, &QLineEdit::textEdited, this, [this](const QString& text) {
        if (const auto srgb = colour::parseHex(text.trimmed())) {
            m_ground.shown = *srgb;
            m_ground.lab = colour::labFromSrgb(*srgb);
            m_patch->show(m_ground);
            tell(2);
        }
    });
    // What is no colour goes back to the one that holds.
    connect(m_hex, &QLineEdit::editingFinished, this, &PieceForm::showColour);
    connect(m_pick, &QPushButton::clicked, this, [this] {
        const QColor chosen =
            QColorDialog::getColor(toQColor(m_ground.shown), this, tr("The fabric's colour"));
        if (chosen.isValid()) {
            takeColour(toSrgb8(chosen));
        }
    });
    connect(m_open, &QPushButton::clicked, this, [this] {
        const QString path = QFileDialog::getOpenFileName(this, tr("A photo of the fabric"), {},
                                                          tr("Pictures (*.png *.jpg *.jpeg)"));
        try {
            if (!path.isEmpty()) {
                openPhoto(path);
            }
        } catch (const base::InputError& error) {
            QMessageBox::warning(this, tr("The photo was not read"), error.line());
        }
    });
    connect(m_photo, &PhotoView::colourTaken, this, &PieceForm::takeLab);
    connect(m_count, &QSpinBox::valueChanged, this, [this](int count) {
        m_ground.count = count;
        tell(3);
    });
    connect(m_over, &Segmented::chosen, this, [this](int index) {
        m_ground.over = index + 1;
        tell(4);
    });
    connect(m_weave, &QComboBox::currentTextChanged, this, [this](const QString& text) {
        m_ground.weave = text;
        tell(5);
    });
    connect(m_width, &QDoubleSpinBox::valueChanged, this, [this](double width) {
        m_ground.widthMm = width * unitMm();
        tell(6);
    });
    connect(m_height, &QDoubleSpinBox::valueChanged, this, [this](double height) {
        m_ground.heightMm = height * unitMm();
        tell(7);
    });
    connect(m_unit, &Segmented::chosen, this, [this](int index) {
        m_inches = index == 0;
        showSize();
    });
}

void PieceForm::show(const thread::Ground& ground, bool inches) {
    m_ground = ground;
    m_inches = inches;
    const QSignalBlocker a(m_count);
    const QSignalBlocker b(m_weave);
    m_name->setText(ground.name);
    m_count->setValue(ground.count);
    m_over->setCurrent(ground.over - 1);
    m_weave->setCurrentText(ground.weave);
    m_unit->setCurrent(inches ? 0 : 1);
    m_photo->setPhoto(QImage::fromData(ground.photo));
    showColour();
    showSize();
}

void PieceForm::showColour() {
    m_hex->setText(colour::toHex(m_ground.shown));
    m_patch->show(m_ground);
    const bool photo = !m_photo->photo().isNull();
    m_photoNote->setVisible(photo);
    m_photoNote->setText(
        tr("Click the photo, or drag over bare cloth, to take its colour. A photo's "
           "colours depend on the light: compare with the cloth in your hand."));
}

void PieceForm::showSize() {
    for (const auto& [box, mm] :
         {std::pair(m_width, m_ground.widthMm), std::pair(m_height, m_ground.heightMm)}) {
        const QSignalBlocker quiet(box);
        box->setRange(0, thread::limits::kMostPieceMm / unitMm());
        box->setValue(mm / unitMm());
    }
}

void PieceForm::tell(int field) {
    m_field = field;
    Q_EMIT edited();
}

void PieceForm::takeColour(const colour::Srgb8& srgb) {
    m_ground.shown = srgb;
    m_ground.lab = colour::labFromSrgb(srgb);
    showColour();
    tell(8);
}

void PieceForm::takeLab(const colour::Lab& lab) {
    m_ground.lab = lab;
    m_ground.shown = colour::srgbFromLab(lab);
    showColour();
    tell(9);
}

void PieceForm::openPhoto(const QString& path) {
    constexpr int kMostSide = 12'000;
    const auto refuse = [&](const QString& expected, const QString& found) {
        return base::InputError({QFileInfo(path).fileName(), {}, {}, expected, found});
    };
    QImageReader reader(path);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (size.width() > kMostSide || size.height() > kMostSide) {
        throw refuse(tr("a picture of at most %1 pixels a side").arg(kMostSide),
                     tr("%1 × %2").arg(size.width()).arg(size.height()));
    }
    const QImage image = reader.read();
    if (image.isNull()) {
        throw refuse(tr("a PNG or JPEG picture"), reader.errorString());
    }
    m_ground.photo = keptPhoto(image);
    m_photo->setPhoto(QImage::fromData(m_ground.photo));
    takeLab(meanColour(m_photo->photo(), m_photo->photo().rect()));
}

} // namespace otherskein::app
