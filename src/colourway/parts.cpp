#include "colourway/parts.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace otherskein::colourway {

namespace {

double cellsLong(const chart::Line& line) {
    return std::hypot(line.x2 - line.x1, line.y2 - line.y1) / 2;
}

/// Of the line's length, what has bare ground on both sides. Looked at every quarter of a cell.
double bareCellsLong(const chart::Line& line, const chart::Grid& grid) {
    const double length = cellsLong(line);
    const int steps = std::max(1, static_cast<int>(std::ceil(length * 4)));
    const auto isBare = [&](double x, double y) {
        const chart::Cell cell{static_cast<int>(std::floor(x)), static_cast<int>(std::floor(y))};
        return !grid.contains(cell) || grid.at(cell) == chart::kBare;
    };
    int bare = 0;
    for (int step = 0; step < steps; ++step) {
        const double t = (step + 0.5) / steps;
        const double x = (line.x1 + t * (line.x2 - line.x1)) / 2;
        const double y = (line.y1 + t * (line.y2 - line.y1)) / 2;
        constexpr double kBeside = 0.25;
        bare += isBare(x - kBeside, y - kBeside) && isBare(x + kBeside, y - kBeside) &&
                        isBare(x - kBeside, y + kBeside) && isBare(x + kBeside, y + kBeside)
                    ? 1
                    : 0;
    }
    return length * bare / steps;
}

} // namespace

Parts partsByColour(const chart::Chart& chart) {
    std::vector<Part> rows(chart.key.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        rows[i].key = static_cast<chart::KeyIndex>(i);
        rows[i].label = chart.key[i].symbol;
    }
    const auto cells = std::as_const(chart.grid).cells();
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (cells[i] != chart::kBare) {
            Part& part = rows[cells[i]];
            if (part.stitches++ == 0) {
                part.first = chart.grid.cellAt(i);
            }
        }
    }
    for (const chart::Line& line : chart.lines) {
        rows[line.key].lineCells += cellsLong(line);
        rows[line.key].bareLineCells += bareCellsLong(line, chart.grid);
    }

    constexpr std::size_t kLeftOut = static_cast<std::size_t>(-1);
    std::vector<std::size_t> placeOf(rows.size(), kLeftOut);
    Parts parts;
    parts.by = By::Colour;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (rows[i].stitches > 0 || rows[i].lineCells > 0) {
            placeOf[i] = parts.parts.size();
            parts.parts.push_back(rows[i]);
        }
    }
    for (chart::Neighbours pair : chart::neighboursOf(chart.grid, chart.key.size())) {
        pair.one = placeOf[pair.one];
        pair.other = placeOf[pair.other];
        parts.neighbours.push_back(pair);
    }
    return parts;
}

Parts partsByMotif(const chart::Chart& chart, const chart::Motifs& motifs) {
    Parts parts;
    parts.by = By::Motif;
    for (const chart::Motif& motif : motifs.motifs) {
        parts.parts.push_back(
            {chart.grid.at(motif.first), motif.stitches, motif.first, motif.name, 0, 0});
    }
    parts.neighbours = chart::neighboursOf(motifs);
    return parts;
}

std::vector<double> sharesOf(const Parts& parts) {
    // A highlight of forty stitches is small but seen: every part counts for at least a hundredth.
    constexpr double kLeastShare = 0.01;
    std::vector<double> shares;
    shares.reserve(parts.parts.size());
    const double all = std::transform_reduce(parts.parts.begin(), parts.parts.end(), 0.0,
                                             std::plus<>{}, [](const Part& p) { return p.size(); });
    for (const Part& part : parts.parts) {
        shares.push_back(std::max(kLeastShare, all > 0 ? part.size() / all : 0));
    }
    const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
    for (double& share : shares) {
        share /= sum;
    }
    return shares;
}

} // namespace otherskein::colourway
