#include "workbox/detail/card_merge.h"

#include <QHash>
#include <QSet>

#include <algorithm>
#include <array>

namespace otherskein::workbox::detail {

namespace {

using thread::ShadeCard;
using thread::Thread;

/// A field with its column's name: whether two threads differ in it, and how to copy it.
struct Field {
    const char* column;
    bool (*differs)(const Thread&, const Thread&);
    void (*copy)(const Thread& from, Thread& to);
};

template <auto Member>
constexpr Field field(const char* column) {
    return {column, [](const Thread& x, const Thread& y) { return x.*Member != y.*Member; },
            [](const Thread& from, Thread& to) { to.*Member = from.*Member; }};
}

constexpr std::array kFields{
    field<&Thread::name>("name"),        field<&Thread::fibre>("fibre"),
    field<&Thread::finish>("finish"),    field<&Thread::strands>("strands"),
    field<&Thread::lengthM>("length_m"), field<&Thread::stash>("stash"),
    field<&Thread::stock>("stock"),      field<&Thread::lot>("lot"),
    field<&Thread::spread>("spread"),    field<&Thread::note>("note")};

std::vector<Field> fieldsOf(const ShadeCard& from) {
    std::vector<Field> fields;
    std::ranges::copy_if(kFields, std::back_inserter(fields), [&](const Field& one) {
        if (!from.columns.empty()) {
            return std::ranges::find(from.columns, QString::fromLatin1(one.column)) !=
                   from.columns.end();
        }
        return std::ranges::any_of(from.threads, [&, unstated = Thread()](const Thread& thread) {
            return one.differs(thread, unstated);
        });
    });
    return fields;
}

/// The columns of `card`, then those of `from` that it lacks.
std::vector<QString> joinedColumns(const StoredCard& card, const ShadeCard& from) {
    std::vector<QString> columns = card.columns;
    std::ranges::copy_if(from.columns, std::back_inserter(columns), [&](const QString& column) {
        return std::ranges::find(card.columns, column) == card.columns.end();
    });
    return columns;
}

class Merger {
  public:
    Merger(const ShadeCard& from, const std::vector<QString>& columns) : m_fields(fieldsOf(from)) {
        const std::vector<QString> ours = thread::extraColumns({{}, {}, columns});
        for (const QString& column : extraColumns(from)) {
            m_extraAt.push_back(
                static_cast<std::size_t>(std::ranges::find(ours, column) - ours.begin()));
        }
    }

    [[nodiscard]] Thread merged(const Thread& known, const Thread& from) const {
        Thread result = known;
        result.lab = from.lab; // a thread always has a colour
        result.entered = from.entered;
        for (const Field& one : m_fields) {
            one.copy(from, result);
        }
        takeExtra(from, result);
        return result;
    }

    [[nodiscard]] Thread added(const Thread& from) const {
        Thread result = from;
        result.extra.clear();
        takeExtra(from, result);
        return result;
    }

  private:
    std::vector<Field> m_fields;
    std::vector<std::size_t> m_extraAt; ///< index in our extra cells of each of theirs

    void takeExtra(const Thread& from, Thread& to) const {
        const std::size_t count = std::min(m_extraAt.size(), from.extra.size());
        for (std::size_t i = 0; i < count; ++i) {
            if (to.extra.size() <= m_extraAt[i]) {
                to.extra.resize(m_extraAt[i] + 1);
            }
            to.extra[m_extraAt[i]] = from.extra[i];
        }
    }
};

} // namespace

std::size_t newCodes(const StoredCard& card, const ShadeCard& from) {
    QSet<QString> known;
    for (const StoredThread& one : card.threads) {
        known.insert(one.thread.code);
    }
    return static_cast<std::size_t>(std::ranges::count_if(
        from.threads, [&](const Thread& thread) { return !known.contains(thread.code); }));
}

Edit mergeEdit(const StoredCard& card, const ShadeCard& from, ThreadId firstNewId) {
    Edit edit;
    const std::vector<QString> columns = joinedColumns(card, from);
    if (columns != card.columns) {
        edit.cards.push_back({StoredCard{card.id, card.name, card.columns, {}},
                              StoredCard{card.id, card.name, columns, {}}});
    }
    QHash<QString, const StoredThread*> known;
    for (const StoredThread& one : card.threads) {
        known.insert(one.thread.code, &one);
    }
    const Merger merger(from, columns);
    auto newId = static_cast<qint64>(firstNewId);
    std::size_t end = card.threads.size();
    for (const Thread& theirs : from.threads) {
        const StoredThread* ours = known.value(theirs.code);
        if (!ours) {
            edit.threads.push_back(
                {card.id, ThreadId{newId++}, end++, std::nullopt, merger.added(theirs)});
        } else if (Thread after = merger.merged(ours->thread, theirs); after != ours->thread) {
            edit.threads.push_back({card.id, ours->id, 0, ours->thread, std::move(after)});
        }
    }
    return edit;
}

} // namespace otherskein::workbox::detail
