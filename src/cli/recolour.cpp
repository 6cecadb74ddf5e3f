#include "chart/chart_files.h"
#include "cli/detail/answer.h"
#include "cli/detail/chart_job.h"
#include "cli/detail/recolour_answer.h"
#include "cli/detail/similar.h"
#include "cli/detail/values.h"
#include "colourway/main_colours.h"

#include <QCoreApplication>
#include <QImageReader>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace otherskein::cli {

namespace {

struct RecolourTexts {
    Q_DECLARE_TR_FUNCTIONS(RecolourCommand)
};

constexpr double kUsualFloor = 12;
constexpr int kMostFloor = 60;

CommandLine recolourLine() {
    CommandLine line(
        QStringLiteral("otherskein recolour"),
        RecolourTexts::tr("Gives a chart other colours: a chart drawn in one colour many, or "
                          "a chart a new colour family."));
    addChartOptions(line);
    line.value(
        "--by", RecolourTexts::tr("PART"),
        RecolourTexts::tr("colour: each row of the key changes; motif: each boathouse of a row. "
                          "Usually motif for a chart in one colour, else colour"));
    line.value("--motifs", RecolourTexts::tr("STEP"),
               RecolourTexts::tr("few to many motifs, 0 to 10; usually %1").arg(chart::kUsualStep));
    line.value(
        "--hue", RecolourTexts::tr("H"),
        RecolourTexts::tr("one family: the CIELAB hue angle, 0 to 360 (about 30 red, 90 yellow, "
                          "150 green, 270 blue)"));
    line.flag("--neutrals",
              RecolourTexts::tr("with --hue: blacks, greys and whites take a tint too"));
    line.value("--like", RecolourTexts::tr("PICTURE"),
               RecolourTexts::tr("the main colours of this picture instead"));
    line.values("--with", RecolourTexts::tr("CODE"),
                RecolourTexts::tr("a thread that must be among the colours of the motifs"));
    line.value("--colours", RecolourTexts::tr("N"),
               RecolourTexts::tr("at most N different threads"));
    line.value("--floor", RecolourTexts::tr("DE00"),
               RecolourTexts::tr("neighbouring motifs differ by at least so much; usually %1")
                   .arg(kUsualFloor));
    addThreadOptions(line);
    line.value("--out", RecolourTexts::tr("PNG"),
               RecolourTexts::tr("write the new chart's picture here"));
    line.value("--out-key", RecolourTexts::tr("CSV"), RecolourTexts::tr("and its key here"));
    line.footer(
        RecolourTexts::tr("CARD is a shade card file, or the name of a card in the workbox.\n"
                          "A chart is its designer's: share the thread list, not the chart.\n\n"
                          "Example:\n"
                          "  otherskein recolour --chart row.png --from cotton.csv --by motif \\\n"
                          "      --colours 9 --out many.png --out-key many.key.csv"));
    return line;
}

void checkRecolourWords(const CommandLine& line) {
    const auto refuse = [](const QString& expected, const QString& found) {
        throw badWord(QStringLiteral("otherskein recolour"), expected, found);
    };
    if (!line.has("--chart")) {
        refuse(RecolourTexts::tr("--chart with the chart's picture"), RecolourTexts::tr("none"));
    }
    if (!line.has("--from")) {
        refuse(RecolourTexts::tr("at least one --from CARD"), RecolourTexts::tr("none"));
    }
    if (line.has("--out") != line.has("--out-key")) {
        refuse(RecolourTexts::tr("--out and --out-key together"), RecolourTexts::tr("one of them"));
    }
    if (!line.has("--out") && !line.has("--json")) {
        refuse(RecolourTexts::tr("--out and --out-key, or --json"), RecolourTexts::tr("none"));
    }
    if (line.has("--hue") && line.has("--like")) {
        refuse(RecolourTexts::tr("either --hue or --like"), RecolourTexts::tr("both"));
    }
    if (line.has("--with") && (line.has("--hue") || line.has("--like"))) {
        refuse(RecolourTexts::tr("--with without --hue and --like"), RecolourTexts::tr("both"));
    }
    if (line.has("--neutrals") && !line.has("--hue")) {
        refuse(RecolourTexts::tr("--hue along with --neutrals"),
               RecolourTexts::tr("--neutrals alone"));
    }
}

colourway::By byOf(const CommandLine& line, const chart::Chart& chart) {
    const auto word = line.word("--by");
    if (!word) {
        const auto stitched = std::ranges::count_if(
            chart.key, [](const chart::KeyRow& row) { return row.stitches > 0; });
        return stitched == 1 ? colourway::By::Motif : colourway::By::Colour;
    }
    if (*word == QStringLiteral("colour")) {
        return colourway::By::Colour;
    }
    if (*word == QStringLiteral("motif")) {
        return colourway::By::Motif;
    }
    throw badWord(QStringLiteral("--by"), RecolourTexts::tr("colour or motif"),
                  base::quotedForMessage(*word));
}

QImage pictureOf(const QString& path) {
    // A photograph of any camera of today; more would only be made smaller (ours).
    constexpr int kMostMegabytes = 1024;
    QImageReader::setAllocationLimit(kMostMegabytes);
    QImageReader reader(path);
    reader.setAutoTransform(true);
    const QImage picture = reader.read();
    if (picture.isNull()) {
        throw base::InputError({path,
                                std::nullopt,
                                {},
                                RecolourTexts::tr("a picture (PNG or JPEG)"),
                                reader.errorString()});
    }
    return picture;
}

colourway::Theme themeOf(const CommandLine& line) {
    if (line.has("--hue")) {
        colourway::HueFamily family;
        family.hue = numberOf(line, "--hue", 0, 360);
        family.neutralsToo = line.has("--neutrals");
        return family;
    }
    if (const auto path = line.word("--like")) {
        constexpr std::size_t kMostColours = 12;
        colourway::FromPicture theme;
        for (const colourway::MainColour& main :
             colourway::mainColours(pictureOf(*path), kMostColours)) {
            theme.colours.push_back(main.lab);
        }
        if (theme.colours.empty()) {
            throw base::InputError({*path,
                                    std::nullopt,
                                    {},
                                    RecolourTexts::tr("a picture with something on it"),
                                    RecolourTexts::tr("clear pixels only")});
        }
        return theme;
    }
    return colourway::Surprise{};
}

/// The threads of --with, each on the first card that has its code.
colourway::FromThreads threadsAskedFor(const QStringList& codes,
                                       const std::vector<const thread::ShadeCard*>& cards) {
    colourway::FromThreads theme;
    for (const QString& code : codes) {
        const auto card = std::ranges::find_if(cards, [&](const thread::ShadeCard* one) {
            return thread::findThread(*one, code) != nullptr;
        });
        if (card == cards.end()) {
            QStringList known;
            for (const thread::ShadeCard* one : cards) {
                for (const thread::Thread& thread : one->threads) {
                    known << thread.code;
                }
            }
            throw badWord(QStringLiteral("--with"),
                          RecolourTexts::tr("the code of a thread on a card of --from"),
                          base::quotedForMessage(code) + similarHint(code, known));
        }
        theme.wanted.emplace_back((*card)->name, code);
    }
    return theme;
}

} // namespace

