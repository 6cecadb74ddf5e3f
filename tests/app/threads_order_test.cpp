#include "app/threads/thread_order.h"

#include "app/threads_fixture.h"

#include <catch2/catch.hpp>

using namespace otherskein;
using tests::OpenThreads;

namespace {

QStringList list(std::initializer_list<const char*> codes) {
    QStringList result;
    for (const char* code : codes) {
        result.push_back(QString::fromLatin1(code));
    }
    return result;
}

} // namespace

TEST_CASE("a wall by hue begins with the neutrals from light to dark") {
    CHECK(app::hueKey({90, 1, 1}) < app::hueKey({40, -2, 3}));
    CHECK(app::hueKey({5, 0, 0}) < app::hueKey({50, 60, 40}));
}

TEST_CASE("a wall by hue goes from red over yellow and green to blue") {
    CHECK(app::hueKey({50, 60, 40}) < app::hueKey({80, 0, 70}));
    CHECK(app::hueKey({80, 0, 70}) < app::hueKey({50, -50, 20}));
    CHECK(app::hueKey({50, -50, 20}) < app::hueKey({40, 10, -50}));
}

TEST_CASE("the wall takes each of its orders") {
    const OpenThreads open;
    using Order = app::WallOrder;
    open.change([&](auto& state) { state.card = open.harbour; });
    CHECK(open.codes() == list({"H-1", "H-21", "H-2", "H-10"}));
    open.change([](auto& state) { state.order = Order::Lightness; });
    CHECK(open.codes() == list({"H-1", "H-2", "H-10", "H-21"}));
    open.change([](auto& state) { state.order = Order::Code; });
    CHECK(open.codes() == list({"H-1", "H-2", "H-10", "H-21"}));
}

TEST_CASE("a search takes words from code and name in any case") {
    const OpenThreads open;
    const auto searched = [&](const char* text) {
        open.change([&](auto& state) { state.search = QString::fromLatin1(text); });
        QStringList codes = open.codes();
        codes.sort();
        return codes;
    };
    CHECK(searched("slate") == list({"H-10"}));
    CHECK(searched("h-1") == list({"H-1", "H-10"}));
    CHECK(searched("M- mos") == list({"M-2"}));
    CHECK(searched("no such thread").isEmpty());
    CHECK(searched("").size() == 6);
}

TEST_CASE("a colour in the search field brings the nearest threads first") {
    const OpenThreads open;
    open.change([](auto& state) { state.search = QStringLiteral("#45556a"); });
    CHECK(open.codes().size() == 6);
    CHECK(open.codes().front() == QStringLiteral("H-10"));
    CHECK(open.model().item(0).distance > 0);
    CHECK(open.model().item(0).distance < open.model().item(1).distance);
}

TEST_CASE("the beginning of a colour in the search field hides nothing") {
    const OpenThreads open;
    open.change([](auto& state) { state.search = QStringLiteral("#45"); });
    CHECK(open.codes().size() == 6);
}

TEST_CASE("the filters leave out what they say") {
    const OpenThreads open;
    open.change([](auto& state) { state.onlyStash = true; });
    CHECK(open.codes() == list({"H-10"}));
    open.change([](auto& state) {
        state.onlyStash = false;
        state.withoutOut = true;
    });
    CHECK_FALSE(open.codes().contains(QStringLiteral("H-21")));
    CHECK(open.codes().size() == 5);
    open.change([](auto& state) { state.finish = thread::Finish::Metallic; });
    CHECK(open.codes().isEmpty());
}

TEST_CASE("the header of the table sorts it and the wall keeps its own order") {
    const OpenThreads open;
    open.change([&](auto& state) {
        state.card = open.harbour;
        state.view = app::ThreadsView::Table;
        state.headerSort = app::HeaderSort{app::indexOf(app::Column::Name), true};
    });
    CHECK(open.codes() == list({"H-21", "H-10", "H-1", "H-2"}));
    open.change([](auto& state) { state.view = app::ThreadsView::Wall; });
    CHECK(open.codes().front() == QStringLiteral("H-1"));
}

TEST_CASE("thirty thousand threads load and answer a search") {
    OpenThreads open;
    thread::ShadeCard large{QStringLiteral("large"), {}, {}};
    for (int i = 0; i < 30'000; ++i) {
        thread::Thread one;
        one.code = QStringLiteral("L-%1").arg(i);
        one.lab = {i % 101 * 0.99, i % 120 - 60.0, i % 77 - 38.0};
        large.threads.push_back(one);
    }
    const workbox::CardId id = open.document.addCard(large);
    open.change([&](auto& state) { state.card = id; });
    CHECK(open.model().rowCount() == 30'000);
    open.change([](auto& state) { state.search = QStringLiteral("L-2999"); });
    CHECK(open.model().rowCount() == 11);
    open.change([](auto& state) { state.search = QStringLiteral("#808080"); });
    CHECK(open.model().rowCount() == 30'000);
    open.place->grab();
}
