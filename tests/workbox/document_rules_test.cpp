#include "workbox/document.h"

#include "workbox/samples.h"

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

const QString kRulesText = QStringLiteral("Change");

struct Spoiling {
    const char* line; ///< a piece of the refusal
    void (*spoil)(thread::Thread&);
};

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

const std::vector<Spoiling> kSpoilings{
    {"Harbour: column code: expected some text, found none",
     [](auto& t) { t.code = QStringLiteral("  "); }},
    {"Harbour: column code: expected each code once on a card, found \"2\" again",
     [](auto& t) { t.code = QStringLiteral("2"); }},
    {"column L: expected a number from 0 to 100", [](auto& t) { t.lab.L = 100.1; }},
    {"column L: expected a number from 0 to 100", [](auto& t) { t.lab.L = kNaN; }},
    {"column a: expected a number from -128 to 128", [](auto& t) { t.lab.a = -129; }},
    {"column b: expected a number from -128 to 128", [](auto& t) { t.lab.b = 1e300; }},
    {"column strands: expected a number from 1 to 24", [](auto& t) { t.strands = 0; }},
    {"column strands: expected a number from 1 to 24", [](auto& t) { t.strands = 25; }},
    {"column length_m: expected a number from 0.01 to 10000", [](auto& t) { t.lengthM = 0; }},
    {"column stash: expected a number from 0 to 10000", [](auto& t) { t.stash = -0.5; }},
    {"column spread: expected a number from 0 to 100", [](auto& t) { t.spread = 101; }},
    {"column name: expected text without NUL", [](auto& t) { t.name = QString(QChar(u'\0')); }},
    {"column note: expected text without NUL", [](auto& t) { t.note = QString(QChar(0xd83e)); }},
    {"column extra: expected text without NUL",
     [](auto& t) { t.extra = {QString(QChar(u'\0'))}; }}};

struct RulesBench {
    Place place;
    Document document{place.path()};
    CardId card = document.addCard(numberedCard(QStringLiteral("Harbour"), 3));
};

} // namespace

TEST_CASE("a thread that breaks a rule is refused in one line and nothing changes") {
    const std::size_t at = GENERATE(range(std::size_t{0}, kSpoilings.size()));
    const Spoiling& spoiling = kSpoilings[at];
    CAPTURE(spoiling.line);
    RulesBench bench;
    const Contents before = bench.document.contents();
    const ThreadId first = bench.document.card(bench.card)->threads.front().id;

    thread::Thread changed = *bench.document.thread(bench.card, first);
    spoiling.spoil(changed);
    const auto change = [&] {
        bench.document.changeThreads(bench.card, {{first, changed}}, kRulesText);
    };
    CHECK_THAT(refusalOf(change), Catch::Contains(spoiling.line));

    thread::Thread added = plainThread(QStringLiteral("new"));
    spoiling.spoil(added);
    CHECK_THAT(refusalOf([&] { bench.document.addThread(bench.card, added); }),
               Catch::Contains(spoiling.line));

    thread::ShadeCard card = numberedCard(QStringLiteral("Harbour"), 3);
    spoiling.spoil(card.threads.front());
    CHECK_THAT(refusalOf([&] { bench.document.addCard(card); }), Catch::Contains(spoiling.line));
    CHECK_THAT(refusalOf([&] { bench.document.mergeCard(bench.card, card); }),
               Catch::Contains(spoiling.line));

    CHECK(bench.document.contents() == before);
    CHECK(inFile(bench.place.path()) == before);
    CHECK(bench.document.undoStack().count() == 1);
}

TEST_CASE("a card of a taken name gets a number and names are trimmed") {
    RulesBench bench;
    for (const char* name : {"Harbour (2)", "Harbour (3)"}) {
        const CardId id = bench.document.addCard(numberedCard(QStringLiteral("  Harbour\t"), 1));
        CHECK(bench.document.card(id)->name == QString::fromLatin1(name));
    }
    bench.document.addAll(
        {numberedCard(QStringLiteral("Quay"), 1), numberedCard(QStringLiteral("Quay"), 1)}, {},
        kRulesText);
    CHECK(bench.document.cardNamed(QStringLiteral("Quay (2)")) != nullptr);
}

TEST_CASE("a card is not renamed to a taken name or to nothing") {
    RulesBench bench;
    const CardId other = bench.document.addCard(numberedCard(QStringLiteral("Quay"), 1));
    CHECK_THAT(refusalOf([&] { bench.document.renameCard(other, QStringLiteral(" Harbour ")); }),
               Catch::Equals("Quay: column name: expected a name that no other shade card has, "
                             "found \"Harbour\""));
    CHECK_THAT(refusalOf([&] { bench.document.renameCard(other, QStringLiteral(" ")); }),
               Catch::Contains("column name: expected some text"));
    CHECK(bench.document.card(other)->name == QStringLiteral("Quay"));
}

TEST_CASE("a ground that breaks a rule is refused") {
    RulesBench bench;
    thread::Ground ground = linen();
    SECTION("count") {
        ground.count = 81;
    }
    SECTION("over") {
        ground.over = 3;
    }
    SECTION("name") {
        ground.name = QStringLiteral(" ");
    }
    SECTION("colour") {
        ground.lab.L = -1;
    }
    SECTION("weave") {
        ground.weave = QString(QChar(u'\0'));
    }
    CHECK_FALSE(refusalOf([&] { bench.document.addGround(ground); }).empty());
    const GroundId id = bench.document.addGround(linen());
    CHECK_FALSE(refusalOf([&] { bench.document.changeGround(id, ground); }).empty());
    CHECK(bench.document.ground(id)->ground == linen());
}

TEST_CASE("things that are gone are refused") {
    RulesBench bench;
    Document& document = bench.document;
    const ThreadId thread = document.card(bench.card)->threads.front().id;
    const GroundId ground = document.addGround(linen());
    document.removeThreads(bench.card, {thread});
    document.removeGround(ground);
    const thread::Thread any = plainThread(QStringLiteral("9"));
    CHECK_THAT(
        refusalOf([&] {
            document.changeThreads(bench.card, {{thread, any}}, kRulesText);
        }),
        Catch::Equals("Harbour: expected a thread that is on the card, found one that is gone"));
    CHECK_FALSE(refusalOf([&] { document.removeThreads(bench.card, {thread}); }).empty());
    CHECK_FALSE(refusalOf([&] { document.changeGround(ground, linen()); }).empty());
    CHECK_FALSE(refusalOf([&] { document.removeGround(ground); }).empty());
    document.removeCard(bench.card);
    CHECK_FALSE(refusalOf([&] { document.removeCard(bench.card); }).empty());
    CHECK_FALSE(refusalOf([&] { document.renameCard(bench.card, kRulesText); }).empty());
    CHECK_FALSE(refusalOf([&] { document.addThread(bench.card, any); }).empty());
    CHECK(document.card(bench.card) == nullptr);
    CHECK(document.thread(bench.card, thread) == nullptr);
    CHECK(document.ground(ground) == nullptr);
}

TEST_CASE("a card takes no more threads than its own file could be read back with") {
    RulesBench bench;
    thread::ShadeCard card;
    card.name = QStringLiteral("Large");
    card.threads.resize(static_cast<std::size_t>(thread::limits::kMostThreads) + 1);
    CHECK_THAT(refusalOf([&] { bench.document.addCard(card); }),
               Catch::Contains("expected at most 100000 threads on a card"));
}