void runRecolour(Call call) {
    CommandLine line = recolourLine();
    if (!line.read(call)) {
        return;
    }
    checkRecolourWords(line);
    colourway::RecolourQuestion question;
    question.theme = themeOf(line);
    question.colours = wholeNumber(line, "--colours", 1, static_cast<int>(chart::kMostKeyRows), 0);
    question.floor = numberOf(line, "--floor", 0, kMostFloor, kUsualFloor);
    readThreadOptions(line, question);
    chart::MotifPlan plan;
    plan.step = wholeNumber(line, "--motifs", 0, chart::kMotifSteps - 1, plan.step);

    const chart::Chart chart = chartOf(line);
    question.by = byOf(line, chart);
    CardFinder finder(call);
    const auto cards = finder.openAll(line.words("--from"));
    if (line.has("--with")) {
        question.theme = threadsAskedFor(line.words("--with"), cards);
        if (question.by == colourway::By::Colour) {
            throw badWord(QStringLiteral("--with"), RecolourTexts::tr("--by motif along with it"),
                          RecolourTexts::tr("a chart that is recoloured by colour"));
        }
    }
    const auto subject = colourway::subjectOf(chart, question.by, plan, knownCards(line, finder));
    keep(line.words("--keep"), *subject, question);
    const auto pool = colourway::poolOf(cards, question.filter);
    const auto colourway = colourway::recolour(*subject, question, *pool);

    if (line.has("--out")) {
        chart::writeChart(colourway::workedChart(*subject, *colourway), *line.word("--out"),
                          *line.word("--out-key"), existingOf(line));
    }
    if (line.has("--json")) {
        print(call.out, recolourJson(*subject, *colourway, {}));
    } else {
        print(call.out, recolourText(*subject, *colourway, {}));
    }
}

} // namespace otherskein::cli
