#include "app/ground/measures_dialog.h"

#include "app/frame/panel.h"
#include "app/ground/ground_words.h"
#include "colourway/quantities.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

QHBoxLayout* together(std::initializer_list<QWidget*> widgets) {
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    for (QWidget* widget : widgets) {
        row->addWidget(widget);
    }
    row->addStretch();
    return row;
}

QDoubleSpinBox* decimalBox(double least, double most, int decimals, const QString& suffix,
                           const QString& name, QWidget* parent) {
    auto* box = new QDoubleSpinBox(parent);
    box->setRange(least, most);
    box->setDecimals(decimals);
    box->setSuffix(suffix);
    box->setAccessibleName(name);
    return box;
}

QSpinBox* wholeBox(int least, int most, int value, const QString& name, QWidget* parent) {
    auto* box = new QSpinBox(parent);
    box->setRange(least, most);
    box->setValue(value);
    box->setAccessibleName(name);
    return box;
}

} // namespace

MeasuresDialog::MeasuresDialog(Session& session, const thread::Ground& ground, QWidget* parent)
    : QDialog(parent), m_session(session), m_ground(ground) {
    setWindowTitle(tr("Measure your thread"));
    build();
    connectAll();
    showWidth();
}

void MeasuresDialog::build() {
    m_fibre = new QComboBox(this);
    m_fibre->setAccessibleName(tr("Fibre"));
    QStringList fibres{QStringLiteral("cotton"), QStringLiteral("silk"), QStringLiteral("linen"),
                       QStringLiteral("wool")};
    for (const thread::ShadeCard& card : *m_session.cards()) {
        for (const thread::Thread& thread : card.threads) {
            const QString fibre = thread.fibre.trimmed().toLower();
            if (!fibre.isEmpty() && !fibres.contains(fibre)) {
                fibres.push_back(fibre);
            }
        }
    }
    m_fibre->addItems(fibres);
    m_width = decimalBox(colourway::kLeastPlyWidthMm, colourway::kMostPlyWidthMm, 2, tr(" mm"),
                         tr("Width of one strand"), this);
    m_width->setSingleStep(0.01);
    m_sampleStrands = wholeBox(1, 100, 10, tr("Strands side by side"), this);
    m_sampleWidth = decimalBox(0, 100, 1, tr(" mm"), tr("Width of all of them"), this);
    m_widthNote = noteLabel({}, this);
    auto* takeSample = new QPushButton(tr("Take it"), this);
    takeSample->setAccessibleName(tr("Take the width from the sample"));

    m_waste = decimalBox(100 * colourway::kLeastWaste, 100 * colourway::kMostWaste, 0, tr(" %"),
                         tr("Share for tails and ways"), this);
    m_waste->setValue(100 * m_session.waste());
    m_stitches = wholeBox(0, 1'000'000, 0, tr("Stitches out of one skein"), this);
    m_strands = wholeBox(1, 12, 2, tr("Strands in the needle"), this);
    m_plies = wholeBox(1, thread::limits::kMostStrands, 6, tr("Plies of the skein"), this);
    m_length =
        decimalBox(0.1, thread::limits::kMostLengthM, 1, tr(" m"), tr("Length of the skein"), this);
    m_length->setValue(8);
    m_wasteNote = noteLabel({}, this);
    auto* takeSkein = new QPushButton(tr("Take it"), this);
    takeSkein->setAccessibleName(tr("Take the share from the skein"));

    const auto plain = [this](const QString& text) { return new QLabel(text, this); };
    auto* form = new QFormLayout;
    form->setVerticalSpacing(9);
    form->setHorizontalSpacing(14);
    form->addRow(headingLabel(tr("How wide one strand lies"), this));
    form->addRow(tr("Fibre"), together({m_fibre, m_width}));
    form->addRow(tr("From a sample"),
                 together({m_sampleStrands, plain(tr("strands side by side are")), m_sampleWidth,
                           plain(tr("wide")), takeSample}));
    form->addRow(m_widthNote);
    form->addRow(headingLabel(tr("How far a skein goes"), this));
    form->addRow(tr("For tails and ways"), together({m_waste}));
    form->addRow(tr("From a skein"), together({plain(tr("One of")), m_plies, plain(tr("plies and")),
                                               m_length, plain(tr("did")), m_stitches}));
    form->addRow(QString(),
                 together({plain(tr("full crosses with")), m_strands,
                           plain(tr("strands on %1, %2").arg(m_ground.name, countText(m_ground))),
                           takeSkein}));
    form->addRow(m_wasteNote);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(18, 18, 18, 14);
    column->addLayout(form);
    column->addStretch();
    column->addWidget(buttons);
    for (QPushButton* button : {takeSample, takeSkein}) {
        button->setAutoDefault(false);
    }
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::close);
    connect(takeSample, &QPushButton::clicked, this, &MeasuresDialog::takeSample);
    connect(takeSkein, &QPushButton::clicked, this, &MeasuresDialog::takeSkein);
}

void MeasuresDialog::connectAll() {
    connect(m_fibre, &QComboBox::activated, this, &MeasuresDialog::showWidth);
    connect(m_width, &QDoubleSpinBox::valueChanged, this, &MeasuresDialog::takeWidth);
    connect(m_waste, &QDoubleSpinBox::valueChanged, this,
            [this](double percent) { m_session.setWaste(percent / 100); });
}

thread::Thread MeasuresDialog::threadOfFibre() const {
    thread::Thread thread;
    thread.fibre = m_fibre->currentText();
    return thread;
}

void MeasuresDialog::showWidth() {
    const QSignalBlocker quiet(m_width);
    m_width->setValue(m_session.plyWidths().of(threadOfFibre()));
    const bool measured = m_session.plyWidths().measuredMm.contains(m_fibre->currentText());
    m_widthNote->setText(
        measured
            ? tr("Measured by you.")
            : tr("A usual width, from memory. Wind strands side by side round a ruler, without "
                 "gaps, and read how wide they lie."));
}

void MeasuresDialog::takeWidth(double mm) {
    colourway::PlyWidths widths = m_session.plyWidths();
    widths.measuredMm[m_fibre->currentText()] = mm;
    m_session.setPlyWidths(widths);
    showWidth();
}

void MeasuresDialog::takeSample() {
    const auto width =
        colourway::plyWidthFromSample(m_sampleStrands->value(), m_sampleWidth->value());
    if (width) {
        takeWidth(*width);
    } else {
        m_widthNote->setText(
            tr("That makes one strand thinner than %1 or wider than %2 mm: look at "
               "the sample again.")
                .arg(figure(colourway::kLeastPlyWidthMm, 2),
                     figure(colourway::kMostPlyWidthMm, 0)));
    }
}

void MeasuresDialog::takeSkein() {
    thread::Thread thread;
    thread.strands = m_plies->value();
    thread.lengthM = m_length->value();
    const auto waste =
        colourway::wasteFromSkein(m_stitches->value(), thread, m_ground, m_strands->value());
    if (waste) {
        m_waste->setValue(*waste * 100);
        m_wasteNote->setText(
            tr("Taken: that is %1 % on top of the bare geometry.").arg(qRound(*waste * 100)));
    } else {
        m_wasteNote->setText(tr("So many stitches do not come out of such a skein on this ground: "
                                "look at the numbers again."));
    }
}

} // namespace otherskein::app
