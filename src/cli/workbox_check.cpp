#include "cli/detail/answer.h"
#include "cli/detail/command_line.h"
#include "cli/detail/table.h"
#include "cli/workbox_actions.h"

#include <QCoreApplication>
#include <QFileInfo>

namespace otherskein::cli {

namespace {

struct Texts {
    Q_DECLARE_TR_FUNCTIONS(WorkboxCheck)
};

CommandLine commandLine() {
    CommandLine line(QStringLiteral("otherskein workbox check"),
                     Texts::tr("Reads the whole workbox and tells what is wrong with it. Exit "
                               "code 0: it is sound; 2: it is not."));
    line.flag("--json", Texts::tr("print one JSON document"));
    line.footer(Texts::tr("Example:\n"
                          "  otherskein workbox check"));
    return line;
}

} // namespace

void checkWorkbox(Call call) {
    CommandLine line = commandLine();
    if (!line.read(call)) {
        return;
    }
    // Opening would fill an empty file, and call it sound.
    if (const QFileInfo file(call.workboxPath); file.isFile() && file.size() == 0) {
        throw base::InputError(
            {call.workboxPath, {}, {}, Texts::tr("a workbox"), Texts::tr("an empty file")});
    }
    const std::vector<QString> problems = openWorkbox(call)->store().problems();
    if (line.has("--json")) {
        QJsonArray list;
        for (const QString& problem : problems) {
            list.append(problem);
        }
        print(call.out, {{QStringLiteral("workbox"), call.workboxPath},
                         {QStringLiteral("sound"), problems.empty()},
                         {QStringLiteral("problems"), list}});
    } else if (problems.empty()) {
        print(call.out, Texts::tr("Sound: %1").arg(call.workboxPath) + QLatin1Char('\n'));
    } else {
        for (const QString& problem : problems) {
            print(call.out, printable(problem) + QLatin1Char('\n'));
        }
    }
    if (!problems.empty()) {
        throw base::InputError({call.workboxPath,
                                {},
                                {},
                                Texts::tr("a sound workbox"),
                                Texts::tr("problems: %1").arg(problems.size())});
    }
}

} // namespace otherskein::cli
