#include "app/recolour/recolour_desk.h"

#include "base/input_error.h"

#include <algorithm>

namespace otherskein::app {

namespace {

const QString kSetting = QStringLiteral("recolour");

/// Whether there are enough owned threads to begin with them.
bool hasStash(const std::vector<thread::ShadeCard>& cards) {
    constexpr std::ptrdiff_t kEnough = 8;
    std::ptrdiff_t owned = 0;
    for (const thread::ShadeCard& card : cards) {
        owned += std::ranges::count_if(
            card.threads, [](const thread::Thread& thread) { return thread.stash > 0; });
    }
    return owned >= kEnough;
}

} // namespace

RecolourDesk::RecolourDesk(Session& session, QObject* parent)
    : QObject(parent), m_session(session), m_document(session.document()) {
    m_remembered = m_document.store().setting(kSetting);
    m_state = rememberedState(m_remembered, m_state);
    for (const auto change :
         {&Session::chartChosen, &Session::cardsChanged, &Session::groundChanged}) {
        connect(&session, change, this, &RecolourDesk::refresh);
    }
    connect(&m_document, &workbox::Document::chartsChanged, this, &RecolourDesk::refresh);
    connect(&m_document, &workbox::Document::chartChanged, this, &RecolourDesk::refresh);
    connect(&m_document, &workbox::Document::motifPlanChanged, this, &RecolourDesk::refresh);
    connect(&m_document, &workbox::Document::colourwaysChanged, this, &RecolourDesk::refresh);
}

void RecolourDesk::setActive(bool active) {
    m_isActive = active;
    if (active && m_isStale) {
        refresh();
    }
}

std::vector<const thread::ShadeCard*> RecolourDesk::cards() {
    std::vector<const thread::ShadeCard*> result;
    for (const thread::ShadeCard& card : *m_session.cards()) {
        result.push_back(&card);
    }
    return result;
}

void RecolourDesk::refresh() {
    m_isStale = !m_isActive;
    if (m_isStale) {
        return;
    }
    takeChart();
    followEdit();
    takeSubject();
    takeColourway();
    remember();
    Q_EMIT changed();
}

void RecolourDesk::ask(const RecolourState& state) {
    const bool otherJob = state.job != m_state.job;
    m_state = state;
    if (otherJob) {
        m_state.colourway.reset(); // a kept one of that job is taken up, if there is one
    }
    refresh();
}

/// Another chart begins with the colourway last kept of it, else with the job that suits it.
void RecolourDesk::takeChart() {
    const auto id = m_session.chartId();
    const auto chart = id ? m_document.chart(*id) : nullptr;
    m_chart = chart;
    if (!chart) {
        m_state.chart.reset();
        m_state.colourway.reset();
        return;
    }
    if (id == m_state.chart) {
        return;
    }
    m_state.chart = id;
    m_state.colourway.reset();
    m_contents.clear();
    const auto kept = m_document.colourways(*id);
    if (!kept.empty()) {
        switchTo(kept.back().id);
        return;
    }
    m_state.job = usualJob(*chart);
    if (m_remembered.isEmpty() && hasStash(*m_session.cards())) {
        m_state.source = ColourSource::MyThreads;
    }
}

void RecolourDesk::takeSubject() {
    if (!m_chart) {
        m_subject.reset();
        m_source = {};
        return;
    }
    const Source source{m_chart, partsOf(m_state.job), m_document.motifPlan(*m_state.chart),
                        m_session.cards()};
    if (m_subject && source == m_source) {
        return;
    }
    m_source = source;
    m_subject = colourway::subjectOf(*source.chart, source.by, source.plan, cards());
    m_suggestion.reset();
}

/// Undo, redo or another place may have changed a kept colourway that is not shown: show what has
/// changed, so that nothing happens unseen.
void RecolourDesk::followEdit() {
    std::map<workbox::ColourwayId, QByteArray> contents;
    std::vector<workbox::ColourwayId> edited;
    if (m_state.chart) {
        for (const workbox::StoredColourway& one : m_document.colourways(*m_state.chart)) {
            contents[one.id] = one.content;
            const auto before = m_contents.find(one.id);
            if (!m_contents.empty() &&
                (before == m_contents.end() || before->second != one.content)) {
                edited.push_back(one.id);
            }
        }
    }
    m_contents = std::move(contents);
    if (edited.size() == 1 && m_state.colourway != edited.front()) {
        switchTo(edited.front());
    }
}

/// The kept colourway in force; where it is gone, the last that was kept for this job.
std::optional<colourway::SavedColourway> RecolourDesk::savedInForce() {
    const bool isThere = m_state.colourway && m_contents.contains(*m_state.colourway);
    std::optional<colourway::SavedColourway> found;
    std::optional<workbox::ColourwayId> foundId;
    for (const auto& [id, content] : m_contents) {
        if (isThere && id != *m_state.colourway) {
            continue;
        }
        try {
            auto saved = colourway::fromJson(content, tr("A kept colourway"));
            if (jobOf(saved.question) == m_state.job) {
                found = std::move(saved);
                foundId = id;
            }
        } catch (const base::InputError& error) {
            Q_EMIT refused(error.line());
        }
    }
    m_state.colourway = foundId;
    return found;
}

void RecolourDesk::takeColourway() {
    m_shown.reset();
    m_locks.clear();
    if (!m_subject) {
        m_state.colourway.reset();
        return;
    }
    const auto saved = savedInForce();
    if (!saved) {
        m_shown = m_suggestion;
        return;
    }
    auto restored = colourway::restored(*saved, *m_subject, cards());
    m_locks = std::move(restored.question.locks);
    m_shown = std::move(restored.colourway);
    m_shown->figures = colourway::figuresOf(*m_subject, question(), m_shown->now);
}

void RecolourDesk::choose(workbox::ColourwayId id) {
    switchTo(id);
    refresh();
}

void RecolourDesk::switchTo(workbox::ColourwayId id) {
    const auto stored = m_document.colourway(id);
    if (!stored) {
        return;
    }
    try {
        const auto saved = colourway::fromJson(stored->content, stored->name);
        m_state = withQuestion(m_state, saved.question);
        m_state.colourway = id;
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

void RecolourDesk::remember() {
    // Each setting is synced to disk.
    if (const QString text = rememberedText(m_state); m_state.chart && text != m_remembered) {
        m_document.store().setSetting(kSetting, text);
        m_remembered = text;
    }
}

colourway::RecolourQuestion RecolourDesk::question() const {
    return questionOf(m_state, m_session.ground(), m_locks);
}

void RecolourDesk::suggest(const colourway::Colourway& colourway) {
    m_suggestion = colourway;
    if (!isKept()) {
        m_shown = m_suggestion;
        Q_EMIT changed();
    }
}

QString RecolourDesk::nameOfShown() const {
    const auto stored = m_state.colourway ? m_document.colourway(*m_state.colourway) : std::nullopt;
    return stored ? stored->name : tr("recoloured");
}

chart::Chart RecolourDesk::worked() const {
    chart::Chart chart = colourway::workedChart(*m_subject, *m_shown);
    chart.name = tr("%1, %2").arg(m_subject->chart.name, nameOfShown());
    return chart;
}

} // namespace otherskein::app
