#include "workbox/document.h"

#include "workbox/samples.h"

#include <functional>

using namespace otherskein;
using namespace otherskein::workbox;

namespace {

struct Named {
    const char* name;
    std::function<void(Document&)> edit;
};

CardId firstCard(const Document& document) {
    return document.cards().front().id;
}

std::vector<ThreadId> threadsAt(const Document& document, const std::vector<std::size_t>& places) {
    std::vector<ThreadId> ids;
    for (const std::size_t place : places) {
        ids.push_back(document.cards().front().threads.at(place).id);
    }
    return ids;
}

thread::ShadeCard newerFile() {
    thread::ShadeCard file = numberedCard(QStringLiteral("any"), 12); // "11" and "12" are new
    file.columns = {QStringLiteral("code"), QStringLiteral("name"), QStringLiteral("srgb"),
                    QStringLiteral("drawer")};
    file.threads[3].name = QStringLiteral("New name");
    for (thread::Thread& one : file.threads) {
        one.extra = {QStringLiteral("top")};
    }
    return file;
}

void swapCodes(Document& document) {
    const StoredCard& card = document.cards().front();
    thread::Thread first = card.threads[0].thread;
    thread::Thread second = card.threads[1].thread;
    std::swap(first.code, second.code);
    document.changeThreads(card.id, {{card.threads[0].id, first}, {card.threads[1].id, second}},
                           QStringLiteral("Swap"));
}

/// Each kind of edit, on a workbox that holds two cards (the first with "1" to "10") and two
/// grounds.
const std::vector<Named>& everyKind() {
    static const std::vector<Named> kinds{
        {"add a card", [](Document& d) { d.addCard(nastyCard()); }},
        {"add an empty card", [](Document& d) { d.addCard(numberedCard(QStringLiteral("E"), 0)); }},
        {"rename a card",
         [](Document& d) { d.renameCard(firstCard(d), QStringLiteral("New 🧵")); }},
        {"remove the first card", [](Document& d) { d.removeCard(firstCard(d)); }},
        {"remove the last card", [](Document& d) { d.removeCard(d.cards().back().id); }},
        {"merge a card", [](Document& d) { d.mergeCard(firstCard(d), newerFile()); }},
        {"add a thread", [](Document& d) { d.addThread(firstCard(d), nastyThread()); }},
        {"change a thread",
         [](Document& d) {
             d.changeThreads(firstCard(d), {{threadsAt(d, {4})[0], nastyThread()}},
                             QStringLiteral("Change"));
         }},
        {"swap two codes", swapCodes},
        {"remove the first thread",
         [](Document& d) { d.removeThreads(firstCard(d), threadsAt(d, {0})); }},
        {"remove the last thread",
         [](Document& d) { d.removeThreads(firstCard(d), threadsAt(d, {9})); }},
        {"remove some threads in any order",
         [](Document& d) {
             d.removeThreads(firstCard(d), threadsAt(d, {7, 0, 9, 3, 4, 1}));
         }},
        {"remove all threads",
         [](Document& d) {
             d.removeThreads(firstCard(d), threadsAt(d, {0, 1, 2, 3, 4, 5, 6, 7, 8, 9}));
         }},
        {"add a ground", [](Document& d) { d.addGround(linen()); }},
        {"change a ground", [](Document& d) { d.changeGround(d.grounds().front().id, linen()); }},
        {"remove the first ground", [](Document& d) { d.removeGround(d.grounds().front().id); }},
        {"add several cards and grounds", [](Document& d) {
             d.addAll({nastyCard(), nastyCard(), numberedCard(QStringLiteral("Q"), 2)},
                      {linen(), linen()}, QStringLiteral("Demo"));
         }}};
    return kinds;
}

void fill(Document& document) {
    document.addCard(numberedCard(QStringLiteral("Harbour"), 10));
    document.addCard(nastyCard());
    document.addGround(thread::groundOfSrgb(QStringLiteral("Cream"), {250, 245, 230}));
    document.addGround(thread::groundOfSrgb(QStringLiteral("Black"), {0, 0, 0}));
    document.undoStack().clear();
}

} // namespace

