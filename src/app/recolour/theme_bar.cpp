#include "app/recolour/theme_bar.h"

#include "app/frame/look.h"
#include "app/frame/segmented.h"
#include "app/recolour/hue_strip.h"
#include "app/recolour/more_options.h"
#include "app/recolour/picture_colours.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

QString nameOf(ColourSource source) {
    switch (source) {
    case ColourSource::MyThreads:
        return ThemeBar::tr("My threads");
    case ColourSource::OneHue:
        return ThemeBar::tr("One hue");
    case ColourSource::Picture:
        return ThemeBar::tr("A picture…");
    case ColourSource::Surprise:
        break;
    }
    return ThemeBar::tr("Surprise me");
}

Segmented* sourceButtons(RecolourJob job, QWidget* parent) {
    QStringList names;
    for (const ColourSource source : sourcesOf(job)) {
        names.push_back(nameOf(source));
    }
    return new Segmented(ThemeBar::tr("Where the colours come from"), names, parent);
}

QPushButton* plainButton(const QString& text, const QString& toolTip, QWidget* parent) {
    auto* button = new QPushButton(text, parent);
    button->setToolTip(toolTip);
    button->setAutoDefault(false);
    return button;
}

void showSource(Segmented* buttons, RecolourJob job, ColourSource source) {
    const std::vector<ColourSource> sources = sourcesOf(job);
    const auto found = std::ranges::find(sources, source);
    if (found != sources.end()) {
        buttons->setCurrent(static_cast<int>(found - sources.begin()));
    }
}

} // namespace

template <typename Change>
void ThemeBar::askWith(Change change) {
    RecolourState next = m_state;
    change(next);
    if (!(next == m_state)) {
        Q_EMIT asked(next);
    }
}

ThemeBar::ThemeBar(QWidget* parent)
    : Panel(PanelEdge::Below, parent), m_title(new QLabel(tr("Alternatives"), this)),
      m_ofMotifs(sourceButtons(RecolourJob::Motifs, this)),
      m_ofFamily(sourceButtons(RecolourJob::Family, this)),
      m_stop(plainButton(tr("Stop"), tr("Stops looking; what is found stays (Esc)"), this)),
      m_like(plainButton(tr("More like it"), tr("Others close to the chosen card (M)"), this)),
      m_new(plainButton(tr("New ideas"), tr("Another wall; locked threads stay (R)"), this)),
      m_open(
          plainButton(tr("More…"), tr("How many colours, how far apart, from which cards"), this)),
      m_hueRow(new QWidget(this)), m_hue(new HueStrip(m_hueRow)), m_hueName(new QLabel(m_hueRow)),
      m_neutrals(new QCheckBox(tr("Neutrals too"), m_hueRow)), m_pictureRow(new QWidget(this)),
      m_picture(new PictureColours(m_pictureRow)), m_pictureName(noteLabel({}, m_pictureRow)),
      m_more(new MoreOptions(this)), m_progress(new ProgressLine(this)) {
    constexpr int kLeastWidth = 300; // what does not fit is left out, see resizeEvent
    setMinimumWidth(kLeastWidth);
    column()->setContentsMargins(14, 8, 14, 8);
    column()->setSpacing(4);
    m_title->setFont(scaledFont(1.1, 600));
    m_open->setCheckable(true);
    m_open->setAccessibleName(tr("More switches"));
    m_neutrals->setToolTip(tr("Greys, black and white of the chart take a tint of the hue"));
    auto keep = m_stop->sizePolicy();
    keep.setRetainSizeWhenHidden(true);
    m_stop->setSizePolicy(keep);
    m_stop->hide();
    buildRows();
    connectAll();
}

