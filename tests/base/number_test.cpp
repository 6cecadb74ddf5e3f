#include "base/number.h"

#include <catch2/catch.hpp>

#include <QLocale>

#include <cmath>
#include <limits>
#include <random>

using namespace otherskein::base;

TEST_CASE("plain numbers are read whatever blanks stand around them") {
    CHECK(parseNumber(QStringLiteral("12")) == 12.0);
    CHECK(parseNumber(QStringLiteral("-3.5")) == -3.5);
    CHECK(parseNumber(QStringLiteral("+0.25")) == 0.25);
    CHECK(parseNumber(QStringLiteral(".5")) == 0.5);
    CHECK(parseNumber(QStringLiteral("1e3")) == 1000.0);
    CHECK(parseNumber(QStringLiteral("2.5E-2")) == 0.025);
    CHECK(parseNumber(QStringLiteral("007")) == 7.0);
    CHECK(parseNumber(QStringLiteral("  12 \t")) == 12.0);
    CHECK(parseNumber(QStringLiteral("\u00a012\u00a0")) == 12.0);
}

TEST_CASE("text that is no plain number is refused") {
    const QString text = GENERATE(
        as<QString>(), QString(), QStringLiteral(" "), QStringLiteral("nan"), QStringLiteral("NaN"),
        QStringLiteral("-nan"), QStringLiteral("inf"), QStringLiteral("-inf"),
        QStringLiteral("Infinity"), QStringLiteral("1e999"), QStringLiteral("-1e999"),
        QStringLiteral("0x10"), QStringLiteral("0x1p3"), QStringLiteral("1,5"),
        QStringLiteral("1,000"), QStringLiteral("1 000"), QStringLiteral("1_000"),
        QStringLiteral("1'000"), QStringLiteral("12mm"), QStringLiteral("50%"),
        QStringLiteral("--5"), QStringLiteral("+-5"), QStringLiteral("- 5"), QStringLiteral("5-"),
        QStringLiteral("1-2"), QStringLiteral("1.2.3"), QStringLiteral("."), QStringLiteral("-"),
        QStringLiteral("+"), QStringLiteral("e"), QStringLiteral("e5"), QStringLiteral("1e"),
        QStringLiteral("1e+"), QStringLiteral("1e5.5"), QStringLiteral("=1"), QStringLiteral("'1"),
        QStringLiteral("½"),
        QStringLiteral("−5"), // the minus sign of typography
        QStringLiteral("١٢"), QStringLiteral("१२"), QStringLiteral("１２"));
    CAPTURE(text.toStdString());
    CHECK_FALSE(parseNumber(text).has_value());
    CHECK_FALSE(parseWholeNumber(text).has_value());
}

TEST_CASE("a NUL inside a number is not its end") {
    CHECK_FALSE(parseNumber(QString::fromLatin1("1\0002", 3)).has_value());
}

TEST_CASE("a machine that writes a decimal comma still reads a full stop") {
    const QLocale before;
    QLocale::setDefault(QLocale(QLocale::German, QLocale::Germany));
    const auto stop = parseNumber(QStringLiteral("1.5"));
    const auto comma = parseNumber(QStringLiteral("1,5"));
    const QString written = formatNumber(1234.5);
    QLocale::setDefault(before);
    CHECK(stop == 1.5);
    CHECK_FALSE(comma.has_value());
    CHECK(written.toStdString() == "1234.5");
}

TEST_CASE("a whole number may be written with a fraction of zero but not with another") {
    CHECK(parseWholeNumber(QStringLiteral("14")) == 14);
    CHECK(parseWholeNumber(QStringLiteral("-14")) == -14);
    CHECK(parseWholeNumber(QStringLiteral("14.0")) == 14);
    CHECK(parseWholeNumber(QStringLiteral("1e3")) == 1000);
    CHECK_FALSE(parseWholeNumber(QStringLiteral("14.5")).has_value());
    CHECK_FALSE(parseWholeNumber(QStringLiteral("0.9999999")).has_value());
}

TEST_CASE("a whole number that does not fit an int is refused") {
    CHECK(parseWholeNumber(QStringLiteral("2000000000")) == 2'000'000'000);
    CHECK_FALSE(parseWholeNumber(QStringLiteral("2147483648")).has_value());
    CHECK_FALSE(parseWholeNumber(QStringLiteral("-2147483649")).has_value());
    CHECK_FALSE(parseWholeNumber(QStringLiteral("1e300")).has_value());
}

TEST_CASE("numbers are written as short as they can be") {
    CHECK(formatNumber(0.1).toStdString() == "0.1");
    CHECK(formatNumber(-3.5).toStdString() == "-3.5");
    CHECK(formatNumber(100).toStdString() == "100");
    CHECK(formatNumber(0).toStdString() == "0");
}

TEST_CASE("every finite number that is written is read back to the last bit") {
    constexpr unsigned kSeed = 20240229;
    CAPTURE(kSeed);
    std::mt19937_64 engine(kSeed);
    std::uniform_real_distribution<double> mantissa(-1, 1);
    std::uniform_int_distribution<int> exponent(-1000, 1000);
    for (int i = 0; i < 20'000; ++i) {
        const double value = std::ldexp(mantissa(engine), i % 2 == 0 ? 7 : exponent(engine));
        const QString text = formatNumber(value);
        CAPTURE(i, text.toStdString());
        REQUIRE(parseNumber(text) == value);
    }
    CHECK(parseNumber(formatNumber(std::numeric_limits<double>::max())) ==
          std::numeric_limits<double>::max());
    CHECK(parseNumber(formatNumber(std::numeric_limits<double>::denorm_min())) ==
          std::numeric_limits<double>::denorm_min());
}
