#pragma once

#include "app/frame/session.h"
#include "app/recolour/recolour_state.h"
#include "colourway/saved_colourway.h"

#include <QObject>

#include <map>
#include <memory>

namespace otherskein::app {

/// What lies on the table in Recolour: the chart taken apart, the colourway shown, and every edit
/// of it. The truth of a kept colourway is the workbox: each edit is a step of its undo history,
/// and whatever happens there comes back here by way of its signals. No widgets.
class RecolourDesk : public QObject {
    Q_OBJECT

  public:
    explicit RecolourDesk(Session& session, QObject* parent = nullptr);

    /// While nobody looks, changes are noted and taken in later.
    void setActive(bool active);

    [[nodiscard]] const RecolourState& state() const { return m_state; }
    void ask(const RecolourState& state);
    /// Noted, and remembered with the next change: a drag must not wait for the disk.
    void setDivider(double share) { m_state.divider = share; }

    /// Null without a chart.
    [[nodiscard]] const std::shared_ptr<const colourway::Subject>& subject() const {
        return m_subject;
    }
    [[nodiscard]] colourway::RecolourQuestion question() const;
    /// The kept colourway, else the suggestion; none as long as nothing was found.
    [[nodiscard]] const std::optional<colourway::Colourway>& shown() const { return m_shown; }
    [[nodiscard]] bool isKept() const { return m_state.colourway.has_value(); }
    [[nodiscard]] const std::map<std::size_t, colourway::Choice>& locks() const { return m_locks; }

    /// Shown as long as nothing is kept.
    void suggest(const colourway::Colourway& colourway);

    // Edits. All but the slider's are of the kept colourway; without one, they keep what is shown.
    void take(const colourway::Colourway& colourway);
    void setLocked(const std::vector<std::size_t>& parts, bool locked);
    /// The parts take that thread and are locked.
    void changeThread(const std::vector<std::size_t>& parts, const colourway::Wanted& thread);
    void rename(const QString& name);
    void keepCopy();
    void remove();
    void choose(workbox::ColourwayId id);
    void changeStep(int step);
    /// Adds what is shown to the workbox as a chart of its own.
    void makeChart();

    /// The chart worked in what is shown, named after both.
    [[nodiscard]] chart::Chart worked() const;

  Q_SIGNALS:
    /// Anything of the above is not what it was.
    void changed();
    void told(const QString& text);
    void refused(const QString& line);

  private:
    /// What the subject was made from.
    struct Source {
        std::shared_ptr<const chart::Chart> chart;
        colourway::By by = colourway::By::Motif;
        chart::MotifPlan plan;
        Session::Cards cards;
        bool operator==(const Source&) const = default;
    };

    Session& m_session;
    workbox::Document& m_document;
    bool m_isActive = false;
    bool m_isStale = true; ///< something changed while nobody looked
    RecolourState m_state;
    QString m_remembered; ///< the state as the workbox has it
    std::shared_ptr<const chart::Chart> m_chart;
    Source m_source;
    std::shared_ptr<const colourway::Subject> m_subject;
    std::optional<colourway::Colourway> m_shown;
    std::optional<colourway::Colourway> m_suggestion;
    std::map<std::size_t, colourway::Choice> m_locks;
    std::map<workbox::ColourwayId, QByteArray> m_contents; ///< of the chart's kept colourways

    void refresh();
    void takeChart();
    void takeSubject();
    void takeColourway();
    void followEdit();
    void switchTo(workbox::ColourwayId id);
    [[nodiscard]] std::optional<colourway::SavedColourway> savedInForce();
    void remember();
    [[nodiscard]] std::vector<const thread::ShadeCard*> cards();
    [[nodiscard]] QString nameOfShown() const;
    /// Keeps `now` with these locks; a step of the undo history called `text`.
    void keep(const std::vector<colourway::Choice>& now,
              const std::map<std::size_t, colourway::Choice>& locks, const QString& text);
    /// Runs an edit; what the workbox refuses is told.
    template <typename Edit>
    void perform(Edit edit);
};

} // namespace otherskein::app
