#include "cli/detail/answer.h"
#include "cli/detail/command_line.h"
#include "cli/detail/table.h"
#include "cli/workbox_actions.h"
#include "thread/shade_card.h"

#include <QCoreApplication>
#include <QFileInfo>

#include <algorithm>

namespace otherskein::cli {

namespace {

struct WorkboxImportTexts {
    Q_DECLARE_TR_FUNCTIONS(WorkboxImport)
};

CommandLine workboxImportLine() {
    CommandLine line(
        QStringLiteral("otherskein workbox import"),
        WorkboxImportTexts::tr("Takes shade card files into the workbox, all of them or none. The "
                               "workbox is made if need be."),
        CommandLine::Takes::Files, WorkboxImportTexts::tr("FILE..."));
    line.flag("--update", WorkboxImportTexts::tr(
                              "bring cards of the same name up to date; what a file lacks stays"));
    line.footer(WorkboxImportTexts::tr("Example:\n"
                                       "  otherskein workbox import cotton.csv silk.csv"));
    return line;
}

struct CardFile {
    QString path;
    thread::ShadeCard card;
};

/// Each file once. Errors: InputError; also where two files hold cards of one name.
std::vector<CardFile> readAll(const QStringList& paths) {
    std::vector<CardFile> files;
    QStringList read;
    for (const QString& path : paths) {
        const QString canonical = QFileInfo(path).canonicalFilePath();
        if (!canonical.isEmpty() && read.contains(canonical)) {
            continue;
        }
        read.push_back(canonical);
        CardFile file{path, thread::readShadeCard(path)};
        const auto namesake = std::ranges::find_if(
            files, [&](const CardFile& one) { return one.card.name == file.card.name; });
        if (namesake != files.end()) {
            throw base::InputError(
                {path,
                 {},
                 {},
                 WorkboxImportTexts::tr("files of different names"),
                 WorkboxImportTexts::tr("the name of %1 again").arg(namesake->path)});
        }
        files.push_back(std::move(file));
    }
    return files;
}

/// Undoes what has been saved when something later fails, so that all goes in or nothing.
class AllOrNone {
  public:
    explicit AllOrNone(QUndoStack& steps) : m_steps(steps) {}
    ~AllOrNone() {
        while (!m_done && m_steps.canUndo()) {
            m_steps.undo(); // a step that cannot be saved drops out, so this ends
        }
    }
    AllOrNone(const AllOrNone&) = delete;
    AllOrNone& operator=(const AllOrNone&) = delete;
    void done() { m_done = true; }

  private:
    QUndoStack& m_steps;
    bool m_done = false;
};

void takeIn(workbox::Document& document, const std::vector<CardFile>& files) {
    AllOrNone guard(document.undoStack());
    std::vector<thread::ShadeCard> added;
    for (const CardFile& file : files) {
        if (const workbox::StoredCard* known = document.cardNamed(file.card.name)) {
            document.mergeCard(known->id, file.card);
        } else {
            added.push_back(file.card);
        }
    }
    document.addAll(added, {}, WorkboxImportTexts::tr("Import"));
    guard.done();
}

} // namespace

void importCards(Call call) {
    CommandLine line = workboxImportLine();
    if (!line.read(call)) {
        return;
    }
    if (line.rest().isEmpty()) {
        throw badWord(QStringLiteral("otherskein workbox import"),
                      WorkboxImportTexts::tr("at least one shade card file"),
                      WorkboxImportTexts::tr("none"));
    }
    const std::vector<CardFile> files = readAll(line.rest()); // before a workbox is made
    workbox::Document document(call.workboxPath);
    QString report;
    for (const CardFile& file : files) {
        const bool known = document.cardNamed(file.card.name) != nullptr;
        if (known && !line.has("--update")) {
            throw base::InputError(
                {file.path,
                 {},
                 {},
                 WorkboxImportTexts::tr("a card that is not in the workbox yet (or --update)"),
                 WorkboxImportTexts::tr("one of the same name, %1")
                     .arg(base::quotedForMessage(file.card.name))});
        }
        report += (known ? WorkboxImportTexts::tr("Brought up to date: %1, threads in the file: %2")
                         : WorkboxImportTexts::tr("Taken in: %1, threads: %2"))
                      .arg(printable(file.card.name))
                      .arg(file.card.threads.size()) +
                  QLatin1Char('\n');
    }
    takeIn(document, files);
    print(call.out,
          report + WorkboxImportTexts::tr("Workbox: %1").arg(call.workboxPath) + QLatin1Char('\n'));
}

} // namespace otherskein::cli
