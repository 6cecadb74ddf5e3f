#include "colourway/wanted_search.h"

#include <catch2/catch.hpp>

#include <QStringList>

using namespace otherskein;

namespace {

thread::ShadeCard card(const QString& name,
                       const std::vector<std::pair<QString, QString>>& threads) {
    thread::ShadeCard made{name, {}, {}};
    for (const auto& [code, shade] : threads) {
        made.threads.push_back(thread::threadOfSrgb(code, shade, {100, 110, 120}));
    }
    return made;
}

const std::vector<thread::ShadeCard> kCards{
    card(QStringLiteral("quay"), {{QStringLiteral("Q-100"), QStringLiteral("Wet rope")},
                                  {QStringLiteral("Q-21"), QStringLiteral("Rope walk")},
                                  {QStringLiteral("Q-2"), QStringLiteral("Gull")}}),
    card(QStringLiteral("mole"), {{QStringLiteral("M-2"), QStringLiteral("Europe blue")}})};

QStringList codesMeant(const QString& text, std::size_t most = 10) {
    QStringList codes;
    for (const colourway::Wanted& one : colourway::threadsMeant(kCards, text, most)) {
        codes.push_back(one.code);
    }
    return codes;
}

QStringList list(std::initializer_list<const char*> codes) {
    QStringList made;
    for (const char* code : codes) {
        made.push_back(QString::fromLatin1(code));
    }
    return made;
}

} // namespace

TEST_CASE("a whole code comes before codes that begin so and these in natural order") {
    CHECK(codesMeant(QStringLiteral("q-2")) == list({"Q-2", "Q-21"}));
    CHECK(codesMeant(QStringLiteral("Q-")) == list({"Q-2", "Q-21", "Q-100"}));
}

TEST_CASE("a word of the name comes before a part of a word") {
    CHECK(codesMeant(QStringLiteral("rope")) == list({"Q-21", "Q-100", "M-2"}));
}

TEST_CASE("blanks around are dropped and nothing typed means nothing") {
    CHECK(codesMeant(QStringLiteral("  gull ")) == list({"Q-2"}));
    CHECK(codesMeant(QStringLiteral("   ")).isEmpty());
    CHECK(codesMeant(QStringLiteral("nowhere")).isEmpty());
    CHECK(codesMeant(QStringLiteral("Q"), 1) == list({"Q-2"}));
}

TEST_CASE("a full hex value is a bare colour and half of one is not") {
    const auto colour = colourway::wantedMeant(kCards, QStringLiteral("#445D76"));
    REQUIRE(colour.has_value());
    CHECK(colour->code.isEmpty());
    CHECK(colour->name == QStringLiteral("#445d76"));
    CHECK_FALSE(colour->thread.has_value());
    CHECK_FALSE(colourway::wantedMeant(kCards, QStringLiteral("#445d7")).has_value());
}
