#pragma once

#include "thread/shade_card.h"

namespace otherskein::thread {

/// Reads a shade card as CSV.
///
/// Grammar: base/csv.h, with a header row. Required: `code`, `name`, and `srgb` or all of `L`, `a`,
/// `b`. Optional: fibre, finish, strands, length_m, stash, stock, lot, spread, note. Column names
/// are matched to the letter; others are kept as they are. An empty optional cell takes its
/// default. A row that has Lab uses it; else it needs srgb. Blanks around codes, colours and
/// numbers are dropped.
///
/// Errors: InputError with row and column: a required column missing, a doubled column, a header
/// without rows, an empty or doubled code, a colour that is missing, malformed or out of range, a
/// number out of its range, an unknown finish or stock word.
[[nodiscard]] ShadeCard parseShadeCardCsv(const QByteArray& bytes, const QString& source);

/// The columns that the contract knows, in its order.
[[nodiscard]] const std::vector<QString>& knownColumns();

} // namespace otherskein::thread
