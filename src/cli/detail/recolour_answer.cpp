#include "cli/detail/recolour_answer.h"

#include "cli/detail/answer.h"
#include "cli/detail/table.h"
#include "colour/difference_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace otherskein::cli {

namespace {

using colourway::By;
using colourway::Choice;
using colourway::Colourway;
using colourway::Subject;

struct RecolourAnswerTexts {
    Q_DECLARE_TR_FUNCTIONS(RecolourAnswer)
};

QJsonObject jsonOf(const Choice& choice) {
    QJsonObject object;
    if (choice.isBlend()) {
        QJsonArray blend;
        for (const Choice::Portion& portion : choice.portions) {
            QJsonObject part;
            addThread(part, portion.card, portion.thread);
            part[QStringLiteral("strands")] = portion.strands;
            blend.append(part);
        }
        object[QStringLiteral("blend")] = blend;
        object[QStringLiteral("card")] = choice.card();
        object[QStringLiteral("code")] = choice.code();
        object[QStringLiteral("name")] = choice.name();
        object[QStringLiteral("lab")] = labJson(choice.lab);
        object[QStringLiteral("srgb")] = colour::toHex(shownColour(choice));
    } else {
        addThread(object, choice.portions.front().card, choice.portions.front().thread);
        object[QStringLiteral("strands")] = choice.portions.front().strands;
    }
    return object;
}

/// A row of the text table: parts that go from one thread to one other.
struct Row {
    std::vector<std::size_t> parts;
    int stitches = 0;
};

std::vector<Row> rowsOf(const Subject& subject, const Colourway& colourway) {
    std::vector<Row> rows;
    for (std::size_t i = 0; i < colourway.now.size(); ++i) {
        const auto same = std::ranges::find_if(rows, [&](const Row& row) {
            return subject.parts.by == By::Motif &&
                   colourway.now[row.parts.front()].isSameAs(colourway.now[i]) &&
                   subject.parts.parts[row.parts.front()].key == subject.parts.parts[i].key;
        });
        Row& row = same != rows.end() ? *same : rows.emplace_back();
        row.parts.push_back(i);
        row.stitches += subject.parts.parts[i].stitches;
    }
    return rows;
}

QString namesOf(const Subject& subject, const Row& row) {
    constexpr std::size_t kMostNames = 3;
    QStringList names;
    for (std::size_t i = 0; i < std::min(kMostNames, row.parts.size()); ++i) {
        names.push_back(partName(subject, row.parts[i]));
    }
    const QString all = names.join(QStringLiteral(", "));
    return row.parts.size() > kMostNames ? RecolourAnswerTexts::tr("%1 and %2 more")
                                               .arg(all)
                                               .arg(row.parts.size() - kMostNames)
                                         : all;
}

QString figuresText(const Subject& subject, const Colourway& colourway) {
    const colourway::Figures& figures = colourway.figures;
    QString text;
    if (figures.leastBetweenNeighbours) {
        text +=
            RecolourAnswerTexts::tr("Least difference between neighbours: ΔE00 %1 (%2 and %3)\n")
                .arg(differenceText(*figures.leastBetweenNeighbours),
                     printable(partName(subject, figures.closestOne)),
                     printable(partName(subject, figures.closestOther)));
    }
    text += RecolourAnswerTexts::tr("Least contrast on the ground: ΔE00 %1\n")
                .arg(differenceText(figures.leastOnGround));
    if (colourway.by == By::Colour) {
        text += RecolourAnswerTexts::tr("Order of lightness kept: %1 %\n")
                    .arg(100 * figures.orderKept, 0, 'f', 0);
    }
    return text + RecolourAnswerTexts::tr("Threads: %1, of which %2 to buy\n")
                      .arg(figures.threads)
                      .arg(figures.threadsToBuy);
}

} // namespace

QString partName(const Subject& subject, std::size_t part) {
    const colourway::Part& one = subject.parts.parts[part];
    if (subject.parts.by == By::Motif) {
        return one.label.isEmpty() ? RecolourAnswerTexts::tr("motif %1").arg(part + 1) : one.label;
    }
    const QString code = subject.charted[part].code();
    const QString called = code.isEmpty() ? colour::toHex(subject.chart.key[one.key].pixel) : code;
    return one.label.isEmpty() ? called : QStringLiteral("%1 %2").arg(one.label, called);
}

