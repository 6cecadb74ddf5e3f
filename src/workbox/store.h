#pragma once

// The workbox folder: the user's own store (shade cards, stash, grounds, charts, colourways,
// settings) in one SQLite file, and the document that edits it with undo. Knows threads and charts;
// no widgets, no search.

#include "chart/chart.h"
#include "chart/motifs.h"
#include "thread/ground.h"
#include "thread/shade_card.h"

#include <QString>

#include <memory>
#include <optional>
#include <vector>

namespace otherskein::workbox {

/// Stable names of things in the workbox; never used again after a deletion.
enum class CardId : qint64 {};
enum class ThreadId : qint64 {};
enum class GroundId : qint64 {};
enum class ChartId : qint64 {};
enum class ColourwayId : qint64 {};

struct StoredThread {
    ThreadId id{};
    thread::Thread thread;

    bool operator==(const StoredThread&) const = default;
};

/// A shade card in the workbox: as thread::ShadeCard, each thread with its id, in the card's order.
struct StoredCard {
    CardId id{};
    QString name; ///< unique in the workbox
    std::vector<QString> columns;
    std::vector<StoredThread> threads;

    bool operator==(const StoredCard&) const = default;
};

struct StoredGround {
    GroundId id{};
    thread::Ground ground;

    bool operator==(const StoredGround&) const = default;
};

/// What a list of charts shows; no cells.
struct ChartFacts {
    ChartId id{};
    QString name; ///< unique in the workbox
    int columns = 0;
    int rows = 0;
    int stitches = 0;
    int keyRows = 0;

    bool operator==(const ChartFacts&) const = default;
};

/// What a traced chart keeps of the page that it was traced from, so that it can be mended beside
/// it at any time.
struct TracedPage {
    QByteArray picture; ///< PNG or JPEG: the printed grid put straight; not looked into
    int cell = 0;       ///< px of a cell's side in the picture, whose top left is that of cell 0, 0
    /// Of each cell, row by row: 0 not sure at all, 255 sure.
    std::vector<std::uint8_t> confidence{};
    std::vector<std::uint8_t> seen{}; ///< of each cell: 1 where the user has looked and accepted

    bool operator==(const TracedPage&) const = default;
};
inline constexpr qint64 kMostTracedBytes = 128LL * 1024 * 1024;
inline constexpr int kMostTracedCell = 1000;

/// Plan, page and chart are read from the file together, when one of them is first asked for: cells
/// are many, and one chart that is damaged is no reason to refuse the whole workbox.
struct StoredChart {
    ChartFacts facts;
    chart::MotifPlan plan; ///< empty as long as `chart` is null
    /// Null until it is asked for. Shared and never changed: an edit puts another in its place.
    std::shared_ptr<const chart::Chart> chart;
    std::shared_ptr<const TracedPage> page{}; ///< null where it was not traced, or not read yet

    /// By value; where one side is not read yet, the facts alone count.
    bool operator==(const StoredChart& other) const;
};
[[nodiscard]] ChartFacts factsOf(ChartId id, const chart::Chart& chart);

/// A colourway of a chart as the workbox keeps it; `content` is one JSON object in UTF-8 that only
/// the colourway folder understands.
struct StoredColourway {
    ColourwayId id{};
    ChartId chart{};
    QString name;
    QByteArray content;

    bool operator==(const StoredColourway&) const = default;
};

/// All that can be edited. Things of a kind stand in the order in which they were added.
struct Contents {
    std::vector<StoredCard> cards;
    std::vector<StoredGround> grounds;
    std::vector<StoredChart> charts{};
    std::vector<StoredColourway> colourways{};

    bool operator==(const Contents&) const = default;
};

/// One change to the workbox: what stood before and what stands after. An absent `before` is an
/// addition, an absent `after` a deletion. The inverse swaps the two.
struct ThreadChange {
    CardId card{};
    ThreadId id{};
    /// Of an addition: its index in the card as it stands after the whole edit. Of a deletion: its
    /// index in the card as it stood before the whole edit. So the changes of one edit need no
    /// order.
    std::size_t position = 0;
    std::optional<thread::Thread> before;
    std::optional<thread::Thread> after;

    bool operator==(const ThreadChange&) const = default;
};
struct CardChange {
    std::optional<StoredCard> before; ///< with its threads when it is deleted
    /// With its threads when it is added. A change of name or columns leaves threads alone: both
    /// sides then come without any.
    std::optional<StoredCard> after;

    bool operator==(const CardChange&) const = default;
};
struct GroundChange {
    GroundId id{};
    std::optional<thread::Ground> before;
    std::optional<thread::Ground> after;

