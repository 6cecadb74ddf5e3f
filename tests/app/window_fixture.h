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

    /// The control of that accessible name, or null. Places share names, so one that is seen counts
    /// before one of a place behind.
    template <typename Widget>
    [[nodiscard]] Widget* control(const QString& name) const {
        return seenFirst<Widget>([&](const Widget& one) { return one.accessibleName() == name; });
    }

    /// The button with that text, or null.
    template <typename Button>
    [[nodiscard]] Button* button(const QString& text) const {
        return seenFirst<Button>([&](const Button& one) { return one.text() == text; });
    }

  private:
    template <typename Widget, typename Fits>
    [[nodiscard]] Widget* seenFirst(const Fits& fits) const {
        Widget* hidden = nullptr;
        for (auto* one : window->template findChildren<Widget*>()) {
            if (fits(*one)) {
                if (one->isVisible()) {
                    return one;
                }
                hidden = hidden != nullptr ? hidden : one;
            }
        }
        return hidden;
    }
};

} // namespace otherskein::tests
