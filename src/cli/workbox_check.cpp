#include "cli/detail/answer.h"
#include "cli/detail/command_line.h"
#include "cli/detail/table.h"
#include "cli/workbox_actions.h"

#include <QCoreApplication>
#include <QFileInfo>

namespace otherskein::cli {

namespace {

struct WorkboxCheckTexts {
    Q_DECLARE_TR_FUNCTIONS(WorkboxCheck)
};

CommandLine workboxCheckLine() {
    CommandLine line(
        QStringLiteral("otherskein workbox check"),
        WorkboxCheckTexts::tr("Reads the whole workbox and tells what is wrong with it. Exit "
                              "code 0: it is sound; 2: it is not."));
    line.flag("--json", WorkboxCheckTexts::tr("print one JSON document"));
    line.footer(WorkboxCheckTexts::tr("Example:\n"
                                      "  otherskein workbox check"));
    return line;
}

} // namespace

void checkWorkbox(Call call) {
    CommandLine line = workboxCheckLine();
    if (!line.read(call)) {
        return;
    }
    // Opening would fill an empty file, and call it sound.
    if (const QFileInfo file(call.workboxPath); file.isFile() && file.size() == 0) {
        throw base::InputError({call.workboxPath,
                                {},
                                {},
                                WorkboxCheckTexts::tr("a workbox"),
                                WorkboxCheckTexts::tr("an empty file")});
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
        print(call.out,
              WorkboxCheckTexts::tr("Sound: %1").arg(call.workboxPath) + QLatin1Char('\n'));
    } else {
        for (const QString& problem : problems) {
            print(call.out, printable(problem) + QLatin1Char('\n'));
        }
    }
    if (!problems.empty()) {
        throw base::InputError({call.workboxPath,
                                {},
                                {},
                                WorkboxCheckTexts::tr("a sound workbox"),
                                WorkboxCheckTexts::tr("problems: %1").arg(problems.size())});
    }
}

} // namespace otherskein::cli
