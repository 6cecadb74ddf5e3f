#include "cli/detail/answer.h"
#include "cli/detail/card_finder.h"
#include "cli/detail/chart_job.h"
#include "cli/detail/command_line.h"
#include "cli/detail/ground_answer.h"
#include "cli/detail/grounds_named.h"
#include "cli/detail/key_colours.h"
#include "cli/detail/values.h"
#include "colour/conversion.h"
#include "colourway/key_threads.h"

#include <QCoreApplication>

#include <algorithm>
#include <map>
#include <ostream>
#include <tuple>

namespace otherskein::cli {

namespace {

struct GroundTexts {
    Q_DECLARE_TR_FUNCTIONS(GroundCommand)
};

CommandLine groundLine() {
    CommandLine line(
        QStringLiteral("otherskein ground"),
        GroundTexts::tr("Tells which threads show on a fabric and which are lost, least "
                        "contrast first, by the colour\nthat thread and fabric make "
                        "together where crosses leave some fabric bare."));
    line.values(
        "--ground", GroundTexts::tr("GROUND"),
        GroundTexts::tr("the fabric: its colour as '#rrggbb', in quotes, or the name of a ground "
                        "in the workbox"));
    line.values("--from", GroundTexts::tr("CARD"),
                GroundTexts::tr("judge the threads of this card"));
    line.value("--key", GroundTexts::tr("KEY"),
               GroundTexts::tr("judge a chart's key instead; --from then gives measured colours"));
    line.value(
        "--chart", GroundTexts::tr("PNG"),
        GroundTexts::tr("the picture of --key's chart: threads without a stitch are left out"));
    line.value("--count", GroundTexts::tr("N"),
               GroundTexts::tr("holes per inch, 5 to 80; usually 36, or the ground's own"));
    line.value("--over", GroundTexts::tr("N"),
               GroundTexts::tr("over 1 or 2 fabric threads; usually 2, or the ground's own"));
    line.value("--strands", GroundTexts::tr("N"),
               GroundTexts::tr("strands in the needle, 1 to 12; usually 2, or as the key says"));
    line.value(
        "--ply-width", GroundTexts::tr("MM"),
        GroundTexts::tr("how wide one strand lies, 0.05 to 5; usually by fibre, cotton 0.4"));
    line.flag("--json", GroundTexts::tr("print one JSON document"));
    line.footer(GroundTexts::tr(
                    "The verdict goes by ΔE00 between what the eye sees and the bare fabric: "
                    "\"vanishes\" under %1,\n\"clear\" from %2, \"soft\" between. We chose these "
                    "limits from common practice; they are no standard.\n"
                    "CARD is a shade card file, or the name of a card in the workbox.\n\n"
                    "Example:\n"
                    "  otherskein ground --from cotton.csv --ground '#232c40' --count 36 --over 2 "
                    "--strands 1")
                    .arg(colourway::kVanishesBelow)
                    .arg(colourway::kClearFrom));
    return line;
}

void checkCombination(const CommandLine& line) {
    const auto refuse = [](const QString& expected, const QString& found) {
        throw badWord(QStringLiteral("otherskein ground"), expected, found);
    };
    if (!line.has("--ground")) {
        refuse(GroundTexts::tr("--ground with the fabric's colour, such as --ground '#232c40'"),
               GroundTexts::tr("none"));
    }
    if (!line.has("--from") && !line.has("--key")) {
        refuse(GroundTexts::tr("--from CARD or --key KEY"), GroundTexts::tr("neither"));
    }
    if (line.has("--chart") && !line.has("--key")) {
        refuse(GroundTexts::tr("--key along with --chart"), GroundTexts::tr("--chart alone"));
    }
}

/// Threads by the strands that they are worked with.
using ByStrands = std::map<int, std::vector<thread::PooledThread>>;

ByStrands threadsOfCards(const std::vector<const thread::ShadeCard*>& cards, int strands) {
    ByStrands threads;
    for (const thread::ShadeCard* card : cards) {
        std::ranges::move(thread::pooled(*card), std::back_inserter(threads[strands]));
    }
    return threads;
}

thread::Thread threadOfRow(const chart::KeyRow& row,
                           const std::vector<const thread::ShadeCard*>& cards) {
    if (const thread::Thread* known = colourway::threadOf(row, cards)) {
        return *known;
    }
    return thread::threadOfSrgb(row.code, row.name, row.pixel);
}

ByStrands threadsOfKey(const chart::Key& key, const std::vector<const thread::ShadeCard*>& cards,
                       std::optional<int> strands) {
    ByStrands threads;
    for (const chart::KeyRow& row : key) {
        const thread::Thread thread = threadOfRow(row, cards);
        threads[strands.value_or(row.strands)].push_back(
            {row.card, thread, colour::xyzFromLab(thread.lab)});
    }
    return threads;
}

std::vector<JudgedThread> judge(const ByStrands& threads, const thread::Ground& ground,
                                const colourway::PlyWidths& widths) {
    std::vector<JudgedThread> judged;
    for (const auto& [strands, worked] : threads) {
        for (colourway::OnGround& on : colourway::checkGround(worked, ground, strands, widths)) {
            const auto enough = colourway::strandsToCover(ground, widths.of(on.thread.thread),
                                                          colourway::kCovers, kMostStrandsInNeedle);
            judged.push_back({std::move(on), strands, enough});
        }
    }
    std::ranges::stable_sort(judged, {}, [](const JudgedThread& one) {
        return std::tie(one.on.de00, one.on.thread.card, one.on.thread.thread.code);
    });
    return judged;
}

/// A width given for all threads stands for every fibre, as one that was measured.
colourway::PlyWidths widthsOf(const CommandLine& line, const ByStrands& threads) {
    colourway::PlyWidths widths;
    if (line.has("--ply-width")) {
        const double width =
            numberOf(line, "--ply-width", colourway::kLeastPlyWidthMm, colourway::kMostPlyWidthMm);
        for (const auto& [strands, worked] : threads) {
            for (const thread::PooledThread& one : worked) {
                widths.measuredMm[one.thread.fibre.trimmed().toLower()] = width;
            }
        }
    }
    return widths;
}

} // namespace

void runGround(Call call) {
    CommandLine line = groundLine();
    if (!line.read(call)) {
        return;
    }
    checkCombination(line);
    const std::vector<thread::Ground> cloths = groundsOf(line, call);
    const int strands = wholeNumber(line, "--strands", 1, kMostStrandsInNeedle, 2);

    CardFinder finder(call);
    const auto cards = finder.openAll(line.words("--from"));
    ByStrands threads;
    if (const auto path = line.word("--key")) {
        chart::Key key = keyOfChart(*path, line.word("--chart"), cards).key;
        if (line.has("--chart")) {
            std::erase_if(key, [](const chart::KeyRow& row) { return row.stitches == 0; });
        }
        threads =
            threadsOfKey(key, cards, line.has("--strands") ? std::optional(strands) : std::nullopt);
    } else {
        threads = threadsOfCards(cards, strands);
    }
    const colourway::PlyWidths widths = widthsOf(line, threads);
    std::vector<JudgedGround> judged;
    for (const thread::Ground& cloth : cloths) {
        judged.push_back({cloth, judge(threads, cloth, widths)});
    }
    if (line.has("--json")) {
        print(call.out, groundsJson(judged));
        return;
    }
    print(call.out, groundsText(judged));
}

} // namespace otherskein::cli
