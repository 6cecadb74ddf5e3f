#include "chart/detail/motif_list.h"

#include <algorithm>

namespace otherskein::chart {

namespace {

struct Facts {
    MotifIndex label = 0;
    Cell first;
    int left = 0;
    int right = 0;
    int bottom = 0;
    int stitches = 0;
};

} // namespace

Motifs motifsOf(const Grid& grid, Labels labels, const std::map<MotifIndex, QString>& names) {
    std::vector<MotifIndex> factsOf(labels.next, kNoMotif);
    std::vector<Facts> facts;
    std::size_t i = 0;
    for (int y = 0; y < grid.rows(); ++y) {
        for (int x = 0; x < grid.columns(); ++x, ++i) {
            const MotifIndex label = labels.of[i];
            if (label == kNoMotif) {
                continue;
            }
            if (factsOf[label] == kNoMotif) {
                factsOf[label] = static_cast<MotifIndex>(facts.size());
                facts.push_back({label, {x, y}, x, x, y, 0});
            }
            Facts& one = facts[factsOf[label]];
            one.left = std::min(one.left, x);
            one.right = std::max(one.right, x);
            one.bottom = y;
            ++one.stitches;
        }
    }
    // The facts stand by `first` as they are, so by the top of their bounds too: a counting sort
    // by the left side, which keeps what is equal in order, is all that is missing.
    std::vector<MotifIndex> place(static_cast<std::size_t>(grid.columns()) + 1, 0);
    for (const Facts& one : facts) {
        ++place[static_cast<std::size_t>(one.left) + 1];
    }
    for (std::size_t x = 1; x < place.size(); ++x) {
        place[x] += place[x - 1];
    }
    Motifs result;
    result.columns = grid.columns();
    result.rows = grid.rows();
    result.motifs.resize(facts.size());
    for (const Facts& one : facts) {
        const MotifIndex at = place[static_cast<std::size_t>(one.left)]++;
        Motif& motif = result.motifs[at];
        motif.first = one.first;
        motif.bounds = {one.left, one.first.row, one.right - one.left + 1,
                        one.bottom - one.first.row + 1};
        motif.stitches = one.stitches;
        if (const auto name = names.find(one.label); name != names.end()) {
            motif.name = name->second;
        }
        factsOf[one.label] = at;
    }
    result.of = std::move(labels.of);
    for (MotifIndex& label : result.of) {
        label = label == kNoMotif ? kNoMotif : factsOf[label];
    }
    return result;
}

bool Motifs::isConsistent(const Grid& grid) const {
    if (columns != grid.columns() || rows != grid.rows() || of.size() != grid.cells().size()) {
        return false;
    }
    std::vector<Motif> counted(motifs.size());
    for (std::size_t i = 0; i < of.size(); ++i) {
        if ((of[i] == kNoMotif) != (grid.cells()[i] == kBare)) {
            return false;
        }
        if (of[i] == kNoMotif) {
            continue;
        }
        if (of[i] >= motifs.size()) {
            return false;
        }
        Motif& motif = counted[of[i]];
        const Cell cell = grid.cellAt(i);
        if (motif.stitches++ == 0) {
            motif.first = cell;
            motif.bounds = {cell.column, cell.row, 1, 1};
        }
        const int right = std::max(motif.bounds.left + motif.bounds.columns, cell.column + 1);
        motif.bounds.left = std::min(motif.bounds.left, cell.column);
        motif.bounds.columns = right - motif.bounds.left;
        motif.bounds.rows = cell.row - motif.bounds.top + 1;
    }
    for (std::size_t i = 0; i < motifs.size(); ++i) {
        counted[i].name = motifs[i].name;
        if (counted[i].stitches == 0 || !(counted[i] == motifs[i])) {
            return false;
        }
    }
    return true;
}

} // namespace otherskein::chart
