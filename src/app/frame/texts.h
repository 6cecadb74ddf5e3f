#pragma once

class QCoreApplication;

namespace otherskein::app {

/// Loads the texts of the user's language, or English, which needs a file for its plurals.
/// Call once, before the first window.
void loadTexts(QCoreApplication& application);

} // namespace otherskein::app
