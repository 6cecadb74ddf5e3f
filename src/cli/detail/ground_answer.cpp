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
    object[QStringLiteral("coverage")] = on.coverage;
    object[QStringLiteral("apparent")] = labJson(on.apparent);
    object[QStringLiteral("verdict")] = colourway::wordOf(on.verdict);
    return object;
}

QString groundLine(const thread::Ground& ground, std::optional<int> strands) {
    const QString cloth = GroundAnswerTexts::tr("Ground: %1, %2 count over %3")
                              .arg(colourText(ground.lab, ground.shown))
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

} // namespace

QJsonObject groundJson(const thread::Ground& ground, const std::vector<JudgedThread>& threads) {
    const std::optional<int> strands = commonStrands(threads);
    QJsonArray list;
    for (const JudgedThread& one : threads) {
        list.append(jsonOf(one));
    }
    const QJsonObject cloth{
        {QStringLiteral("srgb"), colour::toHex(ground.shown)},
        {QStringLiteral("lab"), labJson(ground.lab)},
        {QStringLiteral("count"), ground.count},
        {QStringLiteral("over"), ground.over},
        {QStringLiteral("strands"), strands ? QJsonValue(*strands) : QJsonValue()}};
    return {{QStringLiteral("ground"), cloth}, {QStringLiteral("threads"), list}};
}

QString groundText(const thread::Ground& ground, const std::vector<JudgedThread>& threads) {
    using enum Table::Align;
    Table table({{GroundAnswerTexts::tr("Verdict"), Left},
                 {GroundAnswerTexts::tr("Card"), Left},
                 {GroundAnswerTexts::tr("Code"), Left},
                 {GroundAnswerTexts::tr("Name"), Left},
                 {GroundAnswerTexts::tr("ΔE00"), Right},
                 {GroundAnswerTexts::tr("ΔL*"), Right},
                 {GroundAnswerTexts::tr("Ratio"), Right},
                 {GroundAnswerTexts::tr("Covers"), Right}});
    for (const JudgedThread& one : threads) {
        const colourway::OnGround& on = one.on;
        table.addRow({colourway::wordOf(on.verdict), on.thread.card, on.thread.thread.code,
                      on.thread.thread.name, differenceText(on.de00),
                      QString::number(on.dL, 'f', 1), QString::number(on.ratio, 'f', 2),
                      GroundAnswerTexts::tr("%1 %").arg(on.coverage * 100, 0, 'f', 0)});
    }
    return groundLine(ground, commonStrands(threads)) + QStringLiteral("\n\n") + table.text() +
           QLatin1Char('\n') + summary(threads) + QLatin1Char('\n') + caution() + QLatin1Char('\n');
}

} // namespace otherskein::cli
