#include "app/recolour/recolour_place.h"

#include "app/frame/chip.h"
#include "app/recolour/alternatives_model.h"
#include "app/recolour/alternatives_wall.h"
#include "app/recolour/before_after_canvas.h"
#include "app/recolour/colourway_bar.h"
#include "app/recolour/colourway_side.h"
#include "app/recolour/more_options.h"
#include "app/recolour/recolour_empty.h"
#include "app/recolour/recolour_header.h"
#include "app/recolour/theme_bar.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QSplitter>
#include <QStackedWidget>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr std::size_t kCards = 8;

} // namespace

RecolourPlace::RecolourPlace(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_desk(new RecolourDesk(session, this)),
      m_worker(new RecolourWorker(this)), m_model(new AlternativesModel(this)),
      m_pages(new QStackedWidget(this)), m_empty(new RecolourEmpty(m_pages)) {
    setAcceptDrops(true);
    m_askSoon = new QTimer(this);
    m_askSoon->setSingleShot(true);
    connect(m_askSoon, &QTimer::timeout, this, &RecolourPlace::askWorker);
    build();
    connectDesk();
    connectWall();
    connectSide();
    connectCanvas();
    makeShortcuts();
    showDesk();
}

RecolourPlace::~RecolourPlace() = default;

void RecolourPlace::build() {
    auto* all = new QWidget(m_pages);
    m_header = new RecolourHeader(all);
    m_split = new QSplitter(Qt::Vertical, all);
    m_canvas = new BeforeAfterCanvas(m_split);
    auto* below = new QWidget(m_split);
    m_theme = new ThemeBar(below);
    m_wall = new AlternativesWall(*m_model, below);
    m_wall->setExpected(static_cast<int>(kCards));
    m_side = new ColourwaySide(m_session, all);

    auto* alternatives = new QVBoxLayout(below);
    alternatives->setContentsMargins(0, 0, 0, 0);
    alternatives->setSpacing(0);
    alternatives->addWidget(m_theme);
    alternatives->addWidget(m_wall, 1);
    constexpr int kHandle = 5;
    m_split->setHandleWidth(kHandle);
    m_split->setChildrenCollapsible(false);
    m_split->setSizes({300, 420});
    m_split->setStretchFactor(0, 1);
    m_split->setStretchFactor(1, 1);

    auto* centre = new QVBoxLayout;
    centre->setSpacing(0);
    centre->addWidget(m_header);
    centre->addWidget(m_split, 1);
    auto* across = new QHBoxLayout(all);
    across->setContentsMargins(0, 0, 0, 0);
    across->setSpacing(0);
    across->addLayout(centre, 1);
    across->addWidget(m_side);
    m_pages->addWidget(m_empty);
    m_pages->addWidget(all);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(m_pages);
    setFocusProxy(m_wall);
}

void RecolourPlace::resizeEvent(QResizeEvent* event) {
    constexpr int kRoom = 1040;
    constexpr int kWide = 332;
    constexpr int kNarrow = 272;
    m_side->setFixedWidth(width() >= kRoom ? kWide : kNarrow);
    QWidget::resizeEvent(event);
}

void RecolourPlace::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_desk->setActive(true);
    if (m_desk->subject()) {
        askWall();
    }
}

void RecolourPlace::hideEvent(QHideEvent* event) {
    m_desk->setActive(false);
    if (isBusy()) {
        m_asked.reset(); // what was not found is looked for when the place is shown again
    }
    m_askSoon->stop();
    m_worker->stop();
    QWidget::hideEvent(event);
}

/// Everything that the desk knows, shown anew.
void RecolourPlace::showDesk() {
    const RecolourState& state = m_desk->state();
    const auto& subject = m_desk->subject();
    const QWidget* before = m_pages->currentWidget();
    m_pages->setCurrentIndex(subject ? 1 : 0);
    setFocusProxy(subject ? static_cast<QWidget*>(m_wall) : m_empty);
    if (!subject) {
        m_worker->stop();
        m_model->clear();
        m_asked.reset();
        return;
    }
    if (m_pages->currentWidget() != before && isVisible() && m_empty->isAncestorOf(focusWidget())) {
        m_wall->setFocus();
    }
    const workbox::Document& document = m_session.document();
    m_header->showCharts(document.charts());
    m_header->show(state, document.motifPlan(*state.chart).step, subject->parts.parts.size());
    m_theme->show(state);
    showCards();
    m_side->bar().show(document.colourways(*state.chart), state.colourway);
    const thread::Ground ground = m_session.ground();
    m_canvas->setSubject(subject, ground, m_desk->question().strands);
    m_canvas->setDivider(state.divider);
    m_wall->setGround(toQColor(ground.shown));
    const chart::Grid& grid = subject->chart.grid;
    m_wall->setAspect(static_cast<double>(grid.columns()) / std::max(1, grid.rows()));
    showColourway();
    askWall();
}

