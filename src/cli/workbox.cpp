#include "cli/detail/command_line.h"
#include "cli/workbox_actions.h"

#include <QCoreApplication>
#include <QFileInfo>

#include <algorithm>
#include <array>

namespace otherskein::cli {

namespace {

struct WorkboxTexts {
    Q_DECLARE_TR_FUNCTIONS(WorkboxCommand)
};

struct Action {
    const char* name;
    void (*run)(Call);
};

constexpr std::array kActions{Action{"import", importCards}, Action{"export", exportCard},
                              Action{"list", listWorkbox}, Action{"check", checkWorkbox}};

CommandLine workboxLine() {
    CommandLine line(
        QStringLiteral("otherskein workbox"),
        WorkboxTexts::tr("Looks after your workbox: the one file that keeps your shade "
                         "cards, stash and fabrics."),
        CommandLine::Takes::Leading, WorkboxTexts::tr("ACTION ..."));
    line.footer(
        WorkboxTexts::tr("Actions (otherskein workbox ACTION --help tells more):\n"
                         "  import FILE...          take shade card files into the workbox\n"
                         "  export CARD --out FILE  write a card of the workbox to a file\n"
                         "  list                    show what is in the workbox\n"
                         "  check                   see whether the workbox is sound\n\n"
                         "Example:\n"
                         "  otherskein workbox import cotton.csv silk.csv"));
    return line;
}

} // namespace

std::unique_ptr<workbox::Document> openWorkbox(const Call& call) {
    if (!QFileInfo::exists(call.workboxPath)) {
        throw base::InputError(
            {call.workboxPath,
             {},
             {},
             WorkboxTexts::tr("a workbox (\"otherskein workbox import\" makes one)"),
             WorkboxTexts::tr("none there")});
    }
    return std::make_unique<workbox::Document>(call.workboxPath);
}

void runWorkbox(Call call) {
    CommandLine line = workboxLine();
    if (!line.read(call)) {
        return;
    }
    const QString word = line.rest().isEmpty() ? QString() : line.rest().front();
    const auto action = std::ranges::find_if(
        kActions, [&](const Action& one) { return word == QLatin1String(one.name); });
    if (action == kActions.end()) {
        throw badWord(
            QStringLiteral("otherskein workbox"), WorkboxTexts::tr("import, export, list or check"),
            line.rest().isEmpty() ? WorkboxTexts::tr("nothing") : base::quotedForMessage(word));
    }
    call.words = line.rest().mid(1);
    action->run(call);
}

} // namespace otherskein::cli
