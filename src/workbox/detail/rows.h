#pragma once

#include "workbox/detail/sql.h"
#include "workbox/store.h"

#include <array>

namespace otherskein::workbox::detail {

/// How threads, grounds and lists of text stand in the tables. Readers throw InputError (damaged)
/// for a value that no program of ours wrote.

/// The columns of a thread's own values, in the order of `threadValues`.
inline constexpr const char* kThreadColumns =
    "code, name, L, a, b, entered, fibre, finish, strands, length_m, stash, stock, lot, spread, "
    "note, extra";
inline constexpr int kThreadColumnCount = 16;
[[nodiscard]] std::array<QVariant, kThreadColumnCount> threadValues(const thread::Thread& thread);
[[nodiscard]] thread::Thread threadAt(const Statement& row, int firstColumn);

inline constexpr const char* kGroundColumns =
    "name, L, a, b, shown, thread_count, over_threads, weave, width_mm, height_mm, photo";
inline constexpr int kGroundColumnCount = 11;
[[nodiscard]] std::array<QVariant, kGroundColumnCount> groundValues(const thread::Ground& ground);
[[nodiscard]] thread::Ground groundAt(const Statement& row, int firstColumn);

/// A JSON array of strings.
[[nodiscard]] QString listText(const std::vector<QString>& list);
[[nodiscard]] std::vector<QString> listAt(const Statement& row, int column);

[[nodiscard]] std::vector<StoredCard> readCards(const Connection& connection);
[[nodiscard]] std::vector<StoredGround> readGrounds(const Connection& connection);

} // namespace otherskein::workbox::detail
