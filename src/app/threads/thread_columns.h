#pragma once

#include "app/threads/thread_item.h"

namespace otherskein::app {

/// The table's columns; a card's own columns follow after the last.
enum class Column {
    Colour,
    Difference, ///< ΔE00 to the colour searched for
    Code,
    Name,
    Card,
    L,
    A,
    B,
    Fibre,
    Finish,
    Plies,
    Length,
    Stash,
    Stock,
    Lot,
    Spread,
    Note
};
inline constexpr int kFixedColumns = static_cast<int>(Column::Note) + 1;

[[nodiscard]] constexpr int indexOf(Column column) {
    return static_cast<int>(column);
}
[[nodiscard]] constexpr bool columnIs(int index, Column column) {
    return index == indexOf(column);
}

[[nodiscard]] QString columnTitle(Column column);
[[nodiscard]] bool isNumberColumn(int column);
[[nodiscard]] bool isEditableColumn(int column);

/// What a cell shows.
[[nodiscard]] QString cellText(const ThreadItem& item, int column);
/// What sorting goes by in a column of numbers; an empty cell comes before all.
[[nodiscard]] double cellNumber(const ThreadItem& item, int column);
/// What an editor of the cell begins with.
[[nodiscard]] QString cellEntry(const thread::Thread& thread, int column);

/// `thread` with one cell as the user typed it. Text that equals cellEntry changes nothing, so
/// that a number shown with two digits keeps those behind them. A decimal comma and a typographic
/// minus are understood. Errors: InputError naming `card` and the column.
[[nodiscard]] thread::Thread withCell(const thread::Thread& thread, int column, const QString& text,
                                      const QString& card);

/// `#rrggbb`, with or without the sign. Errors: InputError naming `card`.
[[nodiscard]] colour::Srgb8 typedColour(const QString& text, const QString& card);

/// The words for finish and stock that the user reads; "not stated" for Unstated.
[[nodiscard]] QString shownWord(thread::Finish finish);
[[nodiscard]] QString shownWord(thread::Stock stock);
/// `value` with the trade's minus sign and `digits` behind the point.
[[nodiscard]] QString shownNumber(double value, int digits);
/// L* 38.2  a* −4.1  b* −17.6
[[nodiscard]] QString shownLab(const colour::Lab& lab);
/// "1.5 skeins in the stash"; empty when there are none.
[[nodiscard]] QString shownStash(const thread::Thread& thread);
/// "1 thread", "420 threads".
[[nodiscard]] QString shownCount(int threads);
/// All that a tooltip or a screen reader says of a thread.
[[nodiscard]] QString description(const ThreadItem& item, const QString& separator);

} // namespace otherskein::app
