#include "cli/run.h"

#include "cli/detail/command_line.h"
#include "workbox/store.h"

#include <QCoreApplication>

#include <array>
#include <exception>
#include <new>
#include <ostream>

namespace otherskein::cli {

namespace {

constexpr int kDone = 0;
constexpr int kBadInput = 2;

struct RunTexts {
    Q_DECLARE_TR_FUNCTIONS(Run)
};

struct Command {
    const char* name;
    void (*run)(Call);
};

constexpr std::array kCommands{
    Command{"substitute", runSubstitute}, Command{"recolour", runRecolour},
    Command{"convert", runConvert},       Command{"ground", runGround},
    Command{"quantities", runQuantities}, Command{"trace", runTrace},
    Command{"workbox", runWorkbox}};

QString commandNames() {
    QStringList names;
    for (const Command& command : kCommands) {
        names.push_back(QString::fromLatin1(command.name));
    }
    return names.join(QStringLiteral(", "));
}

const Command& commandNamed(const QString& word) {
    for (const Command& command : kCommands) {
        if (word == QLatin1String(command.name)) {
            return command;
        }
    }
    throw badWord(QStringLiteral("otherskein"), RunTexts::tr("a command (%1)").arg(commandNames()),
                  base::quotedForMessage(word));
}

CommandLine runLine() {
    CommandLine line(QStringLiteral("otherskein"),
                     RunTexts::tr("Helps counted-thread stitchers find other threads by measured "
                                  "colour.\nWithout a command it opens the window."),
                     CommandLine::Takes::Leading, RunTexts::tr("[COMMAND ...]"));
    line.flag("--version", RunTexts::tr("show the version"));
    line.flag("--demo", RunTexts::tr("open the window on the demo, where the workbox is empty"));
    line.footer(
        RunTexts::tr("Commands (COMMAND --help tells more):\n"
                     "  substitute              find threads near a wanted one\n"
                     "  recolour                give a chart other colours\n"
                     "  convert                 work a chart in another line of threads\n"
                     "  ground                  see which threads show on a fabric\n"
                     "  quantities              see how much thread a chart takes and how large it "
                     "gets\n"
                     "  trace                   read a chart from a printed page\n"
                     "  workbox                 bring shade cards into your workbox and out "
                     "again\n\n"
                     "Example:\n"
                     "  otherskein substitute --wanted cotton.csv:C-218 --from silk.csv"));
    return line;
}

/// Carries out what `words` ask; false when they hold no command.
bool carryOut(const QStringList& words, Invocation& invocation, std::ostream& out) {
    Call call{words, invocation.workboxPath, false, out};
    CommandLine line = runLine();
    if (!line.read(call)) {
        return true;
    }
    invocation.workboxPath = call.workboxPath;
    if (line.has("--version")) {
        out << "otherskein " OTHERSKEIN_VERSION "\n";
        return true;
    }
    if (line.rest().isEmpty()) {
        invocation.demo = line.has("--demo");
        return false;
    }
    call.words = line.rest().mid(1);
    commandNamed(line.rest().front()).run(call);
    return true;
}

/// One line, whatever a library said.
std::string oneLine(const char* what) {
    return QString::fromUtf8(what).simplified().toStdString();
}

} // namespace

Invocation run(const QStringList& words, const Streams& streams) {
    Invocation invocation;
    invocation.workboxPath = workbox::defaultWorkboxPath();
    invocation.exitCode = kBadInput;
    try {
        if (!carryOut(words, invocation, streams.out)) {
            invocation.exitCode.reset();
            return invocation;
        }
        if (!streams.out.flush()) {
            throw badWord(RunTexts::tr("standard output"), RunTexts::tr("a place to write"),
                          RunTexts::tr("one that takes no more"));
        }
        invocation.exitCode = kDone;
    } catch (const base::InputError& error) {
        streams.err << error.what() << '\n';
    } catch (const std::bad_alloc&) {
        streams.err << "otherskein: not enough memory\n";
    } catch (const std::exception& error) {
        streams.err << "otherskein: could not finish: " << oneLine(error.what()) << '\n';
    }
    streams.err.flush();
    return invocation;
}

} // namespace otherskein::cli
