#pragma once

#include "chart/key.h"
#include "thread/shade_card.h"

#include <span>

namespace otherskein::cli {

/// The key at `path`. Rows whose thread is on one of `cards` take its measured colour; the others
/// keep the colour of their pixel. Errors: InputError.
[[nodiscard]] chart::Key keyWithColours(const QString& path,
                                        std::span<const thread::ShadeCard* const> cards);

/// Sees that `path` is a PNG. Its picture is not looked at: nothing here can read charts yet.
/// Errors: InputError.
void checkChartPicture(const QString& path);

/// Said wherever `--chart` is taken.
[[nodiscard]] QString chartNote();

} // namespace otherskein::cli
