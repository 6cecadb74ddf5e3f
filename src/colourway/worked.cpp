#include "colourway/colourway.h"

#include <QHash>

#include <array>
#include <cmath>
#include <map>
#include <set>

namespace otherskein::colourway {

namespace {

constexpr std::size_t kNone = static_cast<std::size_t>(-1);

/// The part of each line: of a motif chart, the motif that the line runs along most, among those of
/// the line's own key row; none where it runs along none.
std::vector<std::size_t> partsOfLines(const chart::Chart& chart, const Parts& parts,
                                      const chart::Motifs* motifs) {
    std::vector<std::size_t> partOfRow(chart.key.size(), kNone);
    if (parts.by == By::Colour) {
        for (std::size_t i = 0; i < parts.parts.size(); ++i) {
            partOfRow[parts.parts[i].key] = i;
        }
    }
    std::vector<std::size_t> found;
    for (const chart::Line& line : chart.lines) {
        if (motifs == nullptr) {
            found.push_back(partOfRow[line.key]);
            continue;
        }
        std::map<chart::MotifIndex, int> votes;
        const int steps = std::max(std::abs(line.x2 - line.x1), std::abs(line.y2 - line.y1)) * 2;
        for (int step = 0; step <= steps; ++step) {
            const double t = static_cast<double>(step) / std::max(1, steps);
            const double x = (line.x1 + t * (line.x2 - line.x1)) / 2;
            const double y = (line.y1 + t * (line.y2 - line.y1)) / 2;
            for (const double dx : {-0.25, 0.25}) {
                for (const double dy : {-0.25, 0.25}) {
                    const chart::Cell cell{static_cast<int>(std::floor(x + dx)),
                                           static_cast<int>(std::floor(y + dy))};
                    if (chart.grid.contains(cell) && chart.grid.at(cell) == line.key) {
                        ++votes[motifs->at(cell)];
                    }
                }
            }
        }
        std::size_t most = kNone;
        int count = 0;
        for (const auto& [motif, votesFor] : votes) {
            if (votesFor > count) {
                count = votesFor;
                most = motif;
            }
        }
        found.push_back(most);
    }
    return found;
}

/// The nearest pixel to `wanted` that no row has yet.
colour::Srgb8 freePixel(const colour::Srgb8& wanted, std::set<std::array<int, 3>>& taken) {
    for (int reach = 0;; ++reach) {
        for (int r = -reach; r <= reach; ++r) {
            for (int g = -reach; g <= reach; ++g) {
                for (int b = -reach; b <= reach; ++b) {
                    const std::array<int, 3> pixel{wanted.r + r, wanted.g + g, wanted.b + b};
                    const bool onShell = std::max({std::abs(r), std::abs(g), std::abs(b)}) == reach;
                    const bool valid = std::ranges::all_of(
                        pixel, [](int value) { return value >= 0 && value <= 255; });
                    if (onShell && valid && taken.insert(pixel).second) {
                        return {static_cast<std::uint8_t>(pixel[0]),
                                static_cast<std::uint8_t>(pixel[1]),
                                static_cast<std::uint8_t>(pixel[2])};
                    }
                }
            }
        }
    }
}

/// "A" … "Z", then "A1" …; those that are taken are passed over.
QString freeSymbol(std::set<QString>& taken) {
    constexpr int kLetters = 26;
    for (int i = 0;; ++i) {
        QString symbol(QChar(u'A' + i % kLetters));
        if (i >= kLetters) {
            symbol += QString::number(i / kLetters);
        }
        if (taken.insert(symbol).second) {
            return symbol;
        }
    }
}

chart::KeyRow rowOf(const Choice& choice, const chart::KeyRow& charted) {
    chart::KeyRow row = charted;
    if (!choice.portions.empty()) {
        row.card = choice.card();
        row.code = choice.code();
        row.name = choice.name();
        row.strands = 0;
        for (const Choice::Portion& portion : choice.portions) {
            row.strands += portion.strands;
        }
    }
    row.lab = choice.lab;
    row.stitches = 0;
    return row;
}

} // namespace

chart::Chart worked(const chart::Chart& chart, const Parts& parts, const chart::Motifs* motifs,
                    const Colourway& colourway) {
    chart::Chart result;
    result.name = chart.name;
    std::set<QString> symbols;
    std::vector<Choice> kept;
    std::vector<chart::KeyIndex> rowOfPart;
    for (std::size_t i = 0; i < parts.parts.size(); ++i) {
        const Choice& choice = colourway.now[i];
        const auto same =
            std::ranges::find_if(kept, [&](const Choice& one) { return one.isSameAs(choice); });
        rowOfPart.push_back(static_cast<chart::KeyIndex>(same - kept.begin()));
        if (same == kept.end()) {
            kept.push_back(choice);
            result.key.push_back(rowOf(choice, chart.key[parts.parts[i].key]));
            if (parts.by == By::Motif) {
                result.key.back().symbol = freeSymbol(symbols);
            }
        }
    }

    const std::vector<std::size_t> partOfLine = partsOfLines(chart, parts, motifs);
    std::map<chart::KeyIndex, chart::KeyIndex> asCharted; // rows of lines along no motif
    for (std::size_t i = 0; i < chart.lines.size(); ++i) {
        chart::Line line = chart.lines[i];
        if (partOfLine[i] != kNone) {
            line.key = rowOfPart[partOfLine[i]];
        } else {
            const auto [found, added] =
                asCharted.try_emplace(line.key, static_cast<chart::KeyIndex>(result.key.size()));
            if (added) {
                result.key.push_back(chart.key[line.key]);
                result.key.back().stitches = 0;
                if (!symbols.insert(result.key.back().symbol).second) {
                    result.key.back().symbol = freeSymbol(symbols);
                }
            }
            line.key = found->second;
        }
        result.lines.push_back(line);
    }

    std::set<std::array<int, 3>> pixels;
    for (std::size_t i = 0; i < result.key.size(); ++i) {
        const colour::Srgb8 shown = i < kept.size() ? shownColour(kept[i]) : result.key[i].pixel;
        result.key[i].pixel = freePixel(shown, pixels);
    }

    std::vector<chart::KeyIndex> rowOfKey(chart.key.size(), chart::kBare);
    if (motifs == nullptr) {
        for (std::size_t i = 0; i < parts.parts.size(); ++i) {
            rowOfKey[parts.parts[i].key] = rowOfPart[i];
        }
    }
    const auto cells = chart.grid.cells();
    std::vector<chart::KeyIndex> stitched(cells.size(), chart::kBare);
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (cells[i] != chart::kBare) {
            stitched[i] = motifs == nullptr ? rowOfKey[cells[i]] : rowOfPart[motifs->of[i]];
        }
    }
    result.grid = chart::Grid(chart.grid.columns(), chart.grid.rows(), std::move(stitched));
    chart::recount(result);
    return result;
}

} // namespace otherskein::colourway
