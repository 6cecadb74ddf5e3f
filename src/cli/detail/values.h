#pragma once

#include "cli/detail/command_line.h"
#include "colour/difference.h"
#include "colour/srgb.h"
#include "thread/thread.h"

namespace otherskein::cli {

// What an option's word means. Errors: InputError naming the option, what it takes and what it got.

[[nodiscard]] int wholeNumber(const CommandLine& line, const std::string& option, int least,
                              int most, int otherwise);
[[nodiscard]] double numberOf(const CommandLine& line, const std::string& option, double least,
                              double most, double otherwise = 0);
[[nodiscard]] colour::Srgb8 colourOf(const QString& option, const QString& word);
[[nodiscard]] colour::Weights weightsOf(const QString& option, const QString& word);
[[nodiscard]] thread::Finish finishOf(const QString& option, const QString& word);

/// Strands in the needle: more than 12 is no stitch on any fabric (ours).
inline constexpr int kMostStrandsInNeedle = 12;

} // namespace otherskein::cli
