#include "cli/detail/substitute_answer.h"

#include "base/number.h"
#include "cli/detail/answer.h"
#include "cli/detail/table.h"
#include "colour/conversion.h"

#include <QCoreApplication>

namespace otherskein::cli {

namespace {

using colourway::Candidate;
using colourway::Wanted;

struct SubstituteAnswerTexts {
    Q_DECLARE_TR_FUNCTIONS(SubstituteAnswer)
};

colour::Srgb8 shownColour(const Wanted& wanted) {
    return wanted.thread ? thread::shownColour(*wanted.thread) : colour::srgbFromLab(wanted.lab);
}

QJsonObject jsonOf(const Wanted& wanted) {
    QJsonObject object;
    if (wanted.thread) {
        addThread(object, wanted.card, *wanted.thread);
    } else {
        object[QStringLiteral("lab")] = labJson(wanted.lab);
        object[QStringLiteral("srgb")] = colour::toHex(shownColour(wanted));
    }
    return object;
}

QJsonObject jsonOf(const Candidate& candidate) {
    QJsonObject object;
    if (candidate.isBlend()) {
        QJsonArray blend;
        for (const Candidate::Portion& portion : candidate.portions) {
            QJsonObject part;
            addThread(part, portion.thread.card, portion.thread.thread);
            part[QStringLiteral("strands")] = portion.strands;
            blend.append(part);
        }
        object[QStringLiteral("blend")] = blend;
        object[QStringLiteral("card")] = candidate.card();
        object[QStringLiteral("code")] = candidate.code();
        object[QStringLiteral("name")] = candidate.name();
        object[QStringLiteral("lab")] = labJson(candidate.lab);
        object[QStringLiteral("srgb")] = colour::toHex(colour::srgbFromLab(candidate.lab));
    } else {
        const thread::PooledThread& one = candidate.portions.front().thread;
        addThread(object, one.card, one.thread);
    }
    object[QStringLiteral("de00")] = candidate.de00;
    object[QStringLiteral("dL")] = candidate.parts.dL;
    object[QStringLiteral("dC")] = candidate.parts.dC;
    object[QStringLiteral("dH")] = candidate.parts.dH;
    object[QStringLiteral("words")] = candidate.words;
    object[QStringLiteral("grey_scale")] = candidate.greyScale;
    if (candidate.costInChart) {
        object[QStringLiteral("cost_in_chart")] = *candidate.costInChart;
    }
    object[QStringLiteral("in_stash")] = candidate.isInStash();
    QJsonArray warnings;
    for (const colourway::Warning& warning : candidate.warnings) {
        warnings.append(warning.text);
    }
    object[QStringLiteral("warnings")] = warnings;
    return object;
}

/// "K-1", or "2 × K-1 + 1 × K-2" for a blend.
QString codeText(const Candidate& candidate) {
    if (!candidate.isBlend()) {
        return candidate.code();
    }
    QStringList parts;
    for (const Candidate::Portion& portion : candidate.portions) {
        parts.push_back(
            QStringLiteral("%1 × %2").arg(portion.strands).arg(portion.thread.thread.code));
    }
    return parts.join(QStringLiteral(" + "));
}

/// Skeins owned of each thread.
QString stashText(const Candidate& candidate) {
    QStringList parts;
    for (const Candidate::Portion& portion : candidate.portions) {
        parts.push_back(base::formatNumber(portion.thread.thread.stash));
    }
    return parts.join(QStringLiteral(" + "));
}

} // namespace

QJsonObject substituteJson(const Wanted& wanted, const std::vector<Candidate>& candidates) {
    QJsonArray list;
    for (const Candidate& candidate : candidates) {
        list.append(jsonOf(candidate));
    }
    return {{QStringLiteral("wanted"), jsonOf(wanted)}, {QStringLiteral("candidates"), list}};
}

QString substituteText(const Wanted& wanted, const std::vector<Candidate>& candidates) {
    const QString colour = colourText(wanted.lab, shownColour(wanted));
    const QString line = wanted.thread ? SubstituteAnswerTexts::tr("Wanted: %1 %2 %3  %4")
                                             .arg(wanted.card, wanted.code, wanted.name, colour)
                                       : SubstituteAnswerTexts::tr("Wanted: %1").arg(colour);
    if (candidates.empty()) {
        return printable(line) + QStringLiteral("\n\n") +
               SubstituteAnswerTexts::tr("No thread on these cards answers what was asked.") +
               QLatin1Char('\n');
    }
    using enum Table::Align;
    Table table({{QStringLiteral("#"), Right},
                 {SubstituteAnswerTexts::tr("Card"), Left},
                 {SubstituteAnswerTexts::tr("Code"), Left},
                 {SubstituteAnswerTexts::tr("Name"), Left},
                 {SubstituteAnswerTexts::tr("ΔE00"), Right},
                 {SubstituteAnswerTexts::tr("Grey"), Left},
                 {SubstituteAnswerTexts::tr("In words"), Left},
                 {SubstituteAnswerTexts::tr("Stash"), Right}});
    int rank = 0;
    for (const Candidate& candidate : candidates) {
        table.addRow({QString::number(++rank), candidate.card(), codeText(candidate),
                      candidate.name(), differenceText(candidate.de00), candidate.greyScale,
                      candidate.words, stashText(candidate)});
        for (const colourway::Warning& warning : candidate.warnings) {
            table.addRemark(warning.text);
        }
    }
    return printable(line) + QStringLiteral("\n\n") + table.text() + QLatin1Char('\n') +
           SubstituteAnswerTexts::tr(
               "Grey: step of the textile grey scale, 5 is no difference, 1 a large one.") +
           QLatin1Char('\n') + caution() + QLatin1Char('\n');
}

} // namespace otherskein::cli
