#pragma once

// The workbox folder: the user's own store (shade cards, stash, grounds, settings) in one SQLite
// file, and the document that edits it with undo. Knows threads; no widgets, no search.

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

/// All that can be edited. Cards and grounds stand in the order in which they were added.
struct Contents {
    std::vector<StoredCard> cards;
    std::vector<StoredGround> grounds;

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

/// A set of changes that is done, or not done, as one. A card that is added or deleted as a whole
/// brings its threads with it; they do not stand under `threads` as well.
struct Edit {
    std::vector<CardChange> cards;
    std::vector<ThreadChange> threads;
    std::vector<GroundChange> grounds;

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
    static constexpr int kSchemaVersion = 2;

    /// Opens `path`, making it (and its folder) when it is not there. An older schema is brought
    /// forward after a copy is kept beside it as `NAME.vN.bak` (then `NAME.vN.bak-2` and so on).
    /// Errors: InputError, the file untouched: not a workbox, damaged (quick_check), of a newer
    /// schema, in use by a writer that does not let go, a place that cannot be written.
    explicit Store(const QString& path);
    ~Store();
    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;

    [[nodiscard]] const QString& path() const;

    /// Cards and grounds as of one moment. What other programs have changed up to that moment no
    /// longer stands in the way of `apply`. Errors: InputError (unreadable).
    [[nodiscard]] Contents load();
    [[nodiscard]] std::vector<StoredCard> cards() const;
    [[nodiscard]] std::vector<StoredGround> grounds() const;

    /// Whether another program or window has edited the file since it was opened or last `load`ed.
    [[nodiscard]] bool changedElsewhere() const;

    /// Ids for things about to be added; larger than every id that was ever used. The first of
    /// `count` that follow each other.
    [[nodiscard]] CardId nextCardId(std::size_t count = 1);
    [[nodiscard]] ThreadId nextThreadId(std::size_t count = 1);
    [[nodiscard]] GroundId nextGroundId(std::size_t count = 1);

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
