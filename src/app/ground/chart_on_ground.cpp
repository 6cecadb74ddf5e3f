#include "app/ground/chart_on_ground.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/frame/segmented.h"
#include "app/ground/ground_words.h"
#include "app/recolour/before_after_canvas.h"
#include "app/recolour/part_words.h"
#include "colour/conversion.h"
#include "colourway/merging.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QPainter>
#include <QSlider>
#include <QVBoxLayout>

namespace otherskein::app {

namespace {

using Kind = colour::Sight::Kind;

constexpr int kMergingWidth = 232;

/// Both colours as they are above, as seen below; each pair touching.
QIcon pairIcon(const colour::Lab& one, const colour::Lab& other, const colour::Sight& sight) {
    QPixmap pixmap(36, 28);
    QPainter painter(&pixmap);
    const auto half = [&](int x, const colour::Lab& lab) {
        painter.fillRect(x, 0, 18, 14, toQColor(colour::srgbFromLab(lab)));
        painter.fillRect(x, 14, 18, 14, toQColor(colour::srgbFromLab(colour::seen(lab, sight))));
    };
    half(0, one);
    half(18, other);
    return {pixmap};
}

} // namespace

ChartOnGround::ChartOnGround(QWidget* parent)
    : QWidget(parent),
      m_sight(new Segmented(tr("How to look"), {tr("As it is"), tr("Values"), tr("Colour vision")},
                            this)),
      m_kind(new QComboBox(this)), m_severity(new QSlider(Qt::Horizontal, this)),
      m_severityText(new QLabel(this)), m_canvas(new BeforeAfterCanvas(this)),
      m_side(new QWidget(this)), m_count(headingLabel({}, m_side)), m_list(new QListWidget(m_side)),
      m_note(noteLabel({}, m_side)) {
    build();
    connectAll();
}

void ChartOnGround::build() {
    auto* bar = new Panel(PanelEdge::Below, this);
    bar->column()->setContentsMargins(14, 8, 14, 8);
    auto* row = new QHBoxLayout;
    row->setSpacing(10);
    m_kind->addItem(tr("Red-weak (protan)"), int(Kind::Protan));
    m_kind->addItem(tr("Green-weak (deutan)"), int(Kind::Deutan));
    m_kind->addItem(tr("Blue-weak (tritan)"), int(Kind::Tritan));
    m_kind->setAccessibleName(tr("Which colour vision"));
    m_severity->setRange(0, 10);
    m_severity->setPageStep(1);
    m_severity->setMinimumWidth(90);
    m_severity->setMaximumWidth(140);
    m_severity->setAccessibleName(tr("Severity"));
    m_severityText->setMinimumWidth(44);
    row->addWidget(m_sight);
    row->addWidget(m_kind);
    row->addWidget(m_severity);
    row->addWidget(m_severityText);
    row->addStretch();
    bar->column()->addLayout(row);

    m_side->setFixedWidth(kMergingWidth);
    auto* side = new QVBoxLayout(m_side);
    side->setContentsMargins(14, 10, 10, 10);
    side->setSpacing(8);
    m_count->setWordWrap(true);
    m_list->setAccessibleName(tr("Touching parts that merge"));
    m_list->setIconSize({36, 28});
    m_list->setWordWrap(true);
    m_list->setSpacing(2);
    side->addWidget(m_count);
    side->addWidget(m_list, 1);
    side->addWidget(m_note);

    auto* across = new QHBoxLayout;
    across->setSpacing(0);
    across->addWidget(m_canvas, 1);
    across->addWidget(m_side);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(bar);
    column->addLayout(across, 1);
    setFocusProxy(m_canvas);
}

void ChartOnGround::connectAll() {
    const auto eyes = [this] {
        return colour::Sight{static_cast<Kind>(m_kind->currentData().toInt()),
                             m_severity->value() / 10.0};
    };
    connect(m_sight, &Segmented::chosen, this, [this, eyes](int index) {
        ask(index == 0   ? colour::Sight{Kind::Full, m_state.sight.severity}
            : index == 1 ? colour::Sight{Kind::Values, m_state.sight.severity}
                         : eyes());
    });
    connect(m_kind, &QComboBox::activated, this, [this, eyes] { ask(eyes()); });
    connect(m_severity, &QSlider::valueChanged, this, [this, eyes] { ask(eyes()); });
    connect(m_canvas, &BeforeAfterCanvas::partChosen, this, &ChartOnGround::partChosen);
    connect(m_canvas, &BeforeAfterCanvas::dividerMoved, this, &ChartOnGround::dividerMoved);
    connect(m_list, &QListWidget::currentItemChanged, this, [this](QListWidgetItem* item) {
        if (item != nullptr) {
            m_canvas->setChosen(static_cast<std::size_t>(item->data(Qt::UserRole).toULongLong()));
        }
    });
}

void ChartOnGround::ask(const colour::Sight& sight) {
    GroundState next = m_state;
    next.sight = sight;
    Q_EMIT asked(next);
}

void ChartOnGround::show(const GroundDesk& desk) {
    m_state = desk.state();
    if (!desk.subject()) {
        return;
    }
    const colour::Sight& sight = m_state.sight;
    const bool vision = sight.kind != Kind::Full && sight.kind != Kind::Values;
    m_sight->setCurrent(sight.kind == Kind::Full ? 0 : sight.kind == Kind::Values ? 1 : 2);
    m_kind->setVisible(vision);
    m_severity->setVisible(vision);
    m_severityText->setVisible(vision);
    if (vision) {
        m_kind->setCurrentIndex(m_kind->findData(int(sight.kind)));
        const QSignalBlocker quiet(m_severity);
        m_severity->setValue(qRound(sight.severity * 10));
    }
    m_severityText->setText(tr("%1 %").arg(qRound(sight.severity * 100)));

    m_canvas->setStitched(desk.subject(), desk.stitched());
    m_canvas->setSight(sight);
    m_canvas->setDivider(m_state.divider);
    if (desk.isRecoloured()) {
        colourway::Colourway now;
        now.now = desk.now();
        m_canvas->setColourway(now);
        m_canvas->setAfterLabel(tr("Recoloured"));
    } else {
        m_canvas->setColourway(std::nullopt);
    }
    showMerging(desk);
}

void ChartOnGround::showMerging(const GroundDesk& desk) {
    const colour::Sight& sight = m_state.sight;
    m_side->setVisible(sight.kind != Kind::Full);
    const QSignalBlocker quiet(m_list);
    m_list->clear();
    if (sight.kind == Kind::Full) {
        return;
    }
    std::vector<colour::Lab> colours;
    for (const colourway::Contrast& contrast : desk.contrasts()) {
        colours.push_back(contrast.apparent);
    }
    const auto merging = colourway::mergingPairs(colours, desk.subject()->parts.neighbours, sight);
    const bool values = sight.kind == Kind::Values;
    for (const colourway::Merging& pair : merging) {
        const auto code = [&](std::size_t part) { return codeText(desk.now()[part]); };
        auto* item = new QListWidgetItem(pairIcon(colours[pair.one], colours[pair.other], sight),
                                         tr("%1 and %2\n%3 %4, was ΔE %5")
                                             .arg(code(pair.one), code(pair.other),
                                                  values ? tr("ΔL*") : tr("ΔE"), figure(pair.after),
                                                  figure(pair.before)),
                                         m_list);
        item->setData(Qt::UserRole, qulonglong(pair.one));
    }
    const auto count = merging.size();
    m_count->setText(count == 0   ? tr("No touching parts merge")
                     : count == 1 ? tr("1 touching pair merges")
                                  : tr("%1 touching pairs merge").arg(count));
    m_note->setText(
        values
            ? tr("Pairs that touch, differ by ΔE %1 or more and by less than %2 in lightness. "
                 "What values do not part, colour alone must.")
                  .arg(colourway::kToldApartFrom)
                  .arg(colourway::kMergesBelow)
            : tr("Pairs that touch, differ by ΔE %1 or more and by less than %2 to these eyes. A "
                 "model of colour vision: no two people see alike.")
                  .arg(colourway::kToldApartFrom)
                  .arg(colourway::kMergesBelow));
}

void ChartOnGround::choosePart(std::optional<std::size_t> part) {
    m_canvas->setChosen(part);
}

} // namespace otherskein::app
