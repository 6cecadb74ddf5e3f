#include "colour/srgb.h"

#include <catch2/catch.hpp>

using namespace otherskein::colour;

TEST_CASE("a hex colour is read in either case") {
    CHECK(parseHex(QStringLiteral("#12abEF")) == Srgb8{0x12, 0xab, 0xef});
    CHECK(parseHex(QStringLiteral("#000000")) == Srgb8{0, 0, 0});
    CHECK(parseHex(QStringLiteral("#FFFFFF")) == Srgb8{255, 255, 255});
}

TEST_CASE("anything but a sign and six hex digits is no colour") {
    const QString text =
        GENERATE(as<QString>(), QString(), QStringLiteral("#"), QStringLiteral("#fff"),
                 QStringLiteral("#12345"), QStringLiteral("#1234567"), QStringLiteral("#12345678"),
                 QStringLiteral("123456"), QStringLiteral("1234567"), QStringLiteral("#12345g"),
                 QStringLiteral(" #123456"), QStringLiteral("#123456 "), QStringLiteral("#12 456"),
                 QStringLiteral("#+12345"), QStringLiteral("#-12345"), QStringLiteral("#0x1234"),
                 QStringLiteral("##12345"), QStringLiteral("red"),
                 // full-width and Arabic-Indic digits
                 QStringLiteral("#１２３４５６"), QStringLiteral("#٠١٢٣٤٥"));
    CAPTURE(text.toStdString());
    CHECK_FALSE(parseHex(text).has_value());
}

TEST_CASE("a colour is written in lower case with its leading zeros") {
    CHECK(toHex({0x0a, 0x00, 0xFF}).toStdString() == "#0a00ff");
    CHECK(toHex({0, 0, 0}).toStdString() == "#000000");
}

TEST_CASE("what is written is read back") {
    for (int v = 0; v <= 255; ++v) {
        CAPTURE(v);
        const Srgb8 srgb{static_cast<std::uint8_t>(v), static_cast<std::uint8_t>(255 - v),
                         static_cast<std::uint8_t>(v * 37 % 256)};
        CHECK(parseHex(toHex(srgb)) == srgb);
    }
}
