#include "chart/chart_files.h"
#include "cli/detail/answer.h"
#include "cli/detail/card_finder.h"
#include "cli/detail/chart_job.h"
#include "cli/detail/command_line.h"
#include "cli/detail/lengths.h"
#include "cli/detail/quantities_answer.h"
#include "cli/detail/values.h"

#include <QCoreApplication>

#include <cmath>
#include <numeric>
#include <ostream>

namespace otherskein::cli {

namespace {

struct QuantitiesTexts {
    Q_DECLARE_TR_FUNCTIONS(QuantitiesCommand)
};

constexpr int kMostStitchesOfASkein = 1'000'000;

CommandLine quantitiesLine() {
    using Texts = QuantitiesTexts;
    CommandLine line(
        QStringLiteral("otherskein quantities"),
        Texts::tr("Tells how much thread a chart takes, how many skeins to buy, how large "
                  "it gets and whether a\npiece of fabric is large enough."));
    addChartOptions(line);
    line.value("--count", Texts::tr("N"), Texts::tr("holes per inch, 5 to 80; usually 36"));
    line.value("--over", Texts::tr("N"), Texts::tr("over 1 or 2 fabric threads; usually 2"));
    line.value("--strands", Texts::tr("N"),
               Texts::tr("strands in the needle, 1 to 12; usually as the key says"));
    line.value("--line-strands", Texts::tr("N"),
               Texts::tr("strands for backstitch, 1 to 12; usually 1"));
    line.value("--waste", Texts::tr("PERCENT"),
               Texts::tr("thread on top for tails and ways, 0 to 200; usually 20"));
    line.value(
        "--one-skein", Texts::tr("N"),
        Texts::tr("instead of --waste: how many full crosses you got out of one skein of six "
                  "plies of 8 m"));
    line.value("--sample-count", Texts::tr("N"),
               Texts::tr("count of that skein's work; usually --count"));
    line.value("--sample-over", Texts::tr("N"), Texts::tr("over of that work; usually --over"));
    line.value("--sample-strands", Texts::tr("N"),
               Texts::tr("strands of that work; usually --strands, else 2"));
    line.value("--margin", Texts::tr("LENGTH"),
               Texts::tr("bare cloth on every side, such as 7.5cm; usually 3in"));
    line.values("--piece", Texts::tr("WxH"),
                Texts::tr("does it fit a piece of that size, such as 18x27in or 45x70cm"));
    line.flag("--json", Texts::tr("print one JSON document"));
    line.footer(Texts::tr(
        "One strand takes (2√2 + 2) sides of a stitch for a full cross, and 3 lengths for one of "
        "backstitch.\nCards given by --from or --known tell plies, length and stash.\n\n"
        "Example:\n"
        "  otherskein quantities --chart harbour.png --known cotton.csv --count 14 --over 1 "
        "--piece 18x27in"));
    return line;
}

void checkQuantitiesWords(const CommandLine& line) {
    const auto refuse = [](const QString& expected, const QString& found) {
        throw badWord(QStringLiteral("otherskein quantities"), expected, found);
    };
    if (!line.has("--chart")) {
        refuse(QuantitiesTexts::tr("--chart with a chart's picture"), QuantitiesTexts::tr("none"));
    }
    if (line.has("--waste") && line.has("--one-skein")) {
        refuse(QuantitiesTexts::tr("--waste or --one-skein"), QuantitiesTexts::tr("both"));
    }
    for (const char* sample : {"--sample-count", "--sample-over", "--sample-strands"}) {
        if (line.has(sample) && !line.has("--one-skein")) {
            refuse(
                QuantitiesTexts::tr("--one-skein along with %1").arg(QString::fromLatin1(sample)),
                QuantitiesTexts::tr("%1 alone").arg(QString::fromLatin1(sample)));
        }
    }
}

double wasteOf(const CommandLine& line, const colourway::Stitched& stitched) {
    constexpr double kMostPercent = 100 * colourway::kMostWaste;
    if (!line.has("--one-skein")) {
        return numberOf(line, "--waste", 0, kMostPercent, 20) / 100;
    }
    thread::Ground sample = stitched.ground;
    sample.count = wholeNumber(line, "--sample-count", thread::limits::kLeastCount,
                               thread::limits::kMostCount, sample.count);
    sample.over = wholeNumber(line, "--sample-over", 1, thread::limits::kMostOver, sample.over);
    const int strands = wholeNumber(line, "--sample-strands", 1, kMostStrandsInNeedle,
                                    stitched.strands.value_or(2));
    const int stitches = wholeNumber(line, "--one-skein", 1, kMostStitchesOfASkein, 1);
    const auto waste = colourway::wasteFromSkein(stitches, thread::Thread{}, sample, strands);
    if (!waste) {
        const double bare = 1000 * thread::Thread{}.lengthM * thread::Thread{}.strands /
                            (strands * colourway::crossMm(sample));
        throw badWord(QStringLiteral("--one-skein"),
                      QuantitiesTexts::tr("from %1 to %2 stitches on that ground")
                          .arg(std::ceil(bare / (1 + colourway::kMostWaste)), 0, 'f', 0)
                          .arg(std::floor(bare / (1 + colourway::kLeastWaste)), 0, 'f', 0),
                      QString::number(stitches));
    }
    return *waste;
}

} // namespace

void runQuantities(Call call) {
    CommandLine line = quantitiesLine();
    if (!line.read(call)) {
        return;
    }
    checkQuantitiesWords(line);
    QuantitiesAnswer answer;
    thread::Ground& ground = answer.stitched.ground;
    ground.count = wholeNumber(line, "--count", thread::limits::kLeastCount,
                               thread::limits::kMostCount, ground.count);
    ground.over = wholeNumber(line, "--over", 1, thread::limits::kMostOver, ground.over);
    if (line.has("--strands")) {
        answer.stitched.strands = wholeNumber(line, "--strands", 1, kMostStrandsInNeedle, 2);
    }
    answer.usage.waste = wasteOf(line, answer.stitched);
    answer.usage.lineStrands = wholeNumber(line, "--line-strands", 1, kMostStrandsInNeedle, 1);
    if (const auto margin = line.word("--margin")) {
        answer.marginMm = lengthMm(QStringLiteral("--margin"), *margin);
    }
    for (const QString& piece : line.words("--piece")) {
        answer.pieces.push_back(sizeMm(QStringLiteral("--piece"), piece));
    }
    CardFinder finder(call);
    const auto cards = knownCards(line, finder);
    const chart::Chart chart = chartOf(line);
    answer.columns = chart.grid.columns();
    answer.rows = chart.grid.rows();
    const auto stitches = chart::stitchCounts(chart.grid, chart.key.size());
    answer.stitches = std::accumulate(stitches.begin(), stitches.end(), 0);
    answer.quantities = colourway::quantitiesOf(chart, answer.stitched, answer.usage, cards);
    if (line.has("--json")) {
        print(call.out, quantitiesJson(answer));
        return;
    }
    print(call.out, quantitiesText(answer));
}

} // namespace otherskein::cli
