#include "app/threads/card_import.h"

#include "app/threads/thread_columns.h"
#include "app/threads/threads_text.h"
#include "base/input_error.h"
#include "base/whole_file.h"

#include <QCoreApplication>
#include <QFileInfo>

#include <algorithm>

namespace otherskein::app {

namespace {

/// A file that was read, or what became of it.
struct ReadFile {
    std::optional<thread::ShadeCard> card;
    ImportOutcome outcome;
    bool nameIsTaken = false;
};

ReadFile readFile(const workbox::Document& document, const QString& path) {
    ReadFile file;
    file.outcome.file = QFileInfo(path).fileName();
    try {
        file.card = thread::readShadeCard(path);
    } catch (const base::InputError& error) {
        file.outcome.refusal = error.line();
        return file;
    }
    file.outcome.threads = static_cast<int>(file.card->threads.size());
    for (const QString& column : thread::extraColumns(*file.card)) {
        file.outcome.keptColumns.push_back(column);
    }
    file.nameIsTaken = document.cardNamed(file.card->name) != nullptr;
    return file;
}

void take(workbox::Document& document, ReadFile& file, SameName sameName) {
    ImportOutcome& outcome = file.outcome;
    if (file.nameIsTaken && sameName == SameName::Skip) {
        outcome.what = ImportOutcome::What::Skipped;
        return;
    }
    try {
        if (file.nameIsTaken && sameName == SameName::BringUpToDate) {
            const workbox::StoredCard* card = document.cardNamed(file.card->name);
            outcome.card = card->id;
            document.mergeCard(card->id, *file.card);
            outcome.what = ImportOutcome::What::BroughtUpToDate;
        } else {
            outcome.card = document.addCard(*file.card);
            outcome.what = ImportOutcome::What::Added;
        }
    } catch (const base::InputError& error) {
        outcome.card.reset();
        outcome.refusal = error.line();
    }
}

int countOf(const std::vector<ImportOutcome>& outcomes, ImportOutcome::What what) {
    return static_cast<int>(std::ranges::count(outcomes, what, &ImportOutcome::what));
}

} // namespace

std::vector<ImportOutcome>
importCards(workbox::Document& document, const QStringList& paths,
            const std::function<SameName(const QStringList& names)>& ask) {
    std::vector<ReadFile> files;
    QStringList taken;
    for (const QString& path : paths) {
        files.push_back(readFile(document, path));
        if (files.back().nameIsTaken) {
            taken.push_back(files.back().card->name);
        }
    }
    taken.removeDuplicates();
    const SameName sameName = taken.isEmpty() ? SameName::AddAsNew : ask(taken);
    std::vector<ImportOutcome> outcomes;
    for (ReadFile& file : files) {
        if (file.card) {
            take(document, file, sameName);
        }
        outcomes.push_back(std::move(file.outcome));
    }
    return outcomes;
}

QString lineOf(const ImportOutcome& outcome) {
    QString line;
    switch (outcome.what) {
    case ImportOutcome::What::Refused:
        return outcome.refusal;
    case ImportOutcome::What::Skipped:
        return threadsText("%1: left out, the card is in the workbox already.").arg(outcome.file);
    case ImportOutcome::What::Added:
        line = threadsText("%1: %2 read.").arg(outcome.file, shownCount(outcome.threads));
        break;
    case ImportOutcome::What::BroughtUpToDate:
        line = threadsText("%1: %2 read, the card is up to date.")
                   .arg(outcome.file, shownCount(outcome.threads));
        break;
    }
    if (!outcome.keptColumns.isEmpty()) {
        line += QStringLiteral(" ") + threadsText("Columns of its own, kept: %1.")
                                          .arg(outcome.keptColumns.join(QStringLiteral(", ")));
    }
    return line;
}

QString summaryOf(const std::vector<ImportOutcome>& outcomes) {
    int threads = 0;
    for (const ImportOutcome& one : outcomes) {
        threads += one.card ? one.threads : 0;
    }
    const int refused = countOf(outcomes, ImportOutcome::What::Refused);
    const int skipped = countOf(outcomes, ImportOutcome::What::Skipped);
    const int cards = static_cast<int>(outcomes.size()) - refused - skipped;
    QStringList parts;
    if (cards > 0) {
        parts.push_back(cards == 1
                            ? threadsText("1 card read, %1").arg(shownCount(threads))
                            : threadsText("%1 cards read, %2").arg(cards).arg(shownCount(threads)));
    }
    if (skipped > 0) {
        parts.push_back(threadsText("%1 left out").arg(skipped));
    }
    if (refused > 0) {
        parts.push_back(refused == 1 ? threadsText("1 file refused")
                                     : threadsText("%1 files refused").arg(refused));
    }
    return parts.join(QStringLiteral("; ")) + QStringLiteral(".");
}

void exportCard(const workbox::Document& document, workbox::CardId card, const QString& path) {
    base::writeWholeFile(path, thread::shadeCardCsv(document.shadeCard(card)),
                         base::Existing::Replace);
}

} // namespace otherskein::app
