#pragma once

#include "trace/detail/key_lines.h"

namespace otherskein::trace::detail {

/// What the words of a key's line say.
struct KeySaying {
    KeyProposal proposal;
    std::vector<int> numbers;  ///< beside code and name: strands, counts of stitches …
    bool codeIsNumber = false; ///< the code is a number after the name, which may be a count
};

/// What each line says, as the lines of a table say it alike.
[[nodiscard]] std::vector<KeySaying> sayingsOf(const std::vector<KeyLine>& lines);

} // namespace otherskein::trace::detail
