#include "workbox/detail/thread_order.h"

#include "workbox/detail/inserted.h"

#include <algorithm>

namespace otherskein::workbox::detail {

namespace {

struct Place {
    ThreadId id{};
    std::optional<qint64> position; ///< none yet for an addition
};

std::vector<Place> placesOf(const Connection& connection, CardId card) {
    Statement row(connection, QStringLiteral("SELECT id, position FROM thread WHERE card = ? "
                                             "ORDER BY position, id"));
    row.run(card);
    std::vector<Place> places;
    while (row.next()) {
        places.push_back({ThreadId{row.whole(0)}, row.whole(1)});
    }
    return places;
}

} // namespace

std::vector<qint64> makeRoom(const Connection& connection, CardId card,
                             const std::vector<std::pair<std::size_t, ThreadId>>& additions) {
    std::vector<qint64> positions;
    if (additions.empty()) {
        return positions;
    }
    Statement end(connection, QStringLiteral("SELECT count(*), coalesce(max(position), -1) "
                                             "FROM thread WHERE card = ?"));
    end.run(card);
    if (end.next() && additions.front().first >= static_cast<std::size_t>(end.whole(0))) {
        for (std::size_t i = 0; i < additions.size(); ++i) {
            positions.push_back(end.whole(1) + 1 + static_cast<qint64>(i));
        }
        return positions;
    }

    std::vector<std::pair<std::size_t, Place>> added;
    std::ranges::transform(additions, std::back_inserter(added), [](const auto& addition) {
        return std::pair(addition.first, Place{addition.second, std::nullopt});
    });
    Statement move(connection, QStringLiteral("UPDATE thread SET position = ? WHERE id = ?"));
    qint64 last = -1;
    for (const Place& place : inserted(placesOf(connection, card), std::move(added))) {
        const qint64 position = std::max(place.position.value_or(last + 1), last + 1);
        if (!place.position) {
            positions.push_back(position);
        } else if (position != *place.position) {
            move.run(position, place.id);
        }
        last = position;
    }
    return positions;
}

} // namespace otherskein::workbox::detail
