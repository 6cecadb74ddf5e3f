#pragma once

#include "chart/key.h"
#include "thread/shade_card.h"

#include <span>

namespace otherskein::colourway {

/// The thread that a key row names, or null: same code, and same card where the row names one.
[[nodiscard]] const thread::Thread* threadOf(const chart::KeyRow& row,
                                             std::span<const thread::ShadeCard* const> cards);

/// The key with each row's colour taken from its thread, where one of the cards has it; the others
/// keep the colour of their pixel.
[[nodiscard]] chart::Key withThreadColours(chart::Key key,
                                           std::span<const thread::ShadeCard* const> cards);

} // namespace otherskein::colourway
