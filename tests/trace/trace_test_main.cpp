// Letters in charts need fonts, and those a QGuiApplication.
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>

#include <QGuiApplication>

int main(int argc, char* argv[]) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QGuiApplication application(argc, argv);
    return Catch::Session().run(argc, argv);
}
