#include "chart/detail/pieces.h"

#include "chart/detail/joined.h"

namespace otherskein::chart {

Pieces findPieces(const Grid& grid, KeyBounds keyBounds) {
    const auto cells = grid.cells();
    const int columns = grid.columns();
    const auto width = static_cast<std::size_t>(columns);
    // Runs along the rows are joined with those above; one pass over cells, one over runs.
    struct Run {
        int from = 0;
        int to = 0; ///< last cell
        KeyIndex key = kBare;
    };
    std::vector<Run> runs;
    std::vector<std::size_t> rowStart;
    for (int y = 0; y < grid.rows(); ++y) {
        rowStart.push_back(runs.size());
        const auto row = cells.subspan(static_cast<std::size_t>(y) * width, width);
        for (int x = 0; x < columns;) {
            const KeyIndex key = row[static_cast<std::size_t>(x)];
            int end = x + 1;
            const auto goesOn = [&](KeyIndex next) {
                return keyBounds == KeyBounds::Kept ? next == key
                                                    : (next != kBare) == (key != kBare);
            };
            while (end < columns && goesOn(row[static_cast<std::size_t>(end)])) {
                ++end;
            }
            if (key != kBare) {
                runs.push_back({x, end - 1, key});
            }
            x = end;
        }
    }
    rowStart.push_back(runs.size());

    Joined joined(runs.size());
    for (std::size_t y = 1; y + 1 < rowStart.size(); ++y) {
        std::size_t above = rowStart[y - 1];
        for (std::size_t here = rowStart[y]; here < rowStart[y + 1]; ++here) {
            const Run& run = runs[here];
            while (above < rowStart[y] && runs[above].to < run.from - 1) {
                ++above;
            }
            for (std::size_t a = above; a < rowStart[y] && runs[a].from <= run.to + 1; ++a) {
                if (keyBounds == KeyBounds::Ignored || runs[a].key == run.key) {
                    joined.join(static_cast<std::uint32_t>(a), static_cast<std::uint32_t>(here));
                }
            }
        }
    }

    Pieces pieces;
    pieces.of.assign(cells.size(), kNoMotif);
    std::vector<MotifIndex> nameOf(runs.size(), kNoMotif);
    for (std::size_t y = 0; y + 1 < rowStart.size(); ++y) {
        for (std::size_t i = rowStart[y]; i < rowStart[y + 1]; ++i) {
            const Run& run = runs[i];
            const std::size_t start = y * width + static_cast<std::size_t>(run.from);
            MotifIndex& name = nameOf[joined.find(static_cast<std::uint32_t>(i))];
            if (name == kNoMotif) {
                name = static_cast<MotifIndex>(pieces.sizes.size());
                pieces.sizes.push_back(0);
                pieces.first.push_back(start);
            }
            const auto length = static_cast<std::size_t>(run.to - run.from + 1);
            std::fill_n(pieces.of.begin() + static_cast<std::ptrdiff_t>(start), length, name);
            pieces.sizes[name] += static_cast<std::uint32_t>(length);
        }
    }
    return pieces;
}

} // namespace otherskein::chart