    bool operator==(const GroundChange&) const = default;
};

/// A chart is added (with its cells) or deleted as a whole; its colourways stand under
/// `Edit::colourways` as well.
struct ChartChange {
    std::optional<StoredChart> before;
    std::optional<StoredChart> after;

    bool operator==(const ChartChange&) const = default;
};
/// What differs in a chart that stays: one side of it. What is the same on both sides is absent.
struct ChartSide {
    std::vector<chart::KeyIndex> cells; ///< of the patch's area, row by row
    std::optional<QString> name;
    std::optional<chart::Key> key; ///< with no stitches, which follow from the cells
    std::optional<std::vector<chart::Line>> lines;
    std::optional<chart::MotifPlan> plan;
    std::vector<std::uint8_t> seen{}; ///< of the patch's `marked` cells

    bool operator==(const ChartSide&) const = default;
};
struct ChartPatch {
    ChartId id{};
    chart::Area cells; ///< empty where no cell differs
    ChartSide before;
    ChartSide after;
    /// Indices of the cells whose `seen` differs, ascending; the chart has a traced page.
    std::vector<std::uint32_t> marked{};

    bool operator==(const ChartPatch&) const = default;
};
struct ColourwayChange {
    std::optional<StoredColourway> before;
    std::optional<StoredColourway> after;

    bool operator==(const ColourwayChange&) const = default;
};

/// A set of changes that is done, or not done, as one. A card that is added or deleted as a whole
/// brings its threads with it; they do not stand under `threads` as well.
struct Edit {
    std::vector<CardChange> cards;
    std::vector<ThreadChange> threads;
    std::vector<GroundChange> grounds;
    std::vector<ChartChange> charts{};
    std::vector<ChartPatch> patches{};
    std::vector<ColourwayChange> colourways{};

    [[nodiscard]] bool isEmpty() const;
};

/// The edit that undoes `edit` (its changes reversed, last first).
[[nodiscard]] Edit inverse(const Edit& edit);

/// What an edit holds in memory, rounded up: text that is shared with other values counts in full.
[[nodiscard]] std::size_t byteSize(const Edit& edit);

/// The SQLite file. Each `apply` is one transaction, synced to disk before it returns.
class Store {
  public:
    /// The schema that this program writes.
    static constexpr int kSchemaVersion = 5;

    /// Opens `path`, making it (and its folder) when it is not there. An older schema is brought
    /// forward after a copy is kept beside it as `NAME.vN.bak` (then `NAME.vN.bak-2` and so on).
    /// Errors: InputError, the file untouched: not a workbox, damaged (quick_check), of a newer
    /// schema, in use by a writer that does not let go, a place that cannot be written.
    explicit Store(const QString& path);
    ~Store();
    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;

    [[nodiscard]] const QString& path() const;

    /// All as of one moment, charts by their facts only. What other programs have changed up to
    /// that moment no longer stands in the way of `apply`. Errors: InputError (unreadable).
    [[nodiscard]] Contents load();
    [[nodiscard]] std::vector<StoredCard> cards() const;
    [[nodiscard]] std::vector<StoredGround> grounds() const;
    /// With its cells, its plan and its page. Errors: InputError (gone, damaged, beyond a limit).
    [[nodiscard]] StoredChart chart(ChartId id) const;

    /// Whether another program or window has edited the file since it was opened or last `load`ed.
    [[nodiscard]] bool changedElsewhere() const;

    /// Ids for things about to be added; larger than every id that was ever used. The first of
    /// `count` that follow each other.
    [[nodiscard]] CardId nextCardId(std::size_t count = 1);
    [[nodiscard]] ThreadId nextThreadId(std::size_t count = 1);
    [[nodiscard]] GroundId nextGroundId(std::size_t count = 1);
    [[nodiscard]] ChartId nextChartId(std::size_t count = 1);
    [[nodiscard]] ColourwayId nextColourwayId(std::size_t count = 1);

    /// Errors: InputError (disk full, file gone, changedElsewhere, what stood before is not there);
    /// then nothing of the edit is in the file.
    void apply(const Edit& edit);

    /// Small facts that outlive a session, such as the chosen ground. Empty when never set.
    [[nodiscard]] QString setting(const QString& name) const;
    void setSetting(const QString& name, const QString& value);

    /// The whole of SQLite's integrity check and our own invariants; one line per problem, empty
    /// when sound.
    [[nodiscard]] std::vector<QString> problems() const;

  private:
    struct Private;
    std::unique_ptr<Private> m_private;
};

/// Where the workbox lies when the user says nothing: `workbox.sqlite` in the platform's data
/// folder.
[[nodiscard]] QString defaultWorkboxPath();

} // namespace otherskein::workbox
