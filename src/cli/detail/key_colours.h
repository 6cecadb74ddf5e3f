#pragma once

#include "chart/key.h"
#include "chart/neighbours.h"
#include "thread/shade_card.h"

#include <optional>
#include <span>
#include <vector>

namespace otherskein::cli {

/// A chart's key, and what touches what where its picture is known.
struct KeyOfChart {
    chart::Key key;
    std::vector<chart::Neighbours> touching;
};

/// The key at `path`; rows whose thread is on one of `cards` take its measured colour, the others
/// keep the colour of their pixel. With the chart's picture, stitches are counted in it.
/// Errors: InputError.
[[nodiscard]] KeyOfChart keyOfChart(const QString& path, const std::optional<QString>& picture,
                                    std::span<const thread::ShadeCard* const> cards);

} // namespace otherskein::cli
