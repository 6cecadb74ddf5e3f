#include "app/threads/threads_dialogs.h"

#include "app/threads/threads_text.h"

#include <QCoreApplication>
#include <QFileDialog>
#include <QMessageBox>
#include <QPushButton>

namespace otherskein::app {

namespace {

constexpr qsizetype kMostNamesSaid = 6;

/// A file name that every system takes.
QString fileNameOf(QString cardName) {
    for (QChar& c : cardName) {
        if (QStringLiteral("<>:\"/\\|?*").contains(c) || c < u' ') {
            c = u'-';
        }
    }
    return cardName + QStringLiteral(".csv");
}

} // namespace

QStringList askForCardFiles(QWidget* parent) {
    return QFileDialog::getOpenFileNames(
        parent, threadsText("Import shade cards"), {},
        threadsText("Shade cards (*.csv *.txt *.cgats *.it8 *.ti3);;CSV (*.csv);;"
                    "CGATS (*.txt *.cgats *.it8 *.ti3);;All files (*)"));
}

QString askForExportFile(QWidget* parent, const QString& cardName) {
    return QFileDialog::getSaveFileName(parent, threadsText("Export the shade card"),
                                        fileNameOf(cardName), threadsText("CSV (*.csv)"));
}

SameName askAboutSameName(QWidget* parent, const QStringList& names) {
    QString said = names.mid(0, kMostNamesSaid).join(QStringLiteral(", "));
    if (names.size() > kMostNamesSaid) {
        said += QStringLiteral(", …");
    }
    QMessageBox box(parent);
    box.setWindowTitle(threadsText("Import"));
    box.setText(names.size() == 1
                    ? threadsText("The workbox has a card named %1 already.").arg(said)
                    : threadsText("The workbox has cards of these names already: %1.").arg(said));
    box.setInformativeText(threadsText(
        "Bringing it up to date takes new shades and values from the file. Your stash and all that "
        "the file does not say stay as they are."));
    const auto* update = box.addButton(threadsText("Bring up to date"), QMessageBox::AcceptRole);
    const auto* add = box.addButton(threadsText("Add as a new card"), QMessageBox::ActionRole);
    box.addButton(threadsText("Skip"), QMessageBox::RejectRole);
    box.exec();
    if (box.clickedButton() == update) {
        return SameName::BringUpToDate;
    }
    return box.clickedButton() == add ? SameName::AddAsNew : SameName::Skip;
}

} // namespace otherskein::app
