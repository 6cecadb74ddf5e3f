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
};

/// The contract's JSON.
[[nodiscard]] QJsonObject groundJson(const thread::Ground& ground,
                                     const std::vector<JudgedThread>& threads);

/// The same as a table for a terminal.
[[nodiscard]] QString groundText(const thread::Ground& ground,
                                 const std::vector<JudgedThread>& threads);

} // namespace otherskein::cli
