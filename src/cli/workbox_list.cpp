#include "base/number.h"
#include "cli/detail/answer.h"
#include "cli/detail/command_line.h"
#include "cli/detail/table.h"
#include "cli/workbox_actions.h"

#include <QCoreApplication>
#include <QFileInfo>

#include <algorithm>

namespace otherskein::cli {

namespace {

struct WorkboxListTexts {
    Q_DECLARE_TR_FUNCTIONS(WorkboxList)
};

CommandLine workboxListLine() {
    CommandLine line(QStringLiteral("otherskein workbox list"),
                     WorkboxListTexts::tr("Shows the shade cards and fabrics in the workbox."));
    line.flag("--json", WorkboxListTexts::tr("print one JSON document"));
    line.footer(WorkboxListTexts::tr("Example:\n"
                                     "  otherskein workbox list --json"));
    return line;
}

struct Stash {
    qsizetype threads = 0;
    double skeins = 0;
};

Stash stashOf(const workbox::StoredCard& card) {
    Stash stash;
    for (const workbox::StoredThread& one : card.threads) {
        stash.threads += one.thread.stash > 0 ? 1 : 0;
        stash.skeins += one.thread.stash;
    }
    return stash;
}

QJsonObject jsonOf(const QString& path, const workbox::Contents& contents) {
    QJsonArray cards;
    for (const workbox::StoredCard& card : contents.cards) {
        const Stash stash = stashOf(card);
        cards.append(QJsonObject{{QStringLiteral("name"), card.name},
                                 {QStringLiteral("threads"), qsizetype(card.threads.size())},
                                 {QStringLiteral("owned"), stash.threads},
                                 {QStringLiteral("skeins"), stash.skeins}});
    }
    QJsonArray grounds;
    for (const workbox::StoredGround& stored : contents.grounds) {
        const thread::Ground& ground = stored.ground;
        grounds.append(QJsonObject{{QStringLiteral("name"), ground.name},
                                   {QStringLiteral("srgb"), colour::toHex(ground.shown)},
                                   {QStringLiteral("lab"), labJson(ground.lab)},
                                   {QStringLiteral("count"), ground.count},
                                   {QStringLiteral("over"), ground.over},
                                   {QStringLiteral("weave"), ground.weave},
                                   {QStringLiteral("width_cm"), ground.widthMm / 10},
                                   {QStringLiteral("height_cm"), ground.heightMm / 10}});
    }
    return {{QStringLiteral("workbox"), path},
            {QStringLiteral("cards"), cards},
            {QStringLiteral("grounds"), grounds}};
}

QString textOf(const QString& path, const workbox::Contents& contents) {
    using enum Table::Align;
    QString text = WorkboxListTexts::tr("Workbox: %1").arg(path) + QLatin1Char('\n');
    if (contents.cards.empty()) {
        text += QLatin1Char('\n') + WorkboxListTexts::tr("No shade cards in it yet.") +
                QLatin1Char('\n');
    } else {
        Table cards({{WorkboxListTexts::tr("Card"), Left},
                     {WorkboxListTexts::tr("Threads"), Right},
                     {WorkboxListTexts::tr("Owned"), Right},
                     {WorkboxListTexts::tr("Skeins"), Right}});
        for (const workbox::StoredCard& card : contents.cards) {
            const Stash stash = stashOf(card);
            cards.addRow({card.name, QString::number(card.threads.size()),
                          QString::number(stash.threads), base::formatNumber(stash.skeins)});
        }
        text += QLatin1Char('\n') + cards.text();
    }
    if (!contents.grounds.empty()) {
        Table grounds({{WorkboxListTexts::tr("Fabric"), Left},
                       {WorkboxListTexts::tr("Colour"), Left},
                       {WorkboxListTexts::tr("Count"), Right},
                       {WorkboxListTexts::tr("Over"), Right},
                       {WorkboxListTexts::tr("Weave"), Left}});
        for (const workbox::StoredGround& stored : contents.grounds) {
            const thread::Ground& ground = stored.ground;
            grounds.addRow({ground.name, colour::toHex(ground.shown), QString::number(ground.count),
                            QString::number(ground.over), ground.weave});
        }
        text += QLatin1Char('\n') + grounds.text();
    }
    return text;
}

} // namespace

void listWorkbox(Call call) {
    CommandLine line = workboxListLine();
    if (!line.read(call)) {
        return;
    }
    workbox::Contents contents;
    // Before the first import the usual place is empty, which is an answer; a place that the user
    // names should be there.
    if (call.workboxNamed || QFileInfo::exists(call.workboxPath)) {
        contents = openWorkbox(call)->contents();
    }
    if (line.has("--json")) {
        print(call.out, jsonOf(call.workboxPath, contents));
    } else {
        print(call.out, textOf(call.workboxPath, contents));
    }
}

} // namespace otherskein::cli
