#include "base/whole_file.h"
#include "cli/detail/answer.h"
#include "cli/detail/command_line.h"
#include "cli/detail/similar.h"
#include "cli/workbox_actions.h"

#include <QCoreApplication>
#include <QFileInfo>

namespace otherskein::cli {

namespace {

struct WorkboxExportTexts {
    Q_DECLARE_TR_FUNCTIONS(WorkboxExport)
};

CommandLine workboxExportLine() {
    CommandLine line(
        QStringLiteral("otherskein workbox export"),
        WorkboxExportTexts::tr("Writes a card of the workbox, stash and all, to a shade card file "
                               "(CSV)."),
        CommandLine::Takes::Files, WorkboxExportTexts::tr("CARD"));
    line.value("--out", WorkboxExportTexts::tr("FILE"),
               WorkboxExportTexts::tr("the file to write"));
    line.flag("--force", WorkboxExportTexts::tr("replace the file if there is one"));
    line.footer(WorkboxExportTexts::tr("Example:\n"
                                       "  otherskein workbox export cotton --out cotton-mine.csv"));
    return line;
}

thread::ShadeCard cardNamed(const workbox::Document& document, const QString& name) {
    if (const workbox::StoredCard* stored = document.cardNamed(name)) {
        return document.shadeCard(stored->id);
    }
    QStringList names;
    for (const workbox::StoredCard& stored : document.cards()) {
        names.push_back(stored.name);
    }
    throw badWord(QStringLiteral("otherskein workbox export"),
                  WorkboxExportTexts::tr("the name of a card in the workbox"),
                  base::quotedForMessage(name) + similarHint(name, names));
}

/// `--force` is meant for an older export, never for the workbox itself.
void checkNotWorkbox(const QString& path, const QString& workboxPath) {
    if (QFileInfo::exists(path) && QFileInfo(path) == QFileInfo(workboxPath)) {
        throw base::InputError({path,
                                {},
                                {},
                                WorkboxExportTexts::tr("another file than the workbox"),
                                WorkboxExportTexts::tr("the workbox")});
    }
}

} // namespace

void exportCard(Call call) {
    CommandLine line = workboxExportLine();
    if (!line.read(call)) {
        return;
    }
    if (line.rest().size() != 1) {
        throw badWord(QStringLiteral("otherskein workbox export"),
                      WorkboxExportTexts::tr("one CARD"),
                      line.rest().isEmpty() ? WorkboxExportTexts::tr("none")
                                            : QString::number(line.rest().size()));
    }
    const QString out = line.word("--out").value_or(QString());
    if (out.isEmpty()) {
        throw badWord(QStringLiteral("otherskein workbox export"),
                      WorkboxExportTexts::tr("--out FILE"), WorkboxExportTexts::tr("none"));
    }
    checkNotWorkbox(out, call.workboxPath);
    const auto document = openWorkbox(call);
    const thread::ShadeCard card = cardNamed(*document, line.rest().front());
    base::writeWholeFile(out, thread::shadeCardCsv(card),
                         line.has("--force") ? base::Existing::Replace : base::Existing::Refuse);
    print(call.out,
          WorkboxExportTexts::tr("Written: %1, threads: %2").arg(out).arg(card.threads.size()) +
              QLatin1Char('\n'));
}

} // namespace otherskein::cli
