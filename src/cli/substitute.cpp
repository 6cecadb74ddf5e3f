#include "cli/detail/answer.h"
#include "cli/detail/card_finder.h"
#include "cli/detail/command_line.h"
#include "cli/detail/key_colours.h"
#include "cli/detail/substitute_answer.h"
#include "cli/detail/values.h"
#include "colour/conversion.h"

#include <QCoreApplication>

#include <ostream>

namespace otherskein::cli {

namespace {

struct SubstituteTexts {
    Q_DECLARE_TR_FUNCTIONS(SubstituteCommand)
};

constexpr int kMostCandidates = 1000;

CommandLine substituteLine() {
    CommandLine line(
        QStringLiteral("otherskein substitute"),
        SubstituteTexts::tr("Lists the threads, and with --blend the blends of two, that come "
                            "nearest to a wanted\ncolour, nearest first."));
    line.value("--wanted", SubstituteTexts::tr("CARD:CODE"),
               SubstituteTexts::tr("the thread to replace"));
    line.value("--colour", SubstituteTexts::tr("'#rrggbb'"),
               SubstituteTexts::tr("or just a colour, in quotes"));
    line.values("--from", SubstituteTexts::tr("CARD"),
                SubstituteTexts::tr("look for threads on this card"));
    line.flag("--blend", SubstituteTexts::tr("also look for two threads worked in one needle"));
    line.flag("--calm", SubstituteTexts::tr("leave out blends that would look speckled"));
    line.value("--strands", SubstituteTexts::tr("N"),
               SubstituteTexts::tr("strands in the needle, 1 to 12; usually 2"));
    line.flag("--stash", SubstituteTexts::tr("only threads that you own"));
    line.flag("--in-stock",
              SubstituteTexts::tr("leave out what is sold out or discontinued, unless you own it"));
    line.value("--fibre", SubstituteTexts::tr("FIBRE"),
               SubstituteTexts::tr("only threads of this fibre"));
    line.value("--finish", SubstituteTexts::tr("FINISH"),
               SubstituteTexts::tr("only matt, satin, metallic or variegated threads"));
    line.value("--limit", SubstituteTexts::tr("N"),
               SubstituteTexts::tr("length of the list, 1 to 1000; usually 10"));
    line.value("--weights", SubstituteTexts::tr("L:C:H"),
               SubstituteTexts::tr("1:1:1 (usual), or 2:1:1 where lightness counts half"));
    line.value(
        "--key", SubstituteTexts::tr("KEY"),
        SubstituteTexts::tr("a chart's key: warn of what a substitute does to its other threads"));
    line.value(
        "--chart", SubstituteTexts::tr("PNG"),
        SubstituteTexts::tr("the picture of --key's chart: weigh threads by how long they touch"));
    line.flag(
        "--in-chart",
        SubstituteTexts::tr("with --chart: best for the chart first, instead of nearest first"));
    line.flag("--json", SubstituteTexts::tr("print one JSON document"));
    line.footer(SubstituteTexts::tr(
        "CARD is a shade card file, or the name of a card in the workbox.\n\n"
        "Example:\n"
        "  otherskein substitute --wanted cotton.csv:C-218 --from cotton.csv \\\n"
        "      --from silk.csv --blend --stash"));
    return line;
}

colourway::Wanted wantedOf(const CardFinder::Chosen& chosen) {
    return {chosen.card->name, chosen.thread->code, chosen.thread->name, chosen.thread->lab,
            *chosen.thread};
}

colourway::Wanted wantedOf(const colour::Srgb8& srgb) {
    colourway::Wanted wanted;
    wanted.lab = colour::labFromSrgb(srgb);
    return wanted;
}

void checkSubstituteWords(const CommandLine& line) {
    const auto refuse = [](const QString& expected, const QString& found) {
        throw badWord(QStringLiteral("otherskein substitute"), expected, found);
    };
    if (line.has("--wanted") == line.has("--colour")) {
        refuse(SubstituteTexts::tr("either --wanted or --colour"),
               line.has("--wanted") ? SubstituteTexts::tr("both") : SubstituteTexts::tr("neither"));
    }
    if (!line.has("--from")) {
        refuse(SubstituteTexts::tr("at least one --from CARD"), SubstituteTexts::tr("none"));
    }
    if (line.has("--chart") && !line.has("--key")) {
        refuse(SubstituteTexts::tr("--key along with --chart"),
               SubstituteTexts::tr("--chart alone"));
    }
    if (line.has("--in-chart") && !line.has("--chart")) {
        refuse(SubstituteTexts::tr("--chart along with --in-chart"),
               SubstituteTexts::tr("--in-chart alone"));
    }
}

/// Everything but the wanted thread and the key.
colourway::SubstituteQuestion questionOf(const CommandLine& line) {
    colourway::SubstituteQuestion question;
    question.blends = line.has("--blend");
    question.calmBlends = line.has("--calm");
    if (line.has("--in-chart")) {
        question.order = colourway::Order::InChart;
    }
    question.strands = wholeNumber(line, "--strands", 1, kMostStrandsInNeedle, question.strands);
    if (question.blends && question.strands < 2) {
        throw badWord(QStringLiteral("--strands"), SubstituteTexts::tr("2 or more with --blend"),
                      QString::number(question.strands));
    }
    question.limit = static_cast<std::size_t>(
        wholeNumber(line, "--limit", 1, kMostCandidates, static_cast<int>(question.limit)));
    if (const auto word = line.word("--weights")) {
        question.weights = weightsOf(QStringLiteral("--weights"), *word);
    }
    return question;
}

colourway::PoolFilter filterOf(const CommandLine& line) {
    colourway::PoolFilter filter;
    filter.onlyStash = line.has("--stash");
    filter.onlyInStock = line.has("--in-stock");
    filter.fibre = line.word("--fibre").value_or(QString()).trimmed();
    if (const auto word = line.word("--finish")) {
        filter.finish = finishOf(QStringLiteral("--finish"), *word);
    }
    return filter;
}

/// The cards to look among without the wanted thread. Told apart by address, so that a thread of
/// the same code on another card of the same name stays.
std::vector<thread::ShadeCard> cardsWithout(const CardFinder::Chosen& wanted,
                                            const std::vector<const thread::ShadeCard*>& from) {
    std::vector<thread::ShadeCard> cards;
    for (const thread::ShadeCard* card : from) {
        cards.push_back(*card);
        if (card == wanted.card) {
            std::erase_if(cards.back().threads, [&](const thread::Thread& one) {
                return one.code == wanted.thread->code;
            });
        }
    }
    return cards;
}

/// Takes the card's name out of the question, by which the search would leave out a thread of the
/// same code on a namesake; `cardsWithout` has left out the wanted one already.
void forgetCard(colourway::SubstituteQuestion& question) {
    for (chart::KeyRow& row : question.key) {
        if (row.code == question.wanted.code && row.card == question.wanted.card) {
            row.card.clear();
        }
    }
    question.wanted.card.clear();
}

} // namespace

void runSubstitute(Call call) {
    CommandLine line = substituteLine();
    if (!line.read(call)) {
        return;
    }
    checkSubstituteWords(line);
    colourway::SubstituteQuestion question = questionOf(line);
    const colourway::PoolFilter filter = filterOf(line);

    CardFinder finder(call);
    CardFinder::Chosen chosen;
    if (const auto word = line.word("--wanted")) {
        chosen = finder.thread(QStringLiteral("--wanted"), *word);
        question.wanted = wantedOf(chosen);
    } else {
        question.wanted = wantedOf(colourOf(QStringLiteral("--colour"), *line.word("--colour")));
    }
    const std::vector<const thread::ShadeCard*> from = finder.openAll(line.words("--from"));
    if (const auto path = line.word("--key")) {
        std::vector<const thread::ShadeCard*> known = from;
        if (chosen.card) {
            known.insert(known.begin(), chosen.card);
        }
        KeyOfChart read = keyOfChart(*path, line.word("--chart"), known);
        question.key = std::move(read.key);
        question.touching = std::move(read.touching);
    }

    const colourway::Wanted wanted = question.wanted;
    forgetCard(question);
    const auto pool = colourway::poolOf(cardsWithout(chosen, from), filter);
    const auto candidates = colourway::findSubstitutes(question, *pool);

    if (line.has("--json")) {
        print(call.out, substituteJson(wanted, candidates));
        return;
    }
    print(call.out, substituteText(wanted, candidates));
}

} // namespace otherskein::cli
