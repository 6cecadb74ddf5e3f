#include "app/ground/ground_desk.h"

#include "base/input_error.h"
#include "colour/conversion.h"
#include "colourway/saved_colourway.h"

#include <QTimer>

#include <algorithm>
#include <numeric>

namespace otherskein::app {

namespace {

const QString kGroundState = QStringLiteral("ground_state");
constexpr int kUsualNeedle = 2;

double leastOf(const GroundRow& row) {
    double least = 1e9;
    for (const colourway::Contrast& contrast : row.on) {
        least = std::min(least, contrast.de00);
    }
    return least;
}

} // namespace

colourway::Choice choiceOf(const QString& card, const thread::Thread& thread, int strands) {
    return {{{card, thread, strands}}, thread.lab};
}

GroundDesk::GroundDesk(Session& session, QObject* parent)
    : QObject(parent), m_session(session), m_document(session.document()),
      m_rememberSoon(new QTimer(this)) {
    m_rememberSoon->setSingleShot(true);
    connect(m_rememberSoon, &QTimer::timeout, this, &GroundDesk::rememberNow);
    m_remembered = m_document.store().setting(kGroundState);
    m_state = rememberedGround(m_remembered);
    for (const auto change : {&Session::chartChosen, &Session::cardsChanged,
                              &Session::groundChanged, &Session::measuresChanged}) {
        connect(&session, change, this, &GroundDesk::refresh);
    }
    connect(&m_document, &workbox::Document::chartChanged, this, &GroundDesk::refresh);
    connect(&m_document, &workbox::Document::colourwaysChanged, this, &GroundDesk::refresh);
}

GroundDesk::~GroundDesk() {
    try {
        rememberNow();
    } catch (const base::InputError&) {
        // The workbox has gone; what the sliders showed goes with it.
    }
}

void GroundDesk::setActive(bool active) {
    m_isActive = active;
    if (!active) {
        rememberNow();
    }
    if (active && m_isStale) {
        refresh();
    }
}

void GroundDesk::ask(const GroundState& state) {
    m_state = state;
    refresh();
}

void GroundDesk::refresh() {
    m_isStale = !m_isActive;
    if (m_isStale) {
        return;
    }
    takeSource();
    takeColumns();
    takeRows();
    judge();
    remember();
    Q_EMIT changed();
}

std::vector<const thread::ShadeCard*> GroundDesk::cards() {
    std::vector<const thread::ShadeCard*> result;
    for (const thread::ShadeCard& card : *m_session.cards()) {
        result.push_back(&card);
    }
    return result;
}

const thread::ThreadPool& GroundDesk::pool() {
    if (!m_pool || m_poolCards != m_session.cards()) {
        m_poolCards = m_session.cards();
        m_pool = colourway::poolOf(*m_poolCards, {});
    }
    return *m_pool;
}

thread::Ground GroundDesk::asAsked(thread::Ground ground) const {
    if (m_state.count) {
        ground.count = *m_state.count;
        ground.over = m_state.over;
    }
    return ground;
}

thread::Ground GroundDesk::chosenGround() const {
    return asAsked(m_session.ground());
}

colourway::Stitched GroundDesk::stitched() const {
    return {chosenGround(), m_state.strands, m_session.plyWidths()};
}

std::optional<std::size_t> GroundDesk::chosenColumn() const {
    const auto id = m_session.groundId();
    const auto found = std::ranges::find_if(
        m_columns, [&](const GroundColumn& column) { return id && column.id == *id; });
    return found == m_columns.end()
               ? std::nullopt
               : std::optional(static_cast<std::size_t>(found - m_columns.begin()));
}

/// The chart in use, in the colourway asked for.
void GroundDesk::takeSource() {
    const auto id = m_session.chartId();
    if (!id && m_state.of == ThreadsOf::Chart) {
        m_state.of = m_session.cards()->empty() ? ThreadsOf::Chart : ThreadsOf::Stash;
    }
    if (m_state.of == ThreadsOf::Card &&
        std::ranges::find(*m_session.cards(), m_state.card, &thread::ShadeCard::name) ==
            m_session.cards()->end()) {
        m_state.of = id ? ThreadsOf::Chart : ThreadsOf::Stash;
    }
    Source source;
    if (m_state.of == ThreadsOf::Chart && id) {
        try {
            source.chart = m_document.chart(*id);
        } catch (const base::InputError& error) {
            Q_EMIT refused(error.line());
        }
        source.cards = m_session.cards();
        const auto kept =
            m_state.colourway ? m_document.colourway(*m_state.colourway) : std::nullopt;
        if (kept && kept->chart == *id) {
            source.colourway = kept->content;
        } else {
            m_state.colourway.reset();
        }
    }
    if (source == m_source) {
        return;
    }
    m_source = source;
    m_subject.reset();
    m_motifSubject.reset();
    m_motifNow.clear();
    m_now.clear();
    m_recoloured = false;
    if (!source.chart) {
        return;
    }
    m_subject = colourway::subjectOf(*source.chart, colourway::By::Colour, {}, cards());
    m_now = m_subject->charted;
    if (!source.colourway.isEmpty()) {
        try {
            takeColourway(source);
        } catch (const base::InputError& error) {
            m_state.colourway.reset();
            Q_EMIT refused(error.line());
        }
    }
}

void GroundDesk::takeColourway(const Source& source) {
    const auto saved = colourway::fromJson(source.colourway, tr("A kept colourway"));
    if (saved.question.by == colourway::By::Colour) {
        m_now = colourway::restored(saved, *m_subject, cards()).colourway.now;
        m_recoloured = true;
        return;
    }
    // One by motifs is judged by the rows that its threads make.
    m_motifSubject = colourway::subjectOf(*source.chart, colourway::By::Motif,
                                          m_document.motifPlan(*m_session.chartId()), cards());
    const auto restored = colourway::restored(saved, *m_motifSubject, cards());
    m_motifNow = restored.colourway.now;
    m_subject = colourway::subjectOf(colourway::workedChart(*m_motifSubject, restored.colourway),
                                     colourway::By::Colour, {}, cards());
    m_now = m_subject->charted;
}

void GroundDesk::takeColumns() {
    m_columns.clear();
    m_others.clear();
    const auto chosen = m_session.groundId();
    for (const workbox::StoredGround& one : m_document.grounds()) {
        const GroundColumn column{one.id, asAsked(one.ground)};
        if (std::ranges::find(m_state.hidden, one.id) == m_state.hidden.end()) {
            m_columns.push_back(column);
        }
        if (chosen != one.id) {
            m_others.push_back(column);
        }
    }
}

void GroundDesk::addRow(const colourway::Choice& choice, int strands,
                        std::optional<std::size_t> part, int stitches) {
    GroundRow row{choice, strands, part, stitches, {}, {}};
    constexpr int kMostTried = 12;
    const colourway::Stitched here = stitched();
    for (const GroundColumn& column : m_columns) {
        colourway::Stitched there = here;
        there.ground = column.ground;
        const bool lines = part && stitches == 0;
        row.on.push_back(colourway::contrastOn(
            column.ground, choice.lab, lines ? 1 : colourway::coverageOf(choice, strands, there)));
        std::optional<int> enough;
        for (int tried = 1; tried <= kMostTried && !lines && !enough; ++tried) {
            if (colourway::coverageOf(choice, tried, there) >= colourway::kCovers) {
                enough = tried;
            }
        }
        row.toCover.push_back(enough);
    }
    m_rows.push_back(std::move(row));
}

void GroundDesk::takeRows() {
    m_rows.clear();
    if (m_subject) {
        const colourway::Stitched here = stitched();
        for (std::size_t i = 0; i < m_now.size(); ++i) {
            const colourway::Part& part = m_subject->parts.parts[i];
            addRow(m_now[i], colourway::strandsOf(m_subject->chart.key[part.key], here), i,
                   part.stitches);
        }
    } else if (m_state.of != ThreadsOf::Chart) {
        for (const thread::ShadeCard& card : *m_session.cards()) {
            if (m_state.of == ThreadsOf::Card && card.name != m_state.card) {
                continue;
            }
            for (const thread::Thread& thread : card.threads) {
                if (m_state.of == ThreadsOf::Card || thread.stash > 0) {
                    const int strands = m_state.strands.value_or(kUsualNeedle);
                    addRow(choiceOf(card.name, thread, strands), strands, std::nullopt, 0);
                }
            }
        }
    }
    if (!m_state.leastFirst) {
        return;
    }
    // On the ground in use where it is shown, else on whichever is worst.
    const auto column = chosenColumn();
    std::vector<std::pair<double, std::size_t>> order;
    for (std::size_t i = 0; i < m_rows.size(); ++i) {
        order.emplace_back(column ? m_rows[i].on[*column].de00 : leastOf(m_rows[i]), i);
    }
    std::ranges::sort(order);
    std::vector<GroundRow> sorted;
    sorted.reserve(m_rows.size());
    for (const auto& [least, i] : order) {
        sorted.push_back(std::move(m_rows[i]));
    }
    m_rows = std::move(sorted);
}

void GroundDesk::judge() {
    m_contrasts.clear();
    m_lost.clear();
    if (!m_subject) {
        return;
    }
    m_contrasts = colourway::contrastsOf(*m_subject, m_now, stitched());
    for (std::size_t i = 0; i < m_contrasts.size(); ++i) {
        if (colourway::isLost(m_subject->parts.parts[i], m_contrasts[i])) {
            m_lost.push_back(i);
        }
    }
    std::ranges::sort(m_lost, {}, [this](std::size_t i) { return m_contrasts[i].de00; });
}

colourway::WaysOut GroundDesk::waysOut(std::size_t part) {
    std::vector<thread::Ground> grounds;
    for (const GroundColumn& one : m_others) {
        grounds.push_back(one.ground);
    }
    return colourway::waysOut(*m_subject, m_now, part, stitched(), grounds, {}, pool());
}

/// A slider must not wait for the disk, so the state is written when the hand rests.
void GroundDesk::remember() {
    if (rememberedText(m_state) != m_remembered) {
        constexpr int kRest = 400;
        m_rememberSoon->start(kRest);
    }
}

void GroundDesk::rememberNow() {
    m_rememberSoon->stop();
    const QString text = rememberedText(m_state);
    if (text != m_remembered) {
        m_remembered = text;
        m_document.store().setSetting(kGroundState, text);
    }
}

} // namespace otherskein::app