QJsonObject recolourJson(const Subject& subject, const Colourway& colourway,
                         const std::vector<colourway::LostSeparation>& lost) {
    QJsonArray parts;
    for (std::size_t i = 0; i < colourway.now.size(); ++i) {
        const Choice& was = subject.charted[i];
        const Choice& now = colourway.now[i];
        const colourway::Part& part = subject.parts.parts[i];
        QJsonObject object{{QStringLiteral("part"), partName(subject, i)},
                           {QStringLiteral("stitches"), part.stitches},
                           {QStringLiteral("was"), jsonOf(was)},
                           {QStringLiteral("now"), jsonOf(now)},
                           {QStringLiteral("de00"), colour::deltaE00(was.lab, now.lab)},
                           {QStringLiteral("words"), colour::differenceInWords(was.lab, now.lab)}};
        object[QStringLiteral("symbol")] = subject.chart.key[part.key].symbol;
        if (part.stitches > 0) {
            object[QStringLiteral("first_cell")] = QJsonArray{part.first.column, part.first.row};
        }
        parts.append(object);
    }
    const colourway::Figures& figures = colourway.figures;
    QJsonObject separation{{QStringLiteral("least_de00_on_ground"), figures.leastOnGround}};
    separation[QStringLiteral("min_de00_adjacent")] =
        figures.leastBetweenNeighbours ? QJsonValue(*figures.leastBetweenNeighbours)
                                       : QJsonValue(QJsonValue::Null);
    QJsonObject answer{{QStringLiteral("parts"), parts},
                       {QStringLiteral("separation"), separation},
                       {QStringLiteral("order_kept"), figures.orderKept},
                       {QStringLiteral("threads"), figures.threads},
                       {QStringLiteral("threads_to_buy"), figures.threadsToBuy},
                       {QStringLiteral("cost"), colourway.cost}};
    QJsonArray lostPairs;
    for (const colourway::LostSeparation& pair : lost) {
        lostPairs.append(
            QJsonObject{{QStringLiteral("parts"),
                         QJsonArray{partName(subject, pair.one), partName(subject, pair.other)}},
                        {QStringLiteral("was_de00"), pair.was},
                        {QStringLiteral("now_de00"), pair.now}});
    }
    answer[QStringLiteral("lost")] = lostPairs;
    return answer;
}

QString recolourText(const Subject& subject, const Colourway& colourway,
                     const std::vector<colourway::LostSeparation>& lost) {
    using enum Table::Align;
    const bool byMotif = subject.parts.by == By::Motif;
    Table table(
        {{byMotif ? RecolourAnswerTexts::tr("Motifs") : RecolourAnswerTexts::tr("Was"), Left},
         {RecolourAnswerTexts::tr("Stitches"), Right},
         {RecolourAnswerTexts::tr("Card"), Left},
         {RecolourAnswerTexts::tr("Now"), Left},
         {RecolourAnswerTexts::tr("Name"), Left},
         {RecolourAnswerTexts::tr("ΔE00"), Right},
         {RecolourAnswerTexts::tr("In words"), Left},
         {RecolourAnswerTexts::tr("Stash"), Left}});
    for (const Row& row : rowsOf(subject, colourway)) {
        const std::size_t first = row.parts.front();
        const Choice& now = colourway.now[first];
        const colour::Lab& was = subject.charted[first].lab;
        table.addRow(
            {namesOf(subject, row), QString::number(row.stitches), now.card(), now.code(),
             now.name(), differenceText(colour::deltaE00(was, now.lab)),
             colour::differenceInWords(was, now.lab),
             now.isInStash() ? RecolourAnswerTexts::tr("own") : RecolourAnswerTexts::tr("buy")});
        for (const colourway::LostSeparation& pair : lost) {
            if (!byMotif && (pair.one == first || pair.other == first)) {
                const std::size_t other = pair.one == first ? pair.other : pair.one;
                table.addRemark(RecolourAnswerTexts::tr("harder to tell from %1: ΔE00 %2, was %3")
                                    .arg(partName(subject, other), differenceText(pair.now),
                                         differenceText(pair.was)));
            }
        }
    }
    return table.text() + QLatin1Char('\n') + figuresText(subject, colourway) + QLatin1Char('\n') +
           caution() + QLatin1Char('\n');
}

} // namespace otherskein::cli
