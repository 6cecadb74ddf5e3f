#pragma once

#include "colourway/ground_check.h"

#include <QJsonObject>
#include <QString>

#include <optional>
#include <vector>

namespace otherskein::cli {

/// A thread as judged on the ground, and the strands that it was judged with.
struct JudgedThread {
    colourway::OnGround on;
    int strands = 2;
    std::optional<int> strandsToCover; ///< fewest that cover 95 %; none where twelve do not
};

struct JudgedGround {
    thread::Ground ground;
    std::vector<JudgedThread> threads;
};

/// The contract's JSON for the first ground; with several of them, all under "grounds" besides.
[[nodiscard]] QJsonObject groundsJson(const std::vector<JudgedGround>& judged);

/// The same as tables for a terminal.
[[nodiscard]] QString groundsText(const std::vector<JudgedGround>& judged);

} // namespace otherskein::cli
