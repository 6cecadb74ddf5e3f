#include "base/whole_file.h"
#include "cli/detail/answer.h"
#include "cli/detail/command_line.h"
#include "cli/detail/similar.h"
#include "cli/workbox_actions.h"

#include <QCoreApplication>
#include <QFileInfo>

namespace otherskein::cli {

namespace {

struct Texts {
    Q_DECLARE_TR_FUNCTIONS(WorkboxExport)
};

CommandLine commandLine() {
    CommandLine line(QStringLiteral("otherskein workbox export"),
                     Texts::tr("Writes a card of the workbox, stash and all, to a shade card file "
                               "(CSV)."),
                     CommandLine::Takes::Files, Texts::tr("CARD"));
    line.value("--out", Texts::tr("FILE"), Texts::tr("the file to write"));
    line.flag("--force", Texts::tr("replace the file if there is one"));
    line.footer(Texts::tr("Example:\n"
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
                  Texts::tr("the name of a card in the workbox"),
                  base::quotedForMessage(name) + similarHint(name, names));
}

/// `--force` is meant for an older export, never for the workbox itself.
void checkNotWorkbox(const QString& path, const QString& workboxPath) {
    if (QFileInfo::exists(path) && QFileInfo(path) == QFileInfo(workboxPath)) {
        throw base::InputError(
            {path, {}, {}, Texts::tr("another file than the workbox"), Texts::tr("the workbox")});
    }
}

} // namespace

void exportCard(Call call) {
    CommandLine line = commandLine();
    if (!line.read(call)) {
        return;
    }
    if (line.rest().size() != 1) {
        throw badWord(QStringLiteral("otherskein workbox export"), Texts::tr("one CARD"),
                      line.rest().isEmpty() ? Texts::tr("none")
                                            : QString::number(line.rest().size()));
    }
    const QString out = line.word("--out").value_or(QString());
    if (out.isEmpty()) {
        throw badWord(QStringLiteral("otherskein workbox export"), Texts::tr("--out FILE"),
                      Texts::tr("none"));
    }
    checkNotWorkbox(out, call.workboxPath);
    const auto document = openWorkbox(call);
    const thread::ShadeCard card = cardNamed(*document, line.rest().front());
    base::writeWholeFile(out, thread::shadeCardCsv(card),
                         line.has("--force") ? base::Existing::Replace : base::Existing::Refuse);
    print(call.out, Texts::tr("Written: %1, threads: %2").arg(out).arg(card.threads.size()) +
                        QLatin1Char('\n'));
}

} // namespace otherskein::cli
