#include "cli/detail/quantities_answer.h"

#include "cli/detail/lengths.h"
#include "cli/detail/table.h"

#include <QCoreApplication>
#include <QJsonArray>

#include <cmath>

namespace otherskein::cli {

namespace {

struct QuantitiesAnswerTexts {
    Q_DECLARE_TR_FUNCTIONS(QuantitiesAnswer)
};

QJsonObject sizeJson(const colourway::Extent& size) {
    return {{QStringLiteral("width_in"), size.widthMm / colourway::kMmPerInch},
            {QStringLiteral("height_in"), size.heightMm / colourway::kMmPerInch},
            {QStringLiteral("width_cm"), size.widthMm / 10},
            {QStringLiteral("height_cm"), size.heightMm / 10}};
}

QJsonObject pieceJson(const QuantitiesAnswer& all, const colourway::Extent& piece) {
    const colourway::FitAnswer answer = colourway::fitOf(all.needed(), piece);
    const std::optional<int> from = all.fitsFrom(piece);
    QJsonObject object = sizeJson(piece);
    object[QStringLiteral("fits")] = answer.fit == colourway::Fit::Fits ? QStringLiteral("yes")
                                     : answer.fit == colourway::Fit::FitsTurned
                                         ? QStringLiteral("turned")
                                         : QStringLiteral("no");
    object[QStringLiteral("short_mm")] = QJsonArray{answer.lacksWidthMm, answer.lacksHeightMm};
    object[QStringLiteral("laid_turned")] = answer.turned;
    object[QStringLiteral("fits_from_count")] = from ? QJsonValue(*from) : QJsonValue();
    return object;
}

QJsonObject threadJson(const colourway::Quantity& one) {
    return {{QStringLiteral("card"), one.card},
            {QStringLiteral("code"), one.code},
            {QStringLiteral("name"), one.name},
            {QStringLiteral("stitches"), one.stitches},
            {QStringLiteral("line_cells"), one.lineCells},
            {QStringLiteral("strands"), one.strands ? QJsonValue(*one.strands) : QJsonValue()},
            {QStringLiteral("metres"), one.metres},
            {QStringLiteral("plies"), one.plies},
            {QStringLiteral("skein_m"), one.skeinM},
            {QStringLiteral("skeins"), one.skeins},
            {QStringLiteral("stash"), one.stash},
            {QStringLiteral("buy"), one.toBuy},
            {QStringLiteral("assumed"), one.assumed}};
}

/// Rounded up, since cloth that lacks a third of a millimetre does not lack 0.
QString lackText(double mm) {
    return QString::number(std::ceil(mm), 'f', 0);
}

QString fitText(const QuantitiesAnswer& all, const colourway::Extent& piece) {
    const colourway::FitAnswer answer = colourway::fitOf(all.needed(), piece);
    switch (answer.fit) {
    case colourway::Fit::Fits:
        return QuantitiesAnswerTexts::tr("%1: fits").arg(sizeText(piece));
    case colourway::Fit::FitsTurned:
        return QuantitiesAnswerTexts::tr("%1: fits, turned").arg(sizeText(piece));
    case colourway::Fit::TooSmall:
        break;
    }
    const QString lack =
        answer.turned
            ? QuantitiesAnswerTexts::tr(
                  "%1: too small, turned, by %2 mm in the chart's width, %3 mm in its height")
            : QuantitiesAnswerTexts::tr(
                  "%1: too small by %2 mm in the chart's width, %3 mm in its height");
    const std::optional<int> from = all.fitsFrom(piece);
    return lack.arg(sizeText(piece), lackText(answer.lacksWidthMm),
                    lackText(answer.lacksHeightMm)) +
           (from ? QuantitiesAnswerTexts::tr("; fits from %1 count over %2 on")
                       .arg(*from)
                       .arg(all.stitched.ground.over)
                 : QuantitiesAnswerTexts::tr("; fits on no count"));
}

} // namespace

QJsonObject quantitiesJson(const QuantitiesAnswer& answer) {
    QJsonObject stitched = sizeJson(answer.extent());
    stitched[QStringLiteral("columns")] = answer.columns;
    stitched[QStringLiteral("rows")] = answer.rows;
    QJsonObject needed = sizeJson(answer.needed());
    needed[QStringLiteral("margin_mm")] = answer.marginMm;
    QJsonArray pieces;
    for (const colourway::Extent& piece : answer.pieces) {
        pieces.append(pieceJson(answer, piece));
    }
    QJsonArray threads;
    for (const colourway::Quantity& one : answer.quantities.threads) {
        threads.append(threadJson(one));
    }
    const QJsonObject usage{
        {QStringLiteral("count"), answer.stitched.ground.count},
        {QStringLiteral("over"), answer.stitched.ground.over},
        {QStringLiteral("strands"),
         answer.stitched.strands ? QJsonValue(*answer.stitched.strands) : QJsonValue()},
        {QStringLiteral("line_strands"), answer.usage.lineStrands},
        {QStringLiteral("waste"), answer.usage.waste},
        {QStringLiteral("cross_mm"), colourway::crossMm(answer.stitched.ground)}};
    return {{QStringLiteral("stitched"), stitched},
            {QStringLiteral("with_margin"), needed},
            {QStringLiteral("pieces"), pieces},
            {QStringLiteral("usage"), usage},
            {QStringLiteral("threads"), threads},
            {QStringLiteral("skeins_to_buy"), answer.quantities.toBuy}};
}

QString quantitiesText(const QuantitiesAnswer& answer) {
    using enum Table::Align;
    using Texts = QuantitiesAnswerTexts;
    Table table({{Texts::tr("Card"), Left},
                 {Texts::tr("Code"), Left},
                 {Texts::tr("Name"), Left},
                 {Texts::tr("Stitches"), Right},
                 {Texts::tr("Metres"), Right},
                 {Texts::tr("Skeins"), Right},
                 {Texts::tr("In stash"), Right},
                 {Texts::tr("To buy"), Right}});
    bool assumed = false;
    double metres = 0;
    for (const colourway::Quantity& one : answer.quantities.threads) {
        table.addRow({one.card, one.code, one.name, QString::number(one.stitches),
                      QString::number(one.metres, 'f', 1), QString::number(one.skeins, 'f', 2),
                      one.assumed ? QStringLiteral("?") : QString::number(one.stash),
                      QString::number(one.toBuy)});
        assumed |= one.assumed;
        metres += one.metres;
    }
    QStringList lines{Texts::tr("%1 × %2 stitches on %3 count over %4: %5")
                          .arg(answer.columns)
                          .arg(answer.rows)
                          .arg(answer.stitched.ground.count)
                          .arg(answer.stitched.ground.over)
                          .arg(sizeText(answer.extent())),
                      Texts::tr("With %1 in (%2 cm) of bare cloth on every side: %3")
                          .arg(QString::number(answer.marginMm / colourway::kMmPerInch, 'f', 1),
                               QString::number(answer.marginMm / 10, 'f', 1),
                               sizeText(answer.needed()))};
    for (const colourway::Extent& piece : answer.pieces) {
        lines.push_back(fitText(answer, piece));
    }
    lines.push_back(QString());
    lines.push_back(table.text());
    lines.push_back(Texts::tr("Stitches: %1. Metres: %2. Skeins to buy: %3.")
                        .arg(answer.stitches)
                        .arg(metres, 0, 'f', 1)
                        .arg(answer.quantities.toBuy));
    lines.push_back(
        Texts::tr("Metres are of one strand; skeins count %1 % on top for tails and ways. "
                  "Estimates: hands differ.")
            .arg(answer.usage.waste * 100, 0, 'f', 0));
    if (assumed) {
        lines.push_back(Texts::tr("Of threads on no card given, six plies of 8 m are taken for "
                                  "granted."));
    }
    lines.push_back(answer.quantities.mixesLots
                        ? Texts::tr("New skeins beside old ones may be of another dye lot: do not "
                                    "change within one area.")
                        : Texts::tr("Dye lots differ: buy all of a thread at once."));
    return lines.join(QLatin1Char('\n')) + QLatin1Char('\n');
}

} // namespace otherskein::cli
