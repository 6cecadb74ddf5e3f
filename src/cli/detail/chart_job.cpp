#include "cli/detail/chart_job.h"

#include "chart/chart_files.h"
#include "cli/detail/similar.h"
#include "cli/detail/values.h"
#include "colour/srgb.h"

#include <QCoreApplication>

#include <algorithm>

namespace otherskein::cli {

namespace {

struct ChartJobTexts {
    Q_DECLARE_TR_FUNCTIONS(ChartJob)
};

constexpr int kMostSeed = 1'000'000'000;

} // namespace

void addChartOptions(CommandLine& line) {
    line.value("--chart", ChartJobTexts::tr("PNG"),
               ChartJobTexts::tr(
                   "the chart's picture, one pixel a stitch; C.lines.csv beside it is read"));
    line.value("--key", ChartJobTexts::tr("KEY"),
               ChartJobTexts::tr(
                   "the chart's key; usually C.key.csv beside the picture, if there is one"));
    line.values("--from", ChartJobTexts::tr("CARD"),
                ChartJobTexts::tr("take threads from this card"));
    line.values(
        "--known", ChartJobTexts::tr("CARD"),
        ChartJobTexts::tr("the charted threads' card, for their measured colours; else the key's "
                          "pixels count"));
}

void addThreadOptions(CommandLine& line) {
    line.values("--keep", ChartJobTexts::tr("CODE"),
                ChartJobTexts::tr("the part charted in CODE keeps it"));
    line.value("--ground", ChartJobTexts::tr("'#rrggbb'"),
               ChartJobTexts::tr("the fabric's colour, in quotes; usually white"));
    line.value("--count", ChartJobTexts::tr("N"),
               ChartJobTexts::tr("holes per inch, 5 to 80; usually 36"));
    line.value("--over", ChartJobTexts::tr("N"),
               ChartJobTexts::tr("over 1 or 2 fabric threads; usually 2"));
    line.value("--strands", ChartJobTexts::tr("N"),
               ChartJobTexts::tr("strands in the needle, 1 to 12; usually 2"));
    line.flag("--blend", ChartJobTexts::tr("also use two threads worked in one needle"));
    line.flag("--stash", ChartJobTexts::tr("only threads that you own"));
    line.flag("--in-stock",
              ChartJobTexts::tr("leave out what is sold out or discontinued, unless you own it"));
    line.value("--seed", ChartJobTexts::tr("N"),
               ChartJobTexts::tr("another seed, another answer; usually 1"));
    line.flag("--force", ChartJobTexts::tr("replace files that are there already"));
    line.flag("--json", ChartJobTexts::tr("print one JSON document"));
}

chart::Chart chartOf(const CommandLine& line) {
    chart::ChartPaths paths = chart::pathsBeside(*line.word("--chart"));
    if (const auto key = line.word("--key")) {
        paths.key = *key;
    }
    return chart::readChart(paths);
}

std::vector<const thread::ShadeCard*> knownCards(const CommandLine& line, CardFinder& finder) {
    return finder.openAll(line.words("--known") + line.words("--from"));
}

thread::Ground groundOf(const CommandLine& line) {
    constexpr colour::Srgb8 kWhite{0xff, 0xff, 0xff};
    const colour::Srgb8 srgb = line.has("--ground")
                                   ? colourOf(QStringLiteral("--ground"), *line.word("--ground"))
                                   : kWhite;
    thread::Ground ground = thread::groundOfSrgb(QString(), srgb);
    ground.count = wholeNumber(line, "--count", thread::limits::kLeastCount,
                               thread::limits::kMostCount, ground.count);
    ground.over = wholeNumber(line, "--over", 1, thread::limits::kMostOver, ground.over);
    return ground;
}

void readThreadOptions(const CommandLine& line, colourway::RecolourQuestion& question) {
    question.ground = groundOf(line);
    question.strands = wholeNumber(line, "--strands", 1, kMostStrandsInNeedle, 2);
    question.blends = line.has("--blend");
    if (question.blends && question.strands < 2) {
        throw badWord(QStringLiteral("--strands"), ChartJobTexts::tr("2 or more with --blend"),
                      QString::number(question.strands));
    }
    question.filter.onlyStash = line.has("--stash");
    question.filter.onlyInStock = line.has("--in-stock");
    question.seed = static_cast<std::uint64_t>(wholeNumber(line, "--seed", 1, kMostSeed, 1));
    // A command's answer should not lean on the stash unless it was asked to.
    question.stashFirst = false;
}

void keep(const QStringList& codes, const colourway::Subject& subject,
          colourway::RecolourQuestion& question) {
    QStringList known;
    for (std::size_t i = 0; i < subject.charted.size(); ++i) {
        const chart::KeyRow& row = subject.chart.key[subject.parts.parts[i].key];
        known << row.code << colour::toHex(row.pixel);
    }
    for (const QString& code : codes) {
        bool found = false;
        for (std::size_t i = 0; i < subject.charted.size(); ++i) {
            const chart::KeyRow& row = subject.chart.key[subject.parts.parts[i].key];
            if (code == row.code || code == colour::toHex(row.pixel)) {
                question.locks[i] = subject.charted[i];
                found = true;
            }
        }
        if (!found) {
            throw badWord(QStringLiteral("--keep"),
                          ChartJobTexts::tr("the code of a thread that the chart is stitched in"),
                          base::quotedForMessage(code) + similarHint(code, known));
        }
    }
}

base::Existing existingOf(const CommandLine& line) {
    return line.has("--force") ? base::Existing::Replace : base::Existing::Refuse;
}

} // namespace otherskein::cli
