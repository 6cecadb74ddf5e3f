#pragma once

#include "app/charts/charts_state.h"
#include "app/charts/motif_finder.h"
#include "app/frame/session.h"

#include <functional>
#include <span>

namespace otherskein::app {

/// The confidence of a traced cell as the workbox keeps it, below which it is doubtful.
inline constexpr std::uint8_t kDoubtfulByte = 128;

/// What lies on the desk in Charts: the chart in use, how it is looked at, its motifs. The parts of
/// the place look at it and ask it for changes; all changes go through the document.
class ChartDesk : public QObject {
    Q_OBJECT

  public:
    explicit ChartDesk(Session& session, QObject* parent = nullptr);

    [[nodiscard]] Session& session() const { return m_session; }
    [[nodiscard]] workbox::Document& document() const { return m_session.document(); }

    [[nodiscard]] const ChartsState& state() const { return m_state; }
    void setState(const ChartsState& state);
    /// The state with a change made to it.
    template <typename Change>
    void with(const Change& change) {
        ChartsState after = m_state;
        change(after);
        setState(after);
    }

    /// Null when the workbox has no chart.
    [[nodiscard]] const std::shared_ptr<const chart::Chart>& chart() const { return m_chart; }
    [[nodiscard]] std::optional<workbox::ChartId> id() const { return m_id; }
    /// What the chart was traced from; null when it was not.
    [[nodiscard]] const std::shared_ptr<const workbox::TracedPage>& page() const { return m_page; }
    /// Cells of a traced chart that are not sure and were not looked at.
    [[nodiscard]] int doubtfulLeft() const;
    [[nodiscard]] const chart::MotifPlan& plan() const { return m_plan; }
    /// Of the chart as it was when they were last found; null when nobody has asked for them, or
    /// before they are first found.
    [[nodiscard]] const MotifFinder::Answer& motifs() const { return m_motifs; }
    [[nodiscard]] bool isBusy() const { return m_finder.isBusy(); }
    /// Indices of the chosen motifs, in the order of choosing.
    [[nodiscard]] std::vector<chart::MotifIndex> chosenMotifs() const;

    /// One undoable step; a refusal is told through `refused`.
    /// In a traced chart the cells of `seen` count as looked at, as part of the step.
    bool change(const chart::Chart& after, const QString& text, const QString& mergeKey = {},
                std::span<const chart::Cell> seen = {});
    bool changePlan(const chart::MotifPlan& after, const QString& text,
                    const QString& mergeKey = {});
    bool addMotifEdit(const chart::MotifEdit& edit, const QString& text);
    /// Carries out an edit of the document; what it throws is told through `refused`.
    bool attempt(const std::function<void()>& edit);

  Q_SIGNALS:
    void stateChanged(const otherskein::app::ChartsState& before);
    /// Another chart, or none.
    void chartReplaced();
    /// Cells inside `cells` are new (may be empty), and how many stitches each row has; with
    /// `keyToo` the rest of the key, lines or name as well.
    void chartChanged(const otherskein::chart::Area& cells, bool keyToo);
    void planChanged();
    /// Cells of the traced page were accepted, or are doubtful again.
    void pageChanged();
    void motifsChanged();
    void told(const QString& text);
    void refused(const QString& line);

  private:
    Session& m_session;
    ChartsState m_state;
    std::optional<workbox::ChartId> m_id;
    std::shared_ptr<const chart::Chart> m_chart;
    std::shared_ptr<const workbox::TracedPage> m_page;
    chart::MotifPlan m_plan;
    MotifFinder m_finder;
    MotifFinder::Answer m_motifs;

    [[nodiscard]] ChartsState possible(const ChartsState& wanted) const;
    void takeChart();
    void takeChange(workbox::ChartId id, const chart::Area& cells);
    void findMotifs();
    [[nodiscard]] bool needsMotifs() const;
};

/// What a row of the key is called in a sentence: its code and name, or its symbol.
[[nodiscard]] QString shownRow(const chart::KeyRow& row);

} // namespace otherskein::app
