#pragma once

#include "app/tracing_fixture.h"

#include "app/tracing/page_preview.h"
#include "app/tracing/pieces_panel.h"
#include "app/tracing/trace_dialog.h"

#include <QListWidget>
#include <QThreadPool>

#include <mutex>

namespace otherskein::tests {

[[nodiscard]] inline trace::FoundGrid gridAt(int columns, int rows, const QRectF& box) {
    return {columns, rows,
            QPolygonF({box.topLeft(), box.topRight(), box.bottomRight(), box.bottomLeft()}),
            std::nullopt, std::nullopt};
}

/// What the tracer was asked.
struct Asked {
    std::mutex mutex;
    std::vector<int> read;
    QStringList files;                    ///< of each page read
    std::vector<std::size_t> joinedGrids; ///< grids of each page, at the last time
    std::vector<trace::Piece> traced;
};

[[nodiscard]] inline app::Tracer tracerOf(Asked& asked, int pages, const trace::Tracing& tracing) {
    app::Tracer tracer;
    tracer.pageCount = [pages](const QString&) { return pages; };
    tracer.readPage = [&asked](const QString& file, int number) {
        const std::lock_guard lock(asked.mutex);
        asked.read.push_back(number);
        asked.files.push_back(file);
        trace::Page page{file, number, QImage(300, 400, QImage::Format_BGR888), {}};
        page.picture.fill(Qt::white);
        return page;
    };
    tracer.gridsOn = [](const trace::Page& page) {
        if (page.number == 3) {
            return std::vector<trace::FoundGrid>{}; // a page of words
        }
        return std::vector<trace::FoundGrid>{gridAt(8, 6, {20, 20, 160, 120}),
                                             gridAt(4, 4, {20, 200, 80, 80})};
    };
    tracer.joined = [&asked](std::span<const trace::Page>,
                             std::span<const std::vector<trace::FoundGrid>> grids) {
        const std::lock_guard lock(asked.mutex);
        asked.joinedGrids.clear();
        std::vector<trace::Piece> pieces;
        int column = 0;
        for (std::size_t page = 0; page < grids.size(); ++page) {
            asked.joinedGrids.push_back(grids[page].size());
            for (const trace::FoundGrid& grid : grids[page]) {
                pieces.push_back({page, grid, {column, 0}});
                column += grid.columns;
            }
        }
        return pieces;
    };
    tracer.traced = [&asked,
                     tracing](std::span<const trace::Page>, std::span<const trace::Piece> pieces,
                              const trace::Progress& progress) -> std::optional<trace::Tracing> {
        const std::lock_guard lock(asked.mutex);
        asked.traced.assign(pieces.begin(), pieces.end());
        return progress(0.5) ? std::optional(tracing) : std::nullopt;
    };
    return tracer;
}

struct OpenDialog {
    OpenCharts charts;
    Asked asked;
    trace::Tracing tracing = tracingOf({"aab", "bba"}, {"aab", "bca"});
    app::TraceDialog dialog;
    std::optional<workbox::ChartId> made;

    explicit OpenDialog(int pages = 1) : OpenDialog(pages, [](app::Tracer&) {}) {}
    OpenDialog(int pages, const std::function<void(app::Tracer&)>& spoil,
               const QStringList& files = {QStringLiteral("/pages/Leaf of May.pdf")},
               bool waits = true)
        : dialog(charts.session, files, nullptr, [&] {
              app::Tracer tracer = tracerOf(asked, pages, tracing);
              spoil(tracer);
              return tracer;
          }()) {
        QObject::connect(&dialog, &app::TraceDialog::made,
                         [this](workbox::ChartId id) { made = id; });
        dialog.show();
        dialog.activateWindow(); // keys reach the active window only
        (void)QTest::qWaitForWindowActive(&dialog);
        if (waits) {
            settle();
        }
    }
    /// No job may outlive what the tracer looks at.
    ~OpenDialog() {
        dialog.reject();
        QThreadPool::globalInstance()->waitForDone();
    }

    void settle() {
        REQUIRE(QTest::qWaitFor([this] { return !dialog.isBusy(); }));
        QTest::qWait(0);
    }
    template <typename Widget>
    [[nodiscard]] Widget& control(const char* name) const {
        for (auto* one : dialog.findChildren<Widget*>()) {
            if (one->accessibleName() == QString::fromUtf8(name)) {
                return *one;
            }
        }
        FAIL("no " << name);
        throw std::logic_error(name);
    }
    [[nodiscard]] QListWidget& pages() const { return *dialog.findChild<QListWidget*>(); }
    [[nodiscard]] app::PagePreview& preview() const {
        return *dialog.findChild<app::PagePreview*>();
    }
    [[nodiscard]] QString trouble() const {
        const auto& label = control<QLabel>("What went wrong");
        return label.isVisible() ? label.text() : QString();
    }
    [[nodiscard]] bool says(const QString& start) const {
        for (const auto* label : dialog.findChildren<QLabel*>()) {
            if (label->isVisible() && label->text().startsWith(start)) {
                return true;
            }
        }
        return false;
    }
};

} // namespace otherskein::tests
