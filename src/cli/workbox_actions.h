#pragma once

#include "cli/command.h"
#include "workbox/document.h"

#include <memory>

namespace otherskein::cli {

// What `workbox` can do. Errors: InputError.
void importCards(Call call);
void exportCard(Call call);
void listWorkbox(Call call);
void checkWorkbox(Call call);

/// The workbox of the call; one that is not there is an error, since looking must not make one.
[[nodiscard]] std::unique_ptr<workbox::Document> openWorkbox(const Call& call);

} // namespace otherskein::cli
