#pragma once

#include "app/substitute/substitute_state.h"

namespace otherskein::app {

/// The switches of a state as text for the workbox: what the user set, not the wanted thread and
/// the key, which the session keeps.
[[nodiscard]] QString rememberedText(const SubstituteState& state);

/// `text` read back onto `otherwise`; what it lacks or holds wrongly stays as in `otherwise`.
[[nodiscard]] SubstituteState rememberedState(const QString& text,
                                              const SubstituteState& otherwise);

} // namespace otherskein::app
