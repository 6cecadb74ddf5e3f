#pragma once

#include "app/charts/charts_place.h"
#include "app/frame/main_window.h"
#include "app/recolour/recolour_place.h"
#include "app/substitute/substitute_place.h"
#include "workbox/document.h"

#include <QTemporaryDir>
#include <QTest>

#include <memory>

namespace otherskein::tests {

/// A real window on a real workbox file in a folder of its own.
struct OpenWindow {
    QTemporaryDir folder;
    std::unique_ptr<workbox::Document> document;
    std::unique_ptr<app::MainWindow> window;

    OpenWindow() { open(); }

    void open() {
        window.reset();
        document.reset();
        document =
            std::make_unique<workbox::Document>(folder.filePath(QStringLiteral("workbox.sqlite")));
        window = std::make_unique<app::MainWindow>(*document);
        window->QMainWindow::show();
        [[maybe_unused]] const bool shown = QTest::qWaitForWindowExposed(window.get());
    }

    [[nodiscard]] app::SubstitutePlace& substitute() const { return window->substitutePlace(); }

    [[nodiscard]] app::RecolourPlace& recolour() const { return window->recolourPlace(); }
    [[nodiscard]] app::ChartsPlace& charts() const { return window->chartsPlace(); }

    /// False when no answer came in good time.
    [[nodiscard]] bool answered() const {
        QTest::qWait(0);
        return QTest::qWaitFor([this] { return !substitute().isBusy(); });
    }

    /// The control of that accessible name, or null.
    template <typename Widget>
    [[nodiscard]] Widget* control(const QString& name) const {
        for (auto* one : window->template findChildren<Widget*>()) {
            if (one->accessibleName() == name) {
                return one;
            }
        }
        return nullptr;
    }

    /// The button with that text, or null.
    template <typename Button>
    [[nodiscard]] Button* button(const QString& text) const {
        for (auto* one : window->template findChildren<Button*>()) {
            if (one->text() == text) {
                return one;
            }
        }
        return nullptr;
    }
};

} // namespace otherskein::tests
