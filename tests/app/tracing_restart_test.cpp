// What of a traced chart's mending is still there when the program starts again, or another page
// comes.
#include "app/tracing_fixture.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using app::PageView;
using chart::Cell;
using tests::OpenTraced;

TEST_CASE("a page half looked through lies beside its chart again at the next start") {
    OpenTraced open;
    open.press(Qt::Key_Space);
    const auto startAgain = [&](app::Session& session) {
        open.place = std::make_unique<app::ChartsPlace>(session);
        open.place->resize(1194, 776);
        open.place->show();
        return QTest::qWaitForWindowExposed(open.place.get());
    };
    app::Session next(open.document);
    REQUIRE(startAgain(next));
    CHECK(open.place->desk().chart()->name == QStringLiteral("leaf"));
    CHECK(open.view().isVisible());
    CHECK(open.says(QStringLiteral("3 doubtful cells left")));
    CHECK(open.current() == Cell{5, 1});

    open.press(Qt::Key_Escape);
    app::Session last(open.document);
    REQUIRE(startAgain(last));
    CHECK(open.state().pageView == PageView::Off);
}

TEST_CASE("a page that comes while another is looked through begins with its least sure cell") {
    OpenTraced open;
    open.press(Qt::Key_N);
    REQUIRE(open.current() != Cell{0, 1});
    const trace::Tracing next = tests::tracingOf({"ab", "ba"}, {"ab", "aa"});
    open.session.chooseChart(open.document.addTracedChart(next.chart, app::pageOf(next)));
    QTest::qWait(0);
    CHECK(open.state().pageView == PageView::Cells);
    CHECK(open.current() == Cell{0, 1});
}
