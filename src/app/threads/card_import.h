#pragma once

#include "workbox/document.h"

#include <QStringList>

#include <functional>

namespace otherskein::app {

/// What to do with a file whose card's name is in the workbox already.
enum class SameName { BringUpToDate, AddAsNew, Skip };

/// What became of one file.
struct ImportOutcome {
    enum class What { Added, BroughtUpToDate, Skipped, Refused };
    QString file; ///< name without folder
    What what = What::Refused;
    int threads = 0;
    QStringList keptColumns; ///< unknown ones
    QString refusal;         ///< the one line that says why
    std::optional<workbox::CardId> card;
};

/// Reads every file for itself; one that is refused does not keep the others out. `ask` is called
/// once at most, with the names that are in the workbox already.
[[nodiscard]] std::vector<ImportOutcome>
importCards(workbox::Document& document, const QStringList& paths,
            const std::function<SameName(const QStringList& names)>& ask);

/// A line for the report, and one for all of them.
[[nodiscard]] QString lineOf(const ImportOutcome& outcome);
[[nodiscard]] QString summaryOf(const std::vector<ImportOutcome>& outcomes);

/// The file "CARD.csv". Errors: InputError.
void exportCard(const workbox::Document& document, workbox::CardId card, const QString& path);

} // namespace otherskein::app
