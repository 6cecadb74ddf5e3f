#include "cli/detail/ground_answer.h"

#include "cli/detail/answer.h"
#include "cli/detail/table.h"

#include <QCoreApplication>

#include <algorithm>

namespace otherskein::cli {

namespace {

using colourway::Verdict;

struct GroundAnswerTexts {
    Q_DECLARE_TR_FUNCTIONS(GroundAnswer)
};

/// The strands that all threads share; none where a key gives its rows different ones.
std::optional<int> commonStrands(const std::vector<JudgedThread>& threads) {
    const bool one = std::ranges::adjacent_find(threads, std::ranges::not_equal_to{},
                                                &JudgedThread::strands) == threads.end();
    return one && !threads.empty() ? std::optional(threads.front().strands) : std::nullopt;
}

QJsonObject jsonOf(const JudgedThread& judged) {
    const colourway::OnGround& on = judged.on;
    QJsonObject object;
    addColour(object, on.thread.card, on.thread.thread);
    object[QStringLiteral("strands")] = judged.strands;
    object[QStringLiteral("de00")] = on.de00;
    object[QStringLiteral("dL")] = on.dL;
    object[QStringLiteral("ratio")] = on.ratio;
    object[QStringLiteral("strands_to_cover")] =
        judged.strandsToCover ? QJsonValue(*judged.strandsToCover) : QJsonValue();
    object[QStringLiteral("coverage")] = on.coverage;
    object[QStringLiteral("apparent")] = labJson(on.apparent);
    object[QStringLiteral("verdict")] = colourway::wordOf(on.verdict);
    return object;
}

QString groundLine(const thread::Ground& ground, std::optional<int> strands) {
    const QString colour = colourText(ground.lab, ground.shown);
    const QString cloth =
        GroundAnswerTexts::tr("Ground: %1, %2 count over %3")
            .arg(ground.name.isEmpty() ? colour
                                       : GroundAnswerTexts::tr("%1 %2").arg(ground.name, colour))
            .arg(ground.count)
            .arg(ground.over);
    return strands ? GroundAnswerTexts::tr("%1, strands in the needle: %2").arg(cloth).arg(*strands)
                   : GroundAnswerTexts::tr("%1, strands as in the key").arg(cloth);
}

QString summary(const std::vector<JudgedThread>& threads) {
    const auto number = [&](Verdict verdict) {
        return std::ranges::count(threads, verdict,
                                  [](const JudgedThread& one) { return one.on.verdict; });
    };
    return GroundAnswerTexts::tr("Vanishing: %1 (ΔE00 under %2). Soft: %3. Clear: %4 (from %5).")
        .arg(number(Verdict::Vanishes))
        .arg(colourway::kVanishesBelow)
        .arg(number(Verdict::Soft))
        .arg(number(Verdict::Clear))
        .arg(colourway::kClearFrom);
}

QJsonObject groundJson(const JudgedGround& judged) {
    const auto& [ground, threads] = judged;
    const std::optional<int> strands = commonStrands(threads);
    QJsonArray list;
    for (const JudgedThread& one : threads) {
        list.append(jsonOf(one));
    }
    QJsonObject cloth{{QStringLiteral("srgb"), colour::toHex(ground.shown)},
                      {QStringLiteral("lab"), labJson(ground.lab)},
                      {QStringLiteral("count"), ground.count},
                      {QStringLiteral("over"), ground.over},
                      {QStringLiteral("strands"), strands ? QJsonValue(*strands) : QJsonValue()}};
    if (!ground.name.isEmpty()) {
        cloth[QStringLiteral("name")] = ground.name;
    }
    return {{QStringLiteral("ground"), cloth}, {QStringLiteral("threads"), list}};
}

QString groundText(const JudgedGround& judged) {
    const auto& [ground, threads] = judged;
    using enum Table::Align;
    Table table({{GroundAnswerTexts::tr("Verdict"), Left},
                 {GroundAnswerTexts::tr("Card"), Left},
                 {GroundAnswerTexts::tr("Code"), Left},
                 {GroundAnswerTexts::tr("Name"), Left},
                 {GroundAnswerTexts::tr("ΔE00"), Right},
                 {GroundAnswerTexts::tr("ΔL*"), Right},
                 {GroundAnswerTexts::tr("Ratio"), Right},
                 {GroundAnswerTexts::tr("Covers"), Right},
                 {GroundAnswerTexts::tr("95 % from"), Right}});
    for (const JudgedThread& one : threads) {
        const colourway::OnGround& on = one.on;
        table.addRow(
            {colourway::wordOf(on.verdict), on.thread.card, on.thread.thread.code,
             on.thread.thread.name, differenceText(on.de00), QString::number(on.dL, 'f', 1),
             QString::number(on.ratio, 'f', 2),
             GroundAnswerTexts::tr("%1 %").arg(on.coverage * 100, 0, 'f', 0),
             one.strandsToCover ? QString::number(*one.strandsToCover) : QStringLiteral("-")});
    }
    return groundLine(ground, commonStrands(threads)) + QStringLiteral("\n\n") + table.text() +
           QLatin1Char('\n') + summary(threads) + QLatin1Char('\n');
}

} // namespace

QJsonObject groundsJson(const std::vector<JudgedGround>& judged) {
    QJsonObject answer = groundJson(judged.front());
    if (judged.size() > 1) {
        QJsonArray all;
        for (const JudgedGround& one : judged) {
            all.append(groundJson(one));
        }
        answer[QStringLiteral("grounds")] = all;
    }
    return answer;
}

QString groundsText(const std::vector<JudgedGround>& judged) {
    QString text;
    for (const JudgedGround& one : judged) {
        text += groundText(one) + (judged.size() > 1 ? QStringLiteral("\n") : QString());
    }
    return text + caution() + QLatin1Char('\n');
}

} // namespace otherskein::cli