void RecolourPlace::showColourway() {
    const auto& shown = m_desk->shown();
    m_canvas->setColourway(shown);
    m_canvas->setAfterLabel(m_desk->isKept() ? tr("Recoloured") : tr("Recoloured, a suggestion"));
    if (shown) {
        m_side->show(m_desk->state(), *m_desk->subject(), *shown, m_desk->locks());
    } else {
        m_side->showNothing();
    }
    m_model->setTaken(m_desk->isKept() ? shown->now : std::vector<colourway::Choice>());
}

void RecolourPlace::showCards() {
    std::vector<std::pair<QString, std::size_t>> cards;
    for (const thread::ShadeCard& card : *m_session.cards()) {
        cards.emplace_back(card.name, card.threads.size());
    }
    m_theme->more().showCards(cards);
}

QString RecolourPlace::whyNoWall() const {
    const RecolourState& state = m_desk->state();
    const bool onlyStash = m_desk->question().filter.onlyStash;
    const auto& cards = *m_session.cards();
    const auto counts = [&](const thread::ShadeCard& card) {
        return !state.cardsLeftOut.contains(card.name) &&
               std::ranges::any_of(card.threads, [&](const thread::Thread& thread) {
                   return !onlyStash || thread.stash > 0;
               });
    };
    if (std::ranges::all_of(cards, [](const auto& card) { return card.threads.empty(); })) {
        return tr("There are no threads yet: import a shade card in Threads, and alternatives "
                  "appear here.");
    }
    if (std::ranges::none_of(cards, counts)) {
        return onlyStash ? tr("None of these threads is yours yet. Enter what you own in Threads, "
                              "or look among all threads: \"Surprise me\".")
                         : tr("No shade card is looked among: tick one under \"More…\".");
    }
    if (state.job != RecolourJob::Convert && sourceInForce(state) == ColourSource::Picture &&
        state.pictureColours.empty()) {
        return tr("Open a picture, or drop one here: the alternatives take their colours from it.");
    }
    return {};
}

bool RecolourPlace::isBusy() const {
    return m_worker->isBusy() || m_askSoon->isActive();
}

void RecolourPlace::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && isBusy()) {
        m_askSoon->stop();
        m_worker->stop();
        return;
    }
    QWidget::keyPressEvent(event);
}

/// Of a card's picture, device pixels: larger than any card, which scales it down, so that the wall
/// need not be worked out anew when it is resized.
QSize RecolourPlace::pictureSize(const chart::Grid& grid, double pixelRatio) {
    constexpr QSizeF kRoom(400, 240);
    const QSizeF size = QSizeF(grid.columns() + 8, grid.rows() + 8);
    return (size.scaled(kRoom, Qt::KeepAspectRatio) * pixelRatio).toSize().expandedTo({24, 24});
}

void RecolourPlace::askWall() {
    if (isVisible()) {
        m_askSoon->start(0);
    }
}

/// Asks unless it has been asked just this.
void RecolourPlace::askWorker() {
    if (!m_desk->subject()) {
        return;
    }
    const QString why = whyNoWall();
    m_wall->setEmptyText(why);
    if (!why.isEmpty()) {
        m_worker->stop();
        m_model->clear();
        m_asked.reset();
        showProgress(std::nullopt);
        return;
    }
    WallQuestion question;
    question.subject = m_desk->subject();
    question.question = m_desk->question();
    question.cards = m_session.cards();
    question.cardsLeftOut = m_desk->state().cardsLeftOut;
    question.count = kCards;
    question.picture = pictureSize(question.subject->chart.grid, devicePixelRatioF());
    if (m_desk->isKept()) {
        question.first = m_desk->shown();
    }
    if (m_asked && !m_liked && question.asksTheSame(*m_asked)) {
        return;
    }
    m_asked = question;
    if (m_liked) {
        question.first = std::exchange(m_liked, std::nullopt);
        question.likeFirst = true;
    }
    m_model->expect();
    m_worker->ask(question);
    showProgress(0);
}

void RecolourPlace::showProgress(std::optional<double> done) {
    m_theme->showProgress(done);
}

} // namespace otherskein::app
