#include "cli/detail/key_colours.h"

#include "chart/chart_files.h"
#include "colourway/key_threads.h"

namespace otherskein::cli {

KeyOfChart keyOfChart(const QString& path, const std::optional<QString>& picture,
                      std::span<const thread::ShadeCard* const> cards) {
    KeyOfChart read;
    if (picture) {
        chart::Chart chart = chart::readChart({*picture, path});
        read.touching = chart::neighboursOf(chart.grid, chart.key.size());
        read.key = std::move(chart.key);
    } else {
        read.key = chart::readKey(path);
    }
    read.key = colourway::withThreadColours(std::move(read.key), cards);
    return read;
}

} // namespace otherskein::cli
