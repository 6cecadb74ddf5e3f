#include "app/threads/threads_dialogs.h"

#include <QCoreApplication>
#include <QFileDialog>
#include <QMessageBox>
#include <QPushButton>

namespace otherskein::app {

namespace {

constexpr qsizetype kMostNamesSaid = 6;

QString tr(const char* text) {
    return QCoreApplication::translate("Threads", text);
}

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
        parent, tr("Import shade cards"), {},
        tr("Shade cards (*.csv *.txt *.cgats *.it8 *.ti3);;CSV (*.csv);;"
           "CGATS (*.txt *.cgats *.it8 *.ti3);;All files (*)"));
}

QString askForExportFile(QWidget* parent, const QString& cardName) {
    return QFileDialog::getSaveFileName(parent, tr("Export the shade card"), fileNameOf(cardName),
                                        tr("CSV (*.csv)"));
}

SameName askAboutSameName(QWidget* parent, const QStringList& names) {
    QString said = names.mid(0, kMostNamesSaid).join(QStringLiteral(", "));
    if (names.size() > kMostNamesSaid) {
        said += QStringLiteral(", …");
    }
    QMessageBox box(parent);
    box.setWindowTitle(tr("Import"));
    box.setText(names.size() == 1
                    ? tr("The workbox has a card named %1 already.").arg(said)
                    : tr("The workbox has cards of these names already: %1.").arg(said));
    box.setInformativeText(tr(
        "Bringing it up to date takes new shades and values from the file. Your stash and all that "
        "the file does not say stay as they are."));
    const auto* update = box.addButton(tr("Bring up to date"), QMessageBox::AcceptRole);
    const auto* add = box.addButton(tr("Add as a new card"), QMessageBox::ActionRole);
    box.addButton(tr("Skip"), QMessageBox::RejectRole);
    box.exec();
    if (box.clickedButton() == update) {
        return SameName::BringUpToDate;
    }
    return box.clickedButton() == add ? SameName::AddAsNew : SameName::Skip;
}

} // namespace otherskein::app
