// The edits of RecolourDesk: each is one step of the workbox's undo history.
#include "app/recolour/recolour_desk.h"

#include "base/input_error.h"

#include <algorithm>

namespace otherskein::app {

template <typename Edit>
void RecolourDesk::perform(Edit edit) {
    try {
        edit();
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

void RecolourDesk::keep(const std::vector<colourway::Choice>& now,
                        const std::map<std::size_t, colourway::Choice>& locks,
                        const QString& text) {
    colourway::RecolourQuestion asked = question();
    asked.locks = locks;
    colourway::Colourway colourway;
    colourway.by = asked.by;
    colourway.now = now;
    const QByteArray content = colourway::toJson(colourway::saved(*m_subject, asked, colourway));
    perform([&] {
        const auto stored =
            m_state.colourway ? m_document.colourway(*m_state.colourway) : std::nullopt;
        if (stored) {
            m_document.changeColourway(stored->id, stored->name, content, text);
        } else {
            const auto before = m_document.colourways(*m_state.chart).size();
            m_document.addColourway(*m_state.chart, tr("Colourway %1").arg(before + 1), content);
        }
    });
}

void RecolourDesk::take(const colourway::Colourway& colourway) {
    if (m_subject && colourway.now.size() == m_subject->parts.parts.size()) {
        keep(colourway.now, m_locks, tr("Take another colourway"));
    }
}

void RecolourDesk::setLocked(const std::vector<std::size_t>& parts, bool locked) {
    if (!m_shown) {
        return;
    }
    auto locks = m_locks;
    for (const std::size_t part : parts) {
        if (locked) {
            locks[part] = m_shown->now[part];
        } else {
            locks.erase(part);
        }
    }
    keep(m_shown->now, locks, locked ? tr("Lock a thread") : tr("Unlock a thread"));
}

void RecolourDesk::changeThread(const std::vector<std::size_t>& parts,
                                const colourway::Wanted& thread) {
    if (!m_shown || !thread.thread) {
        return;
    }
    auto now = m_shown->now;
    auto locks = m_locks;
    for (const std::size_t part : parts) {
        colourway::Choice& choice = now[part];
        int strands = 0;
        for (const auto& portion : choice.portions) {
            strands += portion.strands;
        }
        choice = {{{thread.card, *thread.thread, std::max(1, strands)}}, thread.lab};
        locks[part] = choice;
    }
    keep(now, locks, tr("Change a thread"));
}

void RecolourDesk::rename(const QString& name) {
    perform([&] {
        if (const auto stored =
                m_state.colourway ? m_document.colourway(*m_state.colourway) : std::nullopt) {
            m_document.changeColourway(stored->id, name, stored->content, tr("Rename a colourway"));
        }
    });
}

void RecolourDesk::keepCopy() {
    perform([&] {
        if (const auto stored =
                m_state.colourway ? m_document.colourway(*m_state.colourway) : std::nullopt) {
            m_state.colourway = m_document.addColourway(
                stored->chart, tr("%1, copy").arg(stored->name), stored->content);
            refresh();
            Q_EMIT told(tr("The copy is shown; \"%1\" stays as it is.").arg(stored->name));
        }
    });
}

void RecolourDesk::remove() {
    if (m_state.colourway) {
        perform([&] { m_document.removeColourway(*m_state.colourway); });
    }
}

void RecolourDesk::changeStep(int step) {
    if (!m_state.chart) {
        return;
    }
    chart::MotifPlan plan = m_document.motifPlan(*m_state.chart);
    plan.step = step;
    perform([&] {
        m_document.changeMotifPlan(*m_state.chart, plan, tr("Cut into fewer or more motifs"),
                                   QStringLiteral("motif-step"));
    });
}

void RecolourDesk::makeChart() {
    if (!m_subject || !m_shown) {
        return;
    }
    perform([&] {
        const chart::Chart chart = worked();
        m_document.addChart(chart, m_document.motifPlan(*m_state.chart));
        Q_EMIT told(tr("\"%1\" is among the charts now.").arg(chart.name));
    });
}

} // namespace otherskein::app
