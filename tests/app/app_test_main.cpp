// The main of the window tests: a real application on the offscreen platform, in the look it ships
// with.
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>

#include "app/frame/look.h"
#include "app/frame/texts.h"

#include <QApplication>

int main(int argc, char* argv[]) {
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    QApplication application(argc, argv);
    otherskein::app::loadTexts(application);
    otherskein::app::applyLook(application, otherskein::app::Tone::Light);
    return Catch::Session().run(argc, argv);
}
