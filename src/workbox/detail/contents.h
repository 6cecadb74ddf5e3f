#pragma once

#include "workbox/store.h"

namespace otherskein::workbox::detail {

/// Whether `edit` starts from what `contents` holds: all that it changes or takes away is there as
/// its `before` says, and nothing that it adds is there yet.
[[nodiscard]] bool fits(const Contents& contents, const Edit& edit);

/// Carries out in memory what Store::apply does in the file. `edit` fits (asserted).
void carryOut(Contents& contents, const Edit& edit);

[[nodiscard]] StoredCard* find(std::vector<StoredCard>& cards, CardId id);
[[nodiscard]] const StoredCard* find(const std::vector<StoredCard>& cards, CardId id);
[[nodiscard]] const StoredGround* find(const std::vector<StoredGround>& grounds, GroundId id);

} // namespace otherskein::workbox::detail
