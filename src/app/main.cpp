#include "app/frame/look.h"
#include "app/frame/main_window.h"
#include "app/frame/texts.h"
#include "base/input_error.h"
#include "cli/run.h"

#include <QApplication>
#include <QMessageBox>
#include <QScreen>

#include <iostream>

using namespace otherskein;

namespace {

constexpr int kBadInput = 2;

/// Qt's application object must be a plain one here, so that a command runs where there is no
/// display.
cli::Invocation runCommand(int argc, char* argv[]) {
    const QCoreApplication application(argc, argv);
    QCoreApplication::setApplicationName(QStringLiteral("otherskein"));
    return cli::run(QCoreApplication::arguments().mid(1), {std::cout, std::cerr});
}

bool hasDisplay() {
#ifdef Q_OS_LINUX
    return qEnvironmentVariableIsSet("DISPLAY") || qEnvironmentVariableIsSet("WAYLAND_DISPLAY") ||
           qEnvironmentVariableIsSet("QT_QPA_PLATFORM");
#else
    return true;
#endif
}

/// A small screen shows all of the window, with the bar that the desktop puts above it.
void fitOnScreen(QWidget& window) {
    constexpr QSize kFrame(8, 40); // of common desktops; it is known only when it is there
    window.resize(window.size().boundedTo(window.screen()->availableSize() - kFrame));
}

} // namespace

int main(int argc, char* argv[]) {
    const cli::Invocation invocation = runCommand(argc, argv);
    if (!invocation.wantsWindow()) {
        return *invocation.exitCode;
    }
    if (!hasDisplay()) {
        std::cerr << "otherskein: expected a display for the window, found none "
                     "(commands work without one: otherskein --help)\n";
        return kBadInput;
    }

    QApplication application(argc, argv);
    app::loadTexts(application);
    QApplication::setApplicationName(QStringLiteral("otherskein"));
    QApplication::setApplicationDisplayName(QStringLiteral("Otherskein"));
    try {
        workbox::Document document(invocation.workboxPath);
        app::applyLook(application, app::toneOf(document.store().setting(QStringLiteral("tone"))));
        app::MainWindow window(document);
        if (invocation.demo && document.cards().empty()) {
            window.openDemo();
        }
        fitOnScreen(window);
        window.QMainWindow::show();
        return QApplication::exec();
    } catch (const base::InputError& error) {
        app::applyLook(application, app::Tone::Light);
        QMessageBox::critical(nullptr, QObject::tr("The workbox cannot be opened"),
                              error.line() + QStringLiteral("\n\n") +
                                  QObject::tr("The file is left as it is. Choose another one with "
                                              "--workbox, or put a copy in its place."));
        return kBadInput;
    }
}
