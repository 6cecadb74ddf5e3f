#pragma once

#include "app/threads/card_import.h"

class QWidget;

namespace otherskein::app {

/// The questions of the place Threads that need a dialog. An empty answer: the user changed their
/// mind.

[[nodiscard]] QStringList askForCardFiles(QWidget* parent);
[[nodiscard]] QString askForExportFile(QWidget* parent, const QString& cardName);
[[nodiscard]] SameName askAboutSameName(QWidget* parent, const QStringList& names);

} // namespace otherskein::app
