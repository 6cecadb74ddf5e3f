#include "app/frame/texts.h"

#include <QCoreApplication>
#include <QLocale>
#include <QTranslator>

namespace otherskein::app {

void loadTexts(QCoreApplication& application) {
    auto* texts = new QTranslator(&application);
    const QString name = QStringLiteral("otherskein");
    const QString folder = QStringLiteral(":/i18n");
    const bool loaded = texts->load(QLocale(), name, QStringLiteral("_"), folder) ||
                        texts->load(QStringLiteral("otherskein_en"), folder);
    if (loaded) {
        QCoreApplication::installTranslator(texts);
    }
}

} // namespace otherskein::app
