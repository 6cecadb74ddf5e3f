#pragma once

#include "workbox/store.h"

#include <QObject>
#include <QUndoStack>

#include <map>
#include <span>

namespace otherskein::workbox {

/// The workbox as the window works on it: cards and grounds in memory, charts as they are asked
/// for, every edit undoable, each do, undo and redo saved to the file before it shows. Lives in one
/// thread of execution.
///
/// The undo history holds up to `kMostUndoBytes`; beyond that its oldest steps are forgotten,
/// though never the newest one. Slots of the signals below look; they do not edit from within.
class Document : public QObject {
    Q_OBJECT

  public:
    static constexpr std::size_t kMostUndoBytes = 256UL * 1024 * 1024;

    /// Errors: as Store.
    explicit Document(const QString& path, QObject* parent = nullptr);
    ~Document() override;

    [[nodiscard]] const std::vector<StoredCard>& cards() const { return m_contents.cards; }
    [[nodiscard]] const std::vector<StoredGround>& grounds() const { return m_contents.grounds; }
    [[nodiscard]] const Contents& contents() const { return m_contents; }
    [[nodiscard]] const StoredCard* card(CardId id) const;
    [[nodiscard]] const StoredCard* cardNamed(const QString& name) const;
    /// Null when it is gone.
    [[nodiscard]] const thread::Thread* thread(CardId card, ThreadId id) const;
    [[nodiscard]] const StoredGround* ground(GroundId id) const;
    /// A copy as the readers give it; an empty one when the card is gone.
    [[nodiscard]] thread::ShadeCard shadeCard(CardId id) const;

    /// In order of adding.
    [[nodiscard]] const std::vector<ChartFacts>& charts() const { return m_chartFacts; }
    /// Shared with workers; never changes: an edit puts another in its place. Null when gone.
    /// Read from the file, with its motif plan, when one of them is first asked for.
    /// Errors: InputError when it is damaged; it stands in `charts` all the same. Then its edits
    /// are refused too.
    [[nodiscard]] std::shared_ptr<const chart::Chart> chart(ChartId id) const;
    /// Empty when gone. Errors: as `chart`.
    [[nodiscard]] chart::MotifPlan motifPlan(ChartId id) const;
    /// What the chart was traced from; null when it was not, or is gone. Shared as the chart is.
    /// Errors: as `chart`.
    [[nodiscard]] std::shared_ptr<const TracedPage> tracedPage(ChartId id) const;
    /// In order of adding.
    [[nodiscard]] std::vector<StoredColourway> colourways(ChartId chart) const;
    [[nodiscard]] std::optional<StoredColourway> colourway(ColourwayId id) const;

    [[nodiscard]] QUndoStack& undoStack() { return m_undo; }
    [[nodiscard]] Store& store() { return m_store; }

    /// Reads the file again, after another program has changed it (Store::changedElsewhere, which
    /// refuses every edit until then). The undo history is lost. Errors: InputError.
    void reload();

    // Edits. `text` names the step in the Edit menu. Errors: InputError when it cannot be saved or
    // would break a rule (a code empty or doubled on its card, a name taken, a number out of its
    // range, a thing that is gone); then nothing has changed. Blanks around codes and the names of
    // cards and grounds are dropped. An edit that comes to nothing makes no step.

    /// Adds `card` under its name, or "name (2)" and so on when that is taken. Returns its id.
    CardId addCard(const thread::ShadeCard& card);
    void renameCard(CardId id, const QString& name);
    void removeCard(CardId id);
    /// Brings a card up to date from a file: threads with a known code take the file's values, new
    /// codes are added at the end; threads that the file lacks stay. Fields whose column the file
    /// lacks stay too, so that a maker's list leaves the stash alone. One step.
    void mergeCard(CardId id, const thread::ShadeCard& from);

    ThreadId addThread(CardId card, const thread::Thread& thread);
    /// Several threads change in one step; those that stay the same are left out.
    /// Steps with the same non-empty `mergeKey` that follow each other become one (a spin box held
    /// down), and none when they lead back to the start.
    void changeThreads(CardId card, const std::map<ThreadId, thread::Thread>& after,
                       const QString& text, const QString& mergeKey = {});
    void removeThreads(CardId card, const std::vector<ThreadId>& ids);

