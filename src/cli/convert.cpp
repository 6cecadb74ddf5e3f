#include "chart/chart_files.h"
#include "cli/detail/answer.h"
#include "cli/detail/chart_job.h"
#include "cli/detail/recolour_answer.h"

#include <QCoreApplication>

#include <ostream>

namespace otherskein::cli {

namespace {

struct ConvertTexts {
    Q_DECLARE_TR_FUNCTIONS(ConvertCommand)
};

CommandLine convertLine() {
    CommandLine line(
        QStringLiteral("otherskein convert"),
        ConvertTexts::tr(
            "Works every thread of a chart in another line: each row of the key gets its own "
            "thread,\nand rows that touch stay as far apart as the line allows."));
    addChartOptions(line);
    addThreadOptions(line);
    line.value("--out-key", ConvertTexts::tr("CSV"),
               ConvertTexts::tr("write the new key here; it fits the same picture"));
    line.value(
        "--out", ConvertTexts::tr("PNG"),
        ConvertTexts::tr("also write the picture in the new colours; --out-key then fits that"));
    line.footer(
        ConvertTexts::tr("CARD is a shade card file, or the name of a card in the workbox.\n\n"
                         "Example:\n"
                         "  otherskein convert --chart row.png --key row.key.csv --from silk.csv "
                         "--out-key silk.key.csv"));
    return line;
}

void checkCombination(const CommandLine& line) {
    const auto refuse = [](const QString& expected, const QString& found) {
        throw badWord(QStringLiteral("otherskein convert"), expected, found);
    };
    if (!line.has("--chart")) {
        refuse(ConvertTexts::tr("--chart with the chart's picture"), ConvertTexts::tr("none"));
    }
    if (!line.has("--from")) {
        refuse(ConvertTexts::tr("at least one --from CARD"), ConvertTexts::tr("none"));
    }
    if (!line.has("--out-key") && (line.has("--out") || !line.has("--json"))) {
        refuse(ConvertTexts::tr("--out-key with the new key's file"), ConvertTexts::tr("none"));
    }
}

/// The charted key with each part's new thread; pixels and symbols stay, so that it fits the same
/// picture.
chart::Key keyForSamePicture(const colourway::Subject& subject,
                             const colourway::Colourway& colourway) {
    chart::Key key = subject.chart.key;
    for (std::size_t i = 0; i < colourway.now.size(); ++i) {
        chart::KeyRow& row = key[subject.parts.parts[i].key];
        row.card = colourway.now[i].card();
        row.code = colourway.now[i].code();
        row.name = colourway.now[i].name();
    }
    return key;
}

} // namespace

void runConvert(Call call) {
    CommandLine line = convertLine();
    if (!line.read(call)) {
        return;
    }
    checkCombination(line);
    colourway::RecolourQuestion question;
    question.by = colourway::By::Colour;
    question.theme = colourway::AsCharted{};
    readThreadOptions(line, question);

    const chart::Chart chart = chartOf(line);
    CardFinder finder(call);
    const auto from = finder.openAll(line.words("--from"));
    const auto subject = colourway::subjectOf(chart, question.by, {}, knownCards(line, finder));
    keep(line.words("--keep"), *subject, question);
    const auto pool = colourway::poolOf(from, question.filter);
    const auto colourway = colourway::recolour(*subject, question, *pool);
    const auto lost = colourway::lostSeparations(*subject, colourway->now);

    if (const auto picture = line.word("--out")) {
        chart::writeChart(colourway::workedChart(*subject, *colourway), *picture,
                          *line.word("--out-key"), existingOf(line));
    } else if (const auto path = line.word("--out-key")) {
        base::writeWholeFile(*path, chart::keyCsv(keyForSamePicture(*subject, *colourway)),
                             existingOf(line));
    }
    if (line.has("--json")) {
        print(call.out, recolourJson(*subject, *colourway, lost));
    } else {
        print(call.out, recolourText(*subject, *colourway, lost));
    }
}

} // namespace otherskein::cli
