#pragma once

#include "colourway/recolour.h"

namespace otherskein::colourway {

/// Errors: InputError when the question cannot be answered at all.
void checkSubject(const Subject& subject, const RecolourQuestion& question,
                  const thread::ThreadPool& pool);

/// One variation of the question's theme; 0 is the theme as asked. Empty when stopped.
[[nodiscard]] std::optional<Colourway>
oneColourway(const Subject& subject, const RecolourQuestion& question,
             const thread::ThreadPool& pool, std::uint64_t variation, const Progress& progress);

} // namespace otherskein::colourway