TEST_CASE("every edit is undone and redone exactly in memory and in the file") {
    const std::size_t kind = GENERATE(range(std::size_t{0}, everyKind().size()));
    CAPTURE(everyKind()[kind].name);
    const Place place;
    Document document(place.path());
    fill(document);
    const Contents before = document.contents();

    everyKind()[kind].edit(document);
    const Contents after = document.contents();
    CHECK(after != before);
    CHECK(inFile(place.path()) == after);
    CHECK(document.undoStack().count() == 1);

    for (int again = 0; again < 2; ++again) {
        document.undoStack().undo();
        CHECK(document.contents() == before);
        CHECK(inFile(place.path()) == before);

        document.undoStack().redo();
        CHECK(document.contents() == after);
        CHECK(inFile(place.path()) == after);
    }
    CHECK(document.store().problems().empty());
}

TEST_CASE("a long history is undone to its start and redone to its end step by step") {
    const Place place;
    Document document(place.path());
    fill(document);
    std::vector<Contents> states{document.contents()};
    for (const char* name :
         {"remove some threads in any order", "add a thread", "remove the first thread",
          "merge a card", "swap two codes", "remove the last card", "add several cards and grounds",
          "change a ground", "remove the first card"}) {
        const auto kind = std::ranges::find_if(
            everyKind(), [&](const Named& one) { return std::string(one.name) == name; });
        REQUIRE(kind != everyKind().end());
        kind->edit(document);
        states.push_back(document.contents());
    }
    for (std::size_t i = states.size() - 1; i-- > 0;) {
        CAPTURE(i);
        document.undoStack().undo();
        CHECK(document.contents() == states[i]);
        CHECK(inFile(place.path()) == states[i]);
    }
    for (std::size_t i = 1; i < states.size(); ++i) {
        CAPTURE(i);
        document.undoStack().redo();
        CHECK(document.contents() == states[i]);
        CHECK(inFile(place.path()) == states[i]);
    }
}

TEST_CASE("a thread keeps its place in the file when those before it were deleted earlier") {
    const Place place;
    {
        Document document(place.path());
        fill(document);
        document.removeThreads(firstCard(document), threadsAt(document, {2, 3, 4}));
    }
    Document document(place.path()); // positions in the file now have a gap
    document.removeThreads(firstCard(document), threadsAt(document, {2}));
    document.undoStack().undo();
    CHECK(inFile(place.path()) == document.contents());
    CHECK(document.cards().front().threads.at(2).thread.code == QStringLiteral("6"));
}

TEST_CASE("the store makes room for threads in the middle of a card") {
    const Place place;
    Document document(place.path());
    fill(document);
    // Not an edit that the document offers: additions between threads that follow each other.
    Edit edit;
    const CardId card = firstCard(document);
    auto id = static_cast<qint64>(document.store().nextThreadId(4));
    for (const std::size_t position : {13U, 0U, 5U, 6U}) {
        edit.threads.push_back({card, ThreadId{id++}, position, std::nullopt,
                                plainThread(QStringLiteral("at %1").arg(position))});
    }
    document.store().apply(edit);
    const Contents stored = inFile(place.path());
    QStringList codes;
    for (const StoredThread& one : stored.cards.front().threads) {
        codes.push_back(one.thread.code);
    }
    CHECK(codes.join(QLatin1Char(',')) ==
          QStringLiteral("at 0,1,2,3,4,at 5,at 6,5,6,7,8,9,10,at 13"));
    CHECK(document.store().problems().empty());
    document.store().apply(inverse(edit));
    CHECK(inFile(place.path()) == document.contents());
}

TEST_CASE("typing in one field of a ground is one step to undo") {
    const Place place;
    Document document(place.path());
    const GroundId id =
        document.addGround(thread::groundOfSrgb(QStringLiteral("Cream"), {250, 245, 230}));
    const GroundId other =
        document.addGround(thread::groundOfSrgb(QStringLiteral("Black"), {0, 0, 0}));
    const int before = document.undoStack().count();
    thread::Ground ground = document.ground(id)->ground;
    for (const char* name : {"C", "Co", "Cob", "Cobble"}) {
        ground.name = QString::fromLatin1(name);
        document.changeGround(id, ground, QStringLiteral("name-1"));
    }
    CHECK(document.undoStack().count() == before + 1);
    ground.count = 20;
    document.changeGround(id, ground, QStringLiteral("count-1"));
    thread::Ground black = document.ground(other)->ground;
    black.count = 18;
    document.changeGround(other, black, QStringLiteral("count-1"));
    CHECK(document.undoStack().count() == before + 3);
    document.undoStack().undo();
    document.undoStack().undo();
    document.undoStack().undo();
    CHECK(document.ground(id)->ground.name == QStringLiteral("Cream"));
    CHECK(document.ground(other)->ground.count == 36);
    CHECK(inFile(place.path()) == document.contents());
}
