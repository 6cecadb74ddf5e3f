#include "workbox/document.h"

#include "workbox/samples.h"

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

/// A card of two threads, owned and noted, with one column of the user's own.
struct Bench {
    Place place;
    Document document{place.path()};
    CardId card{};

    Bench() {
        thread::ShadeCard own = numberedCard(QStringLiteral("Harbour"), 2);
        own.columns = {QStringLiteral("code"), QStringLiteral("name"), QStringLiteral("drawer"),
                       QStringLiteral("srgb"), QStringLiteral("stash")};
        for (thread::Thread& one : own.threads) {
            one.stash = 3;
            one.note = QStringLiteral("mine");
            one.extra = {QStringLiteral("left")};
        }
        card = document.addCard(own);
    }
    [[nodiscard]] const thread::Thread& at(std::size_t i) const {
        return document.card(card)->threads.at(i).thread;
    }
};

thread::ShadeCard file(const QStringList& columns) {
    thread::ShadeCard card = numberedCard(QStringLiteral("harbour-new"), 2);
    card.columns = {columns.begin(), columns.end()};
    return card;
}

} // namespace

TEST_CASE("a merge takes the columns that the file has and leaves the others alone") {
    Bench bench;
    thread::ShadeCard newer =
        file({QStringLiteral("code"), QStringLiteral("name"), QStringLiteral("srgb")});
    newer.threads[0] = thread::threadOfSrgb(QStringLiteral("1"), QStringLiteral("Ink"), {1, 2, 3});
    bench.document.mergeCard(bench.card, newer);
    CHECK(bench.at(0).name == QStringLiteral("Ink"));
    CHECK(bench.at(0).entered == colour::Srgb8{1, 2, 3});
    CHECK(bench.at(0).lab == newer.threads[0].lab);
    CHECK(bench.at(0).stash == 3);
    CHECK(bench.at(0).note == QStringLiteral("mine"));
    CHECK(bench.at(0).extra == std::vector{QStringLiteral("left")});
    CHECK(bench.document.card(bench.card)->name == QStringLiteral("Harbour"));
}

TEST_CASE("a merge of a file with a stash column takes its stash") {
    Bench bench;
    bench.document.mergeCard(bench.card, file({QStringLiteral("code"), QStringLiteral("name"),
                                               QStringLiteral("srgb"), QStringLiteral("stash")}));
    CHECK(bench.at(0).stash == 0);
}

TEST_CASE("unknown columns of a merged file are matched by name and new ones go to the end") {
    Bench bench;
    thread::ShadeCard newer =
        file({QStringLiteral("shelf"), QStringLiteral("code"), QStringLiteral("name"),
              QStringLiteral("srgb"), QStringLiteral("drawer")});
    newer.threads[0].extra = {QStringLiteral("high"), QStringLiteral("right")};
    newer.threads[1].code = QStringLiteral("new");
    newer.threads[1].extra = {QStringLiteral("low"), QStringLiteral("middle")};
    bench.document.mergeCard(bench.card, newer);

    const StoredCard& card = *bench.document.card(bench.card);
    CHECK(card.columns.back() == QStringLiteral("shelf"));
    REQUIRE(card.threads.size() == 3);
    CHECK(bench.at(0).extra == std::vector{QStringLiteral("right"), QStringLiteral("high")});
    CHECK(bench.at(1).extra == std::vector{QStringLiteral("left")}); // the file lacks it: untouched
    CHECK(bench.at(2).code == QStringLiteral("new"));
    CHECK(bench.at(2).extra == std::vector{QStringLiteral("middle"), QStringLiteral("low")});
    CHECK(inFile(bench.place.path()) == bench.document.contents());
}

TEST_CASE("a merge from a source without columns takes colours and what some thread states") {
    Bench bench;
    thread::ShadeCard newer = file({});
    newer.threads[1].lot = QStringLiteral("L9");
    bench.document.mergeCard(bench.card, newer);
    CHECK(bench.at(1).lot == QStringLiteral("L9"));
    CHECK(bench.at(1).stash == 3);
}
