#include "app/recolour/colourway_rows.h"

#include "app/recolour/part_words.h"
#include "colour/difference_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace otherskein::app {

namespace {

struct ColourwayRows {
    Q_DECLARE_TR_FUNCTIONS(ColourwayRows)
};

QString labelOf(const colourway::Subject& subject, const std::vector<std::size_t>& parts) {
    return parts.size() == 1
               ? partName(subject, parts.front())
               : ColourwayRows::tr("%n motifs", nullptr, static_cast<int>(parts.size()));
}

} // namespace

std::vector<ColourwayRow> rowsOf(const colourway::Subject& subject,
                                 const std::vector<colourway::Choice>& now,
                                 const std::map<std::size_t, colourway::Choice>& locks) {
    const bool grouped =
        subject.parts.by == colourway::By::Motif && subject.parts.parts.size() > kMostMotifRows;
    std::vector<ColourwayRow> rows;
    for (std::size_t i = 0; i < now.size(); ++i) {
        auto row = grouped ? std::ranges::find_if(rows,
                                                  [&](const ColourwayRow& one) {
                                                      return one.now.isSameAs(now[i]) &&
                                                             one.was.isSameAs(subject.charted[i]);
                                                  })
                           : rows.end();
        if (row == rows.end()) {
            ColourwayRow made;
            made.byMotif = subject.parts.by == colourway::By::Motif;
            made.was = subject.charted[i];
            made.now = now[i];
            made.de00 = colour::deltaE00(made.was.lab, made.now.lab);
            made.words = made.was.isSameAs(made.now)
                             ? ColourwayRows::tr("As charted")
                             : colour::differenceInWords(made.was.lab, made.now.lab);
            row = rows.insert(rows.end(), std::move(made));
        }
        row->parts.push_back(i);
        row->stitches += subject.parts.parts[i].stitches;
        row->locked += locks.contains(i) ? 1 : 0;
    }
    for (ColourwayRow& row : rows) {
        row.label = labelOf(subject, row.parts);
        row.origin = subject.parts.by == colourway::By::Motif
                         ? row.label
                         : ColourwayRows::tr("was %1").arg(codeText(row.was));
    }
    if (grouped) {
        std::ranges::stable_sort(rows, std::greater{}, &ColourwayRow::stitches);
    }
    return rows;
}

} // namespace otherskein::app