    GroundId addGround(const thread::Ground& ground);
    void changeGround(GroundId id, const thread::Ground& after, const QString& mergeKey = {});
    void removeGround(GroundId id);

    /// Adds several things as one step (the demo).
    void addAll(const std::vector<thread::ShadeCard>& cards,
                const std::vector<thread::Ground>& grounds, const QString& text,
                const std::vector<chart::Chart>& charts = {});

    /// Under its name, or "name (2)" and so on when that is taken.
    ChartId addChart(const chart::Chart& chart, const chart::MotifPlan& plan = {});
    /// The same for a chart that was traced, with its page: `confidence` has a value for each cell,
    /// `seen` too, or none at all (nothing is seen yet).
    ChartId addTracedChart(const chart::Chart& chart, const TracedPage& page);
    void renameChart(ChartId id, const QString& name);
    void removeChart(ChartId id); ///< with its colourways and its page
    /// The one way to change cells, key and lines: finds what differs and keeps only that for undo
    /// (the smallest rectangle of cells). The size of the grid and the name stay as they are;
    /// stitches are counted anew. Of steps with one merge key the rectangles are united. In a
    /// traced chart the cells of `seen` count as looked at from then on, as part of the step.
    void changeChart(ChartId id, const chart::Chart& after, const QString& text,
                     const QString& mergeKey = {}, std::span<const chart::Cell> seen = {});
    /// Says of cells of a traced chart that they were looked at and accepted, or takes that back.
    void setSeen(ChartId id, std::span<const chart::Cell> cells, bool seen, const QString& text,
                 const QString& mergeKey = {});
    void changeMotifPlan(ChartId id, const chart::MotifPlan& after, const QString& text,
                         const QString& mergeKey = {});
    ColourwayId addColourway(ChartId chart, const QString& name, const QByteArray& content);
    void changeColourway(ColourwayId id, const QString& name, const QByteArray& content,
                         const QString& text, const QString& mergeKey = {});
    void removeColourway(ColourwayId id);

  Q_SIGNALS:
    /// A card was added, renamed or removed, or has new columns.
    void cardsChanged();
    /// Threads of this card were added, changed or removed.
    void threadsChanged(otherskein::workbox::CardId card);
    void groundsChanged();
    /// A chart was added, renamed or removed.
    void chartsChanged();
    /// Cells inside `cells` (may be empty), the key or the lines of a chart are not what they were.
    void chartChanged(otherskein::workbox::ChartId id, const otherskein::chart::Area& cells);
    void motifPlanChanged(otherskein::workbox::ChartId id);
    /// Cells of a traced chart were accepted, or are doubtful again.
    void tracedPageChanged(otherskein::workbox::ChartId id);
    /// Colourways of a chart were added, changed or removed.
    void colourwaysChanged(otherskein::workbox::ChartId chart);
    /// An undo or redo could not be saved; `line` says why. The step is dropped, nothing else is
    /// lost.
    void saveFailed(const QString& line);

  private:
    class EditCommand;

    [[nodiscard]] const StoredCard& existing(CardId id) const;
    [[nodiscard]] const StoredGround& existing(GroundId id) const;
    /// With its cells read. Errors: InputError.
    [[nodiscard]] const StoredChart& existing(ChartId id) const;
    [[nodiscard]] const StoredColourway& existing(ColourwayId id) const;
    /// Saves, then carries out in memory. Errors: InputError; then neither has happened.
    void carryOut(const Edit& edit);
    void announce(const Edit& edit);
    void announceCharts(const Edit& edit);
    ChartId addChart(const chart::Chart& chart, const chart::MotifPlan& plan,
                     const TracedPage* page, const QString& text);
    void noteChartFacts();
    /// A new step: carryOut, the undo stack, the signals.
    void perform(Edit edit, const QString& text, const QString& mergeKey = {});
    void forgetOldSteps();

    Store m_store;
    mutable Contents m_contents;          ///< mutable for the charts that are read when asked for
    std::vector<ChartFacts> m_chartFacts; ///< of m_contents
    QUndoStack m_undo;
};

} // namespace otherskein::workbox
