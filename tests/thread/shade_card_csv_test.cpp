#include "thread/shade_card_csv.h"

#include "colour/conversion.h"

#include <catch2/catch.hpp>

#include <random>
#include <set>

using namespace otherskein;
using namespace otherskein::thread;
using Catch::Matchers::WithinAbs;

namespace {

const QString kCsvSource = QStringLiteral("/cards/quay.csv");

ShadeCard parse(const QByteArray& bytes) {
    return parseShadeCardCsv(bytes, kCsvSource);
}

/// Cards full of what breaks readers.
class RandomCards {
  public:
    static constexpr unsigned kSeed = 20240305;

    ShadeCard card() {
        ShadeCard card;
        card.name = QStringLiteral("quay");
        card.columns = knownColumns();
        for (int i = whole(0, 3); i > 0; --i) {
            // Trimmed, as a reader of headers does; the number keeps it from being one twice.
            card.columns.push_back(text().trimmed() + QString::number(i) + u'_');
        }
        std::ranges::shuffle(card.columns, m_engine);
        std::set<QString> codes;
        for (int i = whole(1, 12); i > 0; --i) {
            Thread one = thread(card.columns.size() - knownColumns().size());
            if (codes.insert(one.code).second) {
                card.threads.push_back(std::move(one));
            }
        }
        return card;
    }

  private:
    std::mt19937_64 m_engine{kSeed};

    int whole(int least, int most) {
        return std::uniform_int_distribution<int>(least, most)(m_engine);
    }
    double between(double least, double most) {
        return std::uniform_real_distribution<double>(least, most)(m_engine);
    }

    QString text() {
        static const std::vector<QString> kPieces{QStringLiteral("="),
                                                  QStringLiteral("+"),
                                                  QStringLiteral("-"),
                                                  QStringLiteral("@"),
                                                  QStringLiteral("\t"),
                                                  QStringLiteral("\r"),
                                                  QStringLiteral("\n"),
                                                  QStringLiteral("\r\n"),
                                                  QStringLiteral("'"),
                                                  QStringLiteral("\""),
                                                  QStringLiteral(","),
                                                  QStringLiteral(";"),
                                                  QStringLiteral(" "),
                                                  QStringLiteral("#"),
                                                  QStringLiteral("0"),
                                                  QStringLiteral("1e5"),
                                                  QStringLiteral("x"),
                                                  QStringLiteral("é"),
                                                  QStringLiteral("🧵"),
                                                  QStringLiteral("e\u0301"),
                                                  QStringLiteral("ים"),
                                                  QStringLiteral("\u202e"),
                                                  QStringLiteral("\ufeff"),
                                                  QStringLiteral("\u00a0"),
                                                  QStringLiteral("\u2028"),
                                                  QStringLiteral("\x7f"),
                                                  QStringLiteral("\nBEGIN_DATA_FORMAT\n")};
        QString text;
        for (int i = whole(0, 6); i > 0; --i) {
            text += kPieces[static_cast<std::size_t>(whole(0, int(kPieces.size()) - 1))];
        }
        return text;
    }

    Thread thread(std::size_t extras) {
        Thread one;
        one.code = (text() + QString::number(whole(0, 99))).trimmed();
        one.name = text();
        if (whole(0, 1) == 0) {
            const auto byte = [this] { return static_cast<std::uint8_t>(whole(0, 255)); };
            one.entered = colour::Srgb8{byte(), byte(), byte()};
            one.lab = colour::labFromSrgb(*one.entered);
        } else {
            one.lab = {between(0, 100), between(-128, 128), between(-1e-7, 1e-7)};
        }
        one.fibre = text();
        one.finish = static_cast<Finish>(whole(0, 4));
        one.stock = static_cast<Stock>(whole(0, 3));
        one.strands = whole(1, limits::kMostStrands);
        one.lengthM = between(0.01, limits::kMostLengthM);
        one.stash = whole(0, 1) == 0 ? 0 : between(0, limits::kMostStash);
        one.lot = text();
        if (whole(0, 1) == 0) {
            one.spread = between(0, limits::kMostSpread);
        }
        one.note = text();
        for (std::size_t i = 0; i < extras; ++i) {
            one.extra.push_back(text());
        }
        return one;
    }
};

} // namespace

