#pragma once

#include "cli/detail/command_line.h"
#include "thread/ground.h"

#include <vector>

namespace otherskein::cli {

/// The grounds of every --ground: a colour, or a ground of the workbox by its name; --count and
/// --over stand before what the workbox says. The workbox is opened only when a word is no colour,
/// and never made. Errors: InputError.
[[nodiscard]] std::vector<thread::Ground> groundsOf(const CommandLine& line, const Call& call);

} // namespace otherskein::cli
