// How long a hand waits in a large traced chart.

#include "app/tracing_fixture.h"

#include "app/tracing/pair_canvas.h"

#include <catch2/catch.hpp>

#include <QElapsedTimer>

using namespace otherskein;
using app::PageView;
using tests::OpenTraced;

TEST_CASE("a chart of 100 × 140 cells goes from cell to cell without waiting") {
    OpenTraced open;
    std::vector<std::string> print(140, std::string(100, '.'));
    std::uint32_t noise = 7;
    for (std::string& row : print) {
        for (char& cell : row) {
            noise = noise * 1664525 + 1013904223; // Knuth's "quick and dirty" step, from memory
            cell = noise >> 30 == 0 ? '.' : static_cast<char>('a' + (noise >> 16) % 20);
        }
    }
    trace::Tracing tracing = tests::tracingOf(print, print, {}, 20);
    for (std::size_t cell = 0; cell < tracing.confidence.size(); cell += 3) {
        tracing.confidence[cell] = 0.3F;
    }
    const workbox::ChartId large =
        open.document.addTracedChart(tracing.chart, app::pageOf(tracing));
    open.session.chooseChart(large);
    open.change([](app::ChartsState& state) { state.pageView = PageView::Cells; });
    QTest::qWait(0);
    const auto halves = open.view().findChildren<app::PairCanvas*>();
    QString times;
    const auto timed = [&](const char* what, Qt::Key key, Qt::KeyboardModifiers modifiers) {
        std::vector<qint64> took;
        for (int i = 0; i < 9; ++i) {
            QElapsedTimer timer;
            timer.start();
            open.press(key, modifiers);
            for (app::PairCanvas* half : halves) {
                half->repaint();
            }
            QCoreApplication::processEvents();
            took.push_back(timer.nsecsElapsed() / 1000);
        }
        std::ranges::sort(took);
        times += QStringLiteral("%1: %2 µs, at most %3; ")
                     .arg(QLatin1String(what))
                     .arg(took[took.size() / 2])
                     .arg(took.back());
        return took[took.size() / 2];
    };
    // Goals are 50 ms and 16 ms; only a catastrophe is caught on a busy machine.
    CHECK(timed("next doubtful", Qt::Key_N, Qt::NoModifier) < 500'000);
    CHECK(timed("change", Qt::Key_1, Qt::NoModifier) < 500'000);
    CHECK(timed("accept", Qt::Key_Return, Qt::NoModifier) < 500'000);
    CHECK(timed("zoom", Qt::Key_Minus, Qt::NoModifier) < 200'000);
    CHECK(timed("whole", Qt::Key_0, Qt::NoModifier) < 400'000);
    if (qEnvironmentVariableIsSet("OTHERSKEIN_TIMES")) {
        FAIL(times.toStdString());
    }
}
