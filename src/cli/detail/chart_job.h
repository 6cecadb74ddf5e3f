#pragma once

#include "base/whole_file.h"
#include "cli/detail/card_finder.h"
#include "cli/detail/command_line.h"
#include "colourway/recolour.h"

#include <memory>

namespace otherskein::cli {

// What `recolour` and `convert` share: the words about chart, cards, ground and output.

void addChartOptions(CommandLine& line);
void addThreadOptions(CommandLine& line);

/// The chart of --chart, --key and what lies beside. Errors: InputError.
[[nodiscard]] chart::Chart chartOf(const CommandLine& line);

/// The cards that may know the charted threads: those of --known and of --from.
[[nodiscard]] std::vector<const thread::ShadeCard*> knownCards(const CommandLine& line,
                                                               CardFinder& finder);

/// The ground of --ground, --count, --over; white evenweave when none is given.
[[nodiscard]] thread::Ground groundOf(const CommandLine& line);

/// Strands, ground, filter, blends, colours, seed of `question`.
void readThreadOptions(const CommandLine& line, colourway::RecolourQuestion& question);

/// Locks the parts whose thread is one of `codes`. Errors: InputError for a code that no part has.
void keep(const QStringList& codes, const colourway::Subject& subject,
          colourway::RecolourQuestion& question);

/// What may replace files.
[[nodiscard]] base::Existing existingOf(const CommandLine& line);

} // namespace otherskein::cli