void ThemeBar::buildRows() {
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    row->addWidget(m_title);
    row->addSpacing(4);
    row->addWidget(m_ofMotifs);
    row->addWidget(m_ofFamily);
    row->addStretch();
    row->addWidget(m_stop);
    row->addWidget(m_like);
    row->addWidget(m_new);
    row->addWidget(m_open);
    column()->addLayout(row);

    auto* hue = new QHBoxLayout(m_hueRow);
    hue->setContentsMargins(0, 4, 0, 0);
    hue->setSpacing(12);
    hue->addWidget(m_hue, 1);
    m_hueName->setMinimumWidth(76);
    hue->addWidget(m_hueName);
    hue->addWidget(m_neutrals);
    column()->addWidget(m_hueRow);

    auto* picture = new QHBoxLayout(m_pictureRow);
    picture->setContentsMargins(0, 4, 0, 0);
    picture->setSpacing(12);
    auto* other = plainButton(tr("Open a picture…"), {}, m_pictureRow);
    connect(other, &QPushButton::clicked, this, &ThemeBar::pictureAsked);
    picture->addWidget(m_picture, 1);
    picture->addWidget(m_pictureName);
    picture->addWidget(other);
    column()->addWidget(m_pictureRow);
    column()->addWidget(m_more);
}

void ThemeBar::connectAll() {
    for (const auto& [buttons, job] :
         {std::pair(m_ofMotifs, RecolourJob::Motifs), std::pair(m_ofFamily, RecolourJob::Family)}) {
        connect(buttons, &Segmented::chosen, this, [this, job = job](int index) {
            chooseSource(sourcesOf(job)[static_cast<std::size_t>(index)]);
        });
    }
    connect(m_hue, &HueStrip::hueChosen, this,
            [this](double hue) { askWith([&](RecolourState& state) { state.hue = hue; }); });
    connect(m_neutrals, &QCheckBox::toggled, this,
            [this](bool on) { askWith([&](RecolourState& state) { state.neutralsToo = on; }); });
    connect(m_open, &QPushButton::toggled, this,
            [this](bool on) { askWith([&](RecolourState& state) { state.more = on; }); });
    connect(m_more, &MoreOptions::asked, this, &ThemeBar::asked);
    connect(m_new, &QPushButton::clicked, this, &ThemeBar::newIdeasAsked);
    connect(m_like, &QPushButton::clicked, this, &ThemeBar::moreLikeAsked);
    connect(m_stop, &QPushButton::clicked, this, &ThemeBar::stopAsked);
}

void ThemeBar::chooseSource(ColourSource source) {
    askWith([&](RecolourState& state) { state.source = source; });
    if (source == ColourSource::Picture && m_state.pictureColours.empty()) {
        Q_EMIT pictureAsked();
    }
}

void ThemeBar::show(const RecolourState& state) {
    m_state = state;
    const ColourSource source = sourceInForce(state);
    m_ofMotifs->setVisible(state.job == RecolourJob::Motifs);
    m_ofFamily->setVisible(state.job == RecolourJob::Family);
    showSource(m_ofMotifs, RecolourJob::Motifs, source);
    showSource(m_ofFamily, RecolourJob::Family, source);
    const bool hasSource = state.job != RecolourJob::Convert;
    m_hueRow->setVisible(hasSource && source == ColourSource::OneHue);
    m_pictureRow->setVisible(hasSource && source == ColourSource::Picture);
    m_hue->setHue(state.hue);
    m_hueName->setText(hueName(state.hue));
    m_picture->show(state.pictureColours);
    m_pictureName->setText(state.pictureColours.empty()
                               ? tr("No picture yet: open one, or drop it here.")
                               : state.pictureName);
    m_neutrals->setVisible(state.job == RecolourJob::Family);
    m_new->setVisible(hasNewIdeas(state));
    const QSignalBlocker a(m_neutrals);
    const QSignalBlocker b(m_open);
    m_neutrals->setChecked(state.neutralsToo);
    m_open->setChecked(state.more);
    m_open->setText(state.more ? tr("Fewer") : tr("More…"));
    m_more->setVisible(state.more);
    m_more->show(state);
}

void ThemeBar::showProgress(std::optional<double> done) {
    m_stop->setVisible(done.has_value());
    m_progress->show(done);
}

void ThemeBar::setCanLike(bool can) {
    m_like->setEnabled(can);
}

void ThemeBar::resizeEvent(QResizeEvent* event) {
    Panel::resizeEvent(event);
    constexpr int kRoomForTitle = 820;
    constexpr int kRoomForLike = 690;
    m_title->setVisible(width() >= kRoomForTitle);
    m_like->setVisible(width() >= kRoomForLike);
    m_progress->setGeometry(0, height() - ProgressLine::kHeight, width(), ProgressLine::kHeight);
}

} // namespace otherskein::app
