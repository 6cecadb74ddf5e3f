// The edits of GroundDesk: each is one step of the workbox's undo history.
#include "app/ground/ground_desk.h"

#include "base/input_error.h"
#include "colourway/saved_colourway.h"

#include <algorithm>

namespace otherskein::app {

void GroundDesk::take(std::size_t part, const colourway::Choice& choice) {
    std::vector<colourway::Choice> now = m_now;
    now[part] = choice;
    keep(now, {part}, tr("Take a thread that shows"));
}

void GroundDesk::pushAll() {
    if (!m_subject || m_lost.empty()) {
        return;
    }
    const auto pushed = colourway::pushedOff(*m_subject, m_now, m_lost, stitched(), {}, pool());
    if (!pushed || *pushed == m_now) {
        Q_EMIT told(tr("No thread on your cards shows on this ground with so few strands."));
        return;
    }
    keep(*pushed, m_lost, tr("Push threads off the ground"));
}

void GroundDesk::moreStrands(std::size_t part, int strands) {
    const auto id = m_session.chartId();
    if (!id || !m_subject) {
        return;
    }
    if (m_recoloured || m_motifSubject || m_state.strands) {
        // A colourway has no strands of its own, and an override hides those of the key.
        GroundState next = m_state;
        next.strands = std::min(strands, kMostStrandsOffered);
        ask(next);
        return;
    }
    chart::Chart changed = *m_source.chart;
    changed.key[m_subject->parts.parts[part].key].strands = strands;
    try {
        m_document.changeChart(*id, changed, tr("More strands"));
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

/// Keeps `now` as the chart's colourway. `changed` are the parts of the subject that differ.
void GroundDesk::keep(const std::vector<colourway::Choice>& now,
                      const std::vector<std::size_t>& changed, const QString& text) {
    const auto id = m_session.chartId();
    if (!id || !m_subject) {
        return;
    }
    try {
        colourway::RecolourQuestion question;
        question.theme = colourway::AsCharted{};
        question.ground = m_session.ground();
        colourway::Colourway colourway;
        const auto kept =
            m_state.colourway ? m_document.colourway(*m_state.colourway) : std::nullopt;
        if (kept) {
            question = colourway::fromJson(kept->content, kept->name).question;
            question.ground = m_session.ground();
        }
        question.locks.clear();
        const colourway::Subject* subject = m_subject.get();
        if (m_motifSubject) {
            subject = m_motifSubject.get();
            colourway.by = question.by = colourway::By::Motif;
            colourway.now = m_motifNow;
            for (colourway::Choice& choice : colourway.now) {
                for (const std::size_t part : changed) {
                    if (choice.isSameAs(m_now[part])) {
                        choice = now[part];
                        break;
                    }
                }
            }
        } else {
            colourway.by = question.by = colourway::By::Colour;
            colourway.now = now;
        }
        const QByteArray content =
            colourway::toJson(colourway::saved(*subject, question, colourway));
        if (kept) {
            m_document.changeColourway(kept->id, kept->name, content, text);
            return;
        }
        const auto added =
            m_document.addColourway(*id, tr("On %1").arg(m_session.ground().name), content);
        m_state.colourway = added;
        refresh();
        Q_EMIT told(tr("Kept as the colourway \"On %1\". Undo takes it back.")
                        .arg(m_session.ground().name));
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

} // namespace otherskein::app
