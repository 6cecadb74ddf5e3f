#include "thread/shade_card_cgats.h"

#include "colour/conversion.h"
#include "fixtures/fixture_folder.h"
#include "thread/cgats_text.h"

#include <catch2/catch.hpp>

#include <random>

using namespace otherskein;
using namespace otherskein::thread;
using Catch::Matchers::WithinAbs;

namespace {

const QString kSource = QStringLiteral("quay.txt");

/// ISO 28178's form: an identifier, keywords, the format, the data.
QByteArray cgats(const QByteArray& fields, int fieldCount, int samples, const QByteArray& data) {
    return "CGATS.17\nORIGINATOR \"invented\"\nNUMBER_OF_FIELDS " + QByteArray::number(fieldCount) +
           "\nBEGIN_DATA_FORMAT\n" + fields + "\nEND_DATA_FORMAT\nNUMBER_OF_SETS " +
           QByteArray::number(samples) + "\nBEGIN_DATA\n" + data + "END_DATA\n";
}

std::string mended(const QByteArray& text) {
    return mendedCgats(text, kSource).toStdString();
}

} // namespace

TEST_CASE("RGB samples are taken as sRGB") {
    const ShadeCard card = parseShadeCard(
        cgats("SAMPLE_ID RGB_R RGB_G RGB_B", 4, 3, "1 170 187 204\n2 255.0 255 255\n3 0 0.5 0\n"),
        kSource);
    REQUIRE(card.threads.size() == 3);
    const colour::Lab expected = colour::labFromSrgb(colour::Srgb8{170, 187, 204});
    CHECK_THAT(card.threads[0].lab.L, WithinAbs(expected.L, 1e-9));
    CHECK_THAT(card.threads[0].lab.a, WithinAbs(expected.a, 1e-9));
    CHECK_THAT(card.threads[0].lab.b, WithinAbs(expected.b, 1e-9));
    CHECK_THAT(card.threads[1].lab.L, WithinAbs(100, 1e-3));
    CHECK(card.threads[2].lab.L > 0); // fractions count
    CHECK_FALSE(card.threads[0].entered.has_value());
}

TEST_CASE("Lab is read where a file has Lab and RGB") {
    const ShadeCard card = parseShadeCard(
        cgats("SAMPLE_ID RGB_R RGB_G RGB_B LAB_L LAB_A LAB_B", 7, 1, "1 9 9 9 50.25 -1 2\n"),
        kSource);
    CHECK((card.threads.at(0).lab == colour::Lab{50.25, -1, 2}));
}

TEST_CASE("every value reaches the reader as it stands") {
    // Words with blanks, a sign or a quote inside, and what littleCMS would take for a number.
    const std::vector<QByteArray> codes{"007",  "1.50",  "0x1F", "0b11",      "12B", "1e5", "-3",
                                        "+3",   ".5",    "5.",   "1..2",      "#7",  "A#7", "O'Q",
                                        "a\"b", "é",     "🧵", "END",       "Q-1", "1,5", "=1",
                                        "0007", "1e400", "NaN",  "BEGIN_DATA"};
    QByteArray data;
    for (const QByteArray& code : codes) {
        // A word that begins with # would be a comment, so that one is quoted by its writer.
        data += (code.startsWith('#') ? "\"" + code + "\"" : code) + " 50 1 2\n";
    }
    const ShadeCard card = parseShadeCard(
        cgats("SAMPLE_ID LAB_L LAB_A LAB_B", 4, static_cast<int>(codes.size()), data), kSource);
    REQUIRE(card.threads.size() == codes.size());
    for (std::size_t i = 0; i < codes.size(); ++i) {
        CHECK(card.threads[i].code.toStdString() == codes[i].toStdString());
        CHECK((card.threads[i].lab == colour::Lab{50, 1, 2}));
    }
}

TEST_CASE("only values between the data keywords are put in quotes") {
    CHECK(mended("KEY 12\nBEGIN_DATA\n1 a\t\"b c\"\r\n'd' # 1 2\n\"\" \"\nEND_DATA\nKEY 34") ==
          "KEY 12\nBEGIN_DATA\n\"1\" \"a\"\t\"b c\"\r\n'd' # 1 2\n\" \" \" \"\nEND_DATA\nKEY 34\n");
    CHECK(mended("begin_data 1 end_data 2") == "begin_data \"1\" end_data 2\n");
    CHECK(mended("BEGIN_DATA_FORMAT A END_DATA_FORMAT") == "BEGIN_DATA_FORMAT A END_DATA_FORMAT\n");
    CHECK(mended("") == "\n");
}

TEST_CASE("CGATS and CSV are told apart by their first line") {
    CHECK(looksLikeCgats("CGATS.17\nBEGIN_DATA_FORMAT\n"));
    CHECK(looksLikeCgats("\n\xef\xbb\xbf"
                         "CGATS.17\nBEGIN_DATA_FORMAT\n"));
    CHECK(looksLikeCgats("\xef\xbb\xbf"
                         "ISO28178\rDESCRIPTOR \"a, b\"\rBEGIN_DATA_FORMAT\r"));
    CHECK_FALSE(looksLikeCgats("CGATS.17\n"));
    CHECK_FALSE(looksLikeCgats("code,name,note\nQ-1,Reed,BEGIN_DATA_FORMAT\n"));
    CHECK_FALSE(looksLikeCgats("\"co\nde\",name\nQ-1,BEGIN_DATA_FORMAT\n"));
    CHECK_FALSE(looksLikeCgats("\n\ncode,name\nQ-1,BEGIN_DATA_FORMAT\n"));
}

TEST_CASE("CGATS text with a byte changed is read or refused in one line") {
    constexpr unsigned kSeed = 20240306;
    CAPTURE(kSeed);
    std::mt19937 engine(kSeed);
    const auto below = [&engine](qsizetype count) {
        return std::uniform_int_distribution<qsizetype>(0, count - 1)(engine);
    };
    const QByteArray whole = cgats("SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B", 5, 3,
                                   "Q-1 \"Reed, tall\" 50.5 12 -3\n007 Rush 40 -1.5e1 .5\n"
                                   "12B 'Moss' 1 2 3 # last\n");
    const QByteArray bytes = "\"'#\n\r\t 0159.-+eExX,$_AZ\x01\x7f\xff";
    int read = 0;
    int refused = 0;
    for (int i = 0; i < 20'000; ++i) {
        QByteArray text = whole;
        for (qsizetype n = 1 + below(3); n > 0; --n) {
            const qsizetype at = below(text.size());
            if (below(4) == 0) {
                text.remove(at, 1);
            } else {
                text[at] = bytes[below(bytes.size())];
            }
        }
        CAPTURE(i, text.toStdString());
        const std::string line = fixtures::refusal(kSource, [&] {
            for (const Thread& thread : parseShadeCardCgats(text, kSource).threads) {
                REQUIRE_FALSE(thread.code.isEmpty());
                REQUIRE((thread.lab.L >= 0 && thread.lab.L <= 100));
            }
        });
        REQUIRE(line.find_first_of("\n\r") == std::string::npos);
        (line == "accepted" ? read : refused) += 1;
    }
    CHECK(read > 1000);
    CHECK(refused > 1000);
}