TEST_CASE("a card reads back equal from the file it is written as") {
    CAPTURE(RandomCards::kSeed);
    RandomCards random;
    std::size_t threads = 0;
    for (int i = 0; i < 3000; ++i) {
        const ShadeCard card = random.card();
        const QByteArray written = shadeCardCsv(card);
        CAPTURE(i, written.toStdString());
        // Through the reader that guesses the format, since that is what users meet.
        const ShadeCard again = parseShadeCard(written, kCsvSource);
        REQUIRE((again == card));
        REQUIRE(shadeCardCsv(again) == written);
        threads += card.threads.size();
    }
    CHECK(threads > 10'000);
}

TEST_CASE("a card made by hand writes only the columns that it needs") {
    ShadeCard card;
    card.threads = {
        threadOfSrgb(QStringLiteral("Q-1"), QStringLiteral("Reed"), {0xaa, 0xbb, 0xcc})};
    CHECK(shadeCardCsv(card).toStdString() == "code,name,srgb\r\nQ-1,Reed,#aabbcc\r\n");

    Thread measured;
    measured.code = QStringLiteral("Q-2");
    measured.lab = {50, 0, -2.5};
    measured.strands = 4;
    card.threads.push_back(measured);
    CHECK(shadeCardCsv(card).toStdString() ==
          "code,name,srgb,L,a,b,strands\r\nQ-1,Reed,#aabbcc,,,,6\r\nQ-2,,,50,0,-2.5,4\r\n");
}

TEST_CASE("a column is added at the end when a thread comes to need it") {
    ShadeCard card = parse("note,srgb,code,name,bin\nx,#aabbcc,Q-1,Reed,3\n");
    card.threads[0].stash = 2.5;
    card.threads[0].finish = Finish::Matt;
    CHECK(shadeCardCsv(card).toStdString() ==
          "note,srgb,code,name,bin,finish,stash\r\nx,#aabbcc,Q-1,Reed,3,matt,2.5\r\n");
}

TEST_CASE("empty optional cells take their defaults") {
    const Thread one = parse("code,name,srgb,fibre,finish,strands,length_m,stash,stock,lot,spread,"
                             "note\nQ-1,,#aabbcc,,,,,,,,,\n")
                           .threads[0];
    CHECK(one.strands == 6);
    CHECK_THAT(one.lengthM, WithinAbs(8, 0));
    CHECK_THAT(one.stash, WithinAbs(0, 0));
    CHECK(one.finish == Finish::Unstated);
    CHECK(one.stock == Stock::Unstated);
    CHECK_FALSE(one.spread.has_value());
}

TEST_CASE("full optional cells are read") {
    const Thread one = parse("code,name,srgb,fibre,finish,strands,length_m,stash,stock,lot,spread,"
                             "note\nQ-1,Reed,#aabbcc,linen,metallic,4,10.5,0.25,out,L 7,0.4,dry\n")
                           .threads[0];
    CHECK(one.fibre.toStdString() == "linen");
    CHECK(one.finish == Finish::Metallic);
    CHECK(one.strands == 4);
    CHECK_THAT(one.lengthM, WithinAbs(10.5, 0));
    CHECK_THAT(one.stash, WithinAbs(0.25, 0));
    CHECK(one.stock == Stock::Out);
    CHECK(one.lot.toStdString() == "L 7");
    CHECK_THAT(one.spread.value_or(-1), WithinAbs(0.4, 0));
    CHECK(one.note.toStdString() == "dry");
}

TEST_CASE("Lab is the truth where a row has both") {
    const ShadeCard card =
        parse("code,name,srgb,L,a,b\nQ-1,Reed,#aabbcc,50,1,2\nQ-2,Rush,#aabbcc,,,\n");
    CHECK((card.threads[0].lab == colour::Lab{50, 1, 2}));
    CHECK_FALSE(card.threads[0].entered.has_value());
    CHECK((card.threads[1].lab == colour::labFromSrgb(colour::Srgb8{0xaa, 0xbb, 0xcc})));
    CHECK(card.threads[1].entered.has_value());
}

TEST_CASE("the colour to show is the one entered or the nearest on a screen") {
    const ShadeCard card = parse("code,name,srgb,L,a,b\nQ-1,Reed,#a1b2c3,,,\nQ-2,White,,100,0,0\n");
    CHECK((shownColour(card.threads[0]) == colour::Srgb8{0xa1, 0xb2, 0xc3}));
    CHECK((shownColour(card.threads[1]) == colour::Srgb8{255, 255, 255}));
}

TEST_CASE("unknown columns keep their names order and cells") {
    const ShadeCard card = parse("bin,code,hue,name,srgb\n3,Q-1,,Reed,#aabbcc\n");
    REQUIRE(extraColumns(card).size() == 2);
    CHECK(extraColumns(card)[0].toStdString() == "bin");
    CHECK(extraColumns(card)[1].toStdString() == "hue");
    REQUIRE(card.threads[0].extra.size() == 2);
    CHECK(card.threads[0].extra[0].toStdString() == "3");
    CHECK(card.threads[0].extra[1].isEmpty());
}

TEST_CASE("a thread is found by its code") {
    const ShadeCard card = parse("code,name,srgb\nQ-1,Reed,#aabbcc\nq-1,Rush,#aabbcd\n");
    REQUIRE(findThread(card, QStringLiteral("q-1")) != nullptr);
    CHECK(findThread(card, QStringLiteral("q-1"))->name.toStdString() == "Rush");
    CHECK(findThread(card, QStringLiteral("Q-2")) == nullptr);
}
