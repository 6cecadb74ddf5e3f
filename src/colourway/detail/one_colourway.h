#pragma once

#include "colourway/recolour.h"

namespace otherskein::colourway {

/// Errors: InputError when the question cannot be answered at all.
void checkSubject(const Subject& subject, const RecolourQuestion& question,
                  const thread::ThreadPool& pool);

/// The pool without metallic and variegated threads, whose one reading says little of how they look
/// in a chart; nothing where the question asks for a finish, the chart calls for such a thread, or
/// there is none in the pool (then the pool itself serves).
[[nodiscard]] std::optional<thread::ThreadPool> plainThreads(const Subject& subject,
                                                             const RecolourQuestion& question,
                                                             const thread::ThreadPool& pool);

/// One variation of the question's theme; 0 is the theme as asked. Empty when stopped.
[[nodiscard]] std::optional<Colourway>
oneColourway(const Subject& subject, const RecolourQuestion& question,
             const thread::ThreadPool& pool, std::uint64_t variation, const Progress& progress);

} // namespace otherskein::colourway
