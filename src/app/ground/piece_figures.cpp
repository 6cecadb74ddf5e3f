#include "app/ground/piece_figures.h"

#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/frame/segmented.h"
#include "app/ground/ground_words.h"
#include "app/ground/shopping_list.h"
#include "colourway/fabric_fit.h"

#include <QDoubleSpinBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include <cmath>

namespace otherskein::app {

namespace {

/// "too small by 2.1 in", in the larger of the two lacks.
QString lackText(const colourway::FitAnswer& answer, bool inches) {
    const double lack = std::max(answer.lacksWidthMm, answer.lacksHeightMm);
    // Rounded up: a lack of nothing would read like an error.
    const double unit = inches ? 25.4 : 10;
    const double shown = std::ceil(lack / unit * 10 - 1e-9) / 10;
    return (inches ? PieceFigures::tr("no, %1 in short") : PieceFigures::tr("no, %1 cm short"))
        .arg(figure(shown));
}

QString fitText(const colourway::FitAnswer& answer, bool inches) {
    switch (answer.fit) {
    case colourway::Fit::Fits:
        return PieceFigures::tr("yes");
    case colourway::Fit::FitsTurned:
        return PieceFigures::tr("yes, turned");
    case colourway::Fit::TooSmall:
        break;
    }
    return lackText(answer, inches);
}

} // namespace

PieceFigures::PieceFigures(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_heading(headingLabel({}, this)),
      m_margin(new QDoubleSpinBox(this)),
      m_unit(new Segmented(tr("Unit"), {tr("in"), tr("cm")}, this)),
      m_list(new QPushButton(tr("Shopping list…"), this)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    auto* head = new QHBoxLayout;
    head->addWidget(m_heading, 1);
    head->addWidget(m_unit);
    column->addLayout(head);
    m_stitched = addFigure(tr("Stitched"));
    m_margin->setRange(0, 50);
    m_margin->setDecimals(1);
    m_margin->setSingleStep(0.5);
    m_margin->setAccessibleName(tr("Margin on every side"));
    auto* margin = new QHBoxLayout;
    margin->addWidget(new QLabel(tr("Margin on every side"), this), 1);
    margin->addWidget(m_margin);
    column->addLayout(margin);
    m_needed = addFigure(tr("With margin"));
    column->addWidget(headingLabel(tr("Large enough?"), this));
    m_fits = new QLabel(this);
    m_fits->setTextFormat(Qt::RichText);
    column->addWidget(m_fits);
    m_skeins = addFigure(tr("Skeins to buy"));
    m_list->setAutoDefault(false);
    column->addWidget(m_list);
    connect(m_margin, &QDoubleSpinBox::valueChanged, this, [this](double value) {
        GroundState next = m_state;
        next.marginMm = value * (m_state.inches ? 25.4 : 10);
        Q_EMIT asked(next);
    });
    connect(m_unit, &Segmented::chosen, this, [this](int index) {
        GroundState next = m_state;
        next.inches = index == 0;
        // The usual margins are round numbers in either unit: 3 in, 7.5 cm.
        if (std::abs(next.marginMm - colourway::kUsualMarginMm) < 0.1 && !next.inches) {
            next.marginMm = 75;
        } else if (std::abs(next.marginMm - 75) < 0.1 && next.inches) {
            next.marginMm = colourway::kUsualMarginMm;
        }
        Q_EMIT asked(next);
    });
    connect(m_list, &QPushButton::clicked, this, [this] { m_openList(); });
}

QLabel* PieceFigures::addFigure(const QString& text) {
    auto* row = new QHBoxLayout;
    row->addWidget(new QLabel(text, this), 1);
    auto* value = new QLabel(this);
    value->setFont(scaledFont(1.0, 600));
    row->addWidget(value);
    static_cast<QVBoxLayout*>(layout())->addLayout(row);
    return value;
}

void PieceFigures::show(const GroundDesk& desk) {
    m_state = desk.state();
    setVisible(desk.subject() != nullptr);
    if (!desk.subject()) {
        return;
    }
    const thread::Ground ground = desk.chosenGround();
    const chart::Grid& grid = desk.subject()->chart.grid;
    const bool inches = m_state.inches;
    m_heading->setText(tr("Chart on %1").arg(ground.name));
    m_unit->setCurrent(inches ? 0 : 1);
    const auto stitched = colourway::stitchedExtent(grid.columns(), grid.rows(), ground);
    const auto needed = colourway::withMargin(stitched, m_state.marginMm);
    m_stitched->setText(sizeText(stitched.widthMm, stitched.heightMm, inches));
    m_stitched->setToolTip(tr("%1 × %2 stitches, %3")
                               .arg(grid.columns())
                               .arg(grid.rows())
                               .arg(sizeText(stitched.widthMm, stitched.heightMm, !inches)));
    m_needed->setText(sizeText(needed.widthMm, needed.heightMm, inches));
    m_needed->setToolTip(sizeText(needed.widthMm, needed.heightMm, !inches));
    {
        const QSignalBlocker quiet(m_margin);
        m_margin->setSuffix(inches ? tr(" in") : tr(" cm"));
        m_margin->setValue(m_state.marginMm / (inches ? 25.4 : 10));
    }
    showPieces(desk);
    showSkeins(desk);
}

/// The piece of the ground in use first, then the user's others, each at its own count; a usual cut
/// at last.
void PieceFigures::showPieces(const GroundDesk& desk) {
    const chart::Grid& grid = desk.subject()->chart.grid;
    const thread::Ground ground = desk.chosenGround();
    const bool inches = m_state.inches;
    QStringList lines;
    const auto add = [&](const QString& what, const thread::Ground& cloth,
                         const colourway::Extent& piece) {
        const auto needed = colourway::withMargin(
            colourway::stitchedExtent(grid.columns(), grid.rows(), cloth), m_state.marginMm);
        lines.push_back(QStringLiteral("<tr><td width='100%'>%1</td><td align='right' "
                                       "style='white-space:nowrap'><b>%2</b></td></tr>")
                            .arg(what.toHtmlEscaped(),
                                 fitText(colourway::fitOf(needed, piece), inches).toHtmlEscaped()));
    };
    const auto isKnown = [](const thread::Ground& one) {
        return one.widthMm > 0 && one.heightMm > 0;
    };
    if (isKnown(ground)) {
        add(tr("This piece, %1").arg(sizeText(ground.widthMm, ground.heightMm, inches)), ground,
            {ground.widthMm, ground.heightMm});
    }
    add(tr("Fat quarter, %1")
            .arg(sizeText(colourway::kFatQuarter.widthMm, colourway::kFatQuarter.heightMm, inches)),
        ground, colourway::kFatQuarter);
    constexpr qsizetype kMostPieces = 6;
    for (const GroundColumn& other : desk.otherGrounds()) {
        if (isKnown(other.ground) && lines.size() < kMostPieces) {
            add(other.ground.name, other.ground, {other.ground.widthMm, other.ground.heightMm});
        }
    }
    m_fits->setText(QStringLiteral("<table width='100%' cellspacing='0' cellpadding='1'>%1</table>")
                        .arg(lines.join(QString())));
    const colourway::Extent piece = isKnown(ground)
                                        ? colourway::Extent{ground.widthMm, ground.heightMm}
                                        : colourway::kFatQuarter;
    const auto fits = colourway::coarsestThatFits(grid.columns(), grid.rows(), ground.over,
                                                  m_state.marginMm, piece);
    m_fits->setToolTip(fits ? tr("It fits the first of these on any count from %1 over %2 on.")
                                  .arg(*fits)
                                  .arg(ground.over)
                            : tr("It fits the first of these on no count."));
}

void PieceFigures::showSkeins(const GroundDesk& desk) {
    colourway::Usage usage;
    usage.waste = m_session.waste();
    std::vector<const thread::ShadeCard*> cards;
    for (const thread::ShadeCard& card : *m_session.cards()) {
        cards.push_back(&card);
    }
    const auto quantities =
        colourway::quantitiesOf(*desk.subject(), desk.now(), desk.stitched(), usage, cards);
    m_skeins->setText(QString::number(quantities.toBuy));
    m_openList = [this, quantities, usage, title = desk.subject()->chart.name] {
        ShoppingList(title, quantities, usage, this).exec();
    };
}

} // namespace otherskein::app
