#include "colour/profile.h"

#include "colour/made_profiles.h"
#include "fixtures/fixture_folder.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <random>

using namespace otherskein;
using namespace otherskein::colour;

namespace {

using Vector = std::array<double, 3>;
using Matrix = std::array<Vector, 3>; // rows

Vector times(const Matrix& m, const Vector& v) {
    Vector out{};
    for (std::size_t i = 0; i < 3; ++i) {
        out[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
    }
    return out;
}

Matrix inverse(const Matrix& m) {
    const auto minor = [&](std::size_t row, std::size_t column) {
        const std::size_t r1 = (row + 1) % 3, r2 = (row + 2) % 3;
        const std::size_t c1 = (column + 1) % 3, c2 = (column + 2) % 3;
        return m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1];
    };
    const double det = m[0][0] * minor(0, 0) + m[0][1] * minor(0, 1) + m[0][2] * minor(0, 2);
    Matrix out{};
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            out[row][column] = minor(column, row) / det;
        }
    }
    return out;
}

Vector xyzOf(const cmsCIExyY& xy) {
    return {xy.x / xy.y, 1, (1 - xy.x - xy.y) / xy.y};
}

/// Linear RGB to XYZ from primaries and white: the textbook derivation (each primary scaled so that
/// together they make the white).
Matrix toXyz(const samples::RgbSpace& space) {
    const Vector r = xyzOf(space.primaries.Red);
    const Vector g = xyzOf(space.primaries.Green);
    const Vector b = xyzOf(space.primaries.Blue);
    Matrix m{{{r[0], g[0], b[0]}, {r[1], g[1], b[1]}, {r[2], g[2], b[2]}}};
    const Vector scale = times(inverse(m), xyzOf(space.white));
    for (Vector& row : m) {
        for (std::size_t i = 0; i < 3; ++i) {
            row[i] *= scale[i];
        }
    }
    return m;
}

/// IEC 61966-2-1.
double encoded(double linear) {
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}
double decoded(double sample) {
    return sample <= 0.04045 ? sample / 12.92 : std::pow((sample + 0.055) / 1.055, 2.4);
}

/// 0..255, not rounded. Both spaces have the same white, so nothing is adapted.
Vector srgbByFormula(const ProfileRgb& colour, const samples::RgbSpace& space) {
    const auto linear = [&](std::uint16_t sample) {
        const double value = sample / 65535.0;
        return space.gamma > 0 ? std::pow(value, space.gamma) : decoded(value);
    };
    const Vector xyz = times(toXyz(space), {linear(colour.r), linear(colour.g), linear(colour.b)});
    Vector rgb = times(inverse(toXyz(samples::srgb())), xyz);
    for (double& component : rgb) {
        component = 255 * std::clamp(encoded(std::max(component, 0.0)), 0.0, 1.0);
    }
    return rgb;
}

std::vector<ProfileRgb> manyColours() {
    std::vector<ProfileRgb> colours;
    for (int r = 0; r <= 255; r += 51) {
        for (int g = 0; g <= 255; g += 51) {
            for (int b = 0; b <= 255; b += 51) {
                colours.push_back({static_cast<std::uint16_t>(257 * r),
                                   static_cast<std::uint16_t>(257 * g),
                                   static_cast<std::uint16_t>(257 * b)});
            }
        }
    }
    std::mt19937 random(20);
    for (int i = 0; i < 2000; ++i) {
        colours.push_back({static_cast<std::uint16_t>(random()),
                           static_cast<std::uint16_t>(random()),
                           static_cast<std::uint16_t>(random())});
    }
    return colours;
}

std::string refusalOf(const QByteArray& profile, const std::vector<ProfileRgb>& colours) {
    const QString source = QStringLiteral("c.png");
    return fixtures::refusal(source, [&] { (void)srgbThrough(profile, colours, source); });
}

const std::string kExpected =
    ": expected a colour profile for RGB or grey pictures, or none, found ";

} // namespace

TEST_CASE("colours go through a profile as its primaries and curve say") {
    // A profile rounds its coefficients to 1/65536. Half of that, through the steepest part of the
    // sRGB curve (12.92 x 255), is 0.025 of an 8-bit step; four of them may add up.
    constexpr double kHalf = 0.5 + 4 * 0.025;
    for (const samples::RgbSpace& space : {samples::adobeRgb(), samples::displayP3()}) {
        CAPTURE(space.name);
        const std::vector<ProfileRgb> colours = manyColours();
        const std::vector<Srgb8> srgb =
            srgbThrough(samples::profileOf(space), colours, QStringLiteral("c.png"));
        REQUIRE(srgb.size() == colours.size());
        for (std::size_t i = 0; i < colours.size(); ++i) {
            const Vector wanted = srgbByFormula(colours[i], space);
            CAPTURE(colours[i].r, colours[i].g, colours[i].b, wanted[0], wanted[1], wanted[2]);
            CHECK_THAT(srgb[i].r, Catch::Matchers::WithinAbs(wanted[0], kHalf));
            CHECK_THAT(srgb[i].g, Catch::Matchers::WithinAbs(wanted[1], kHalf));
            CHECK_THAT(srgb[i].b, Catch::Matchers::WithinAbs(wanted[2], kHalf));
        }
    }
}

TEST_CASE("a profile of another space changes colours, one of sRGB does not") {
    const std::vector<ProfileRgb> colours{{257 * 200, 257 * 40, 257 * 60}, {257 * 3, 257 * 2, 0}};
    const std::vector<Srgb8> same{{200, 40, 60}, {3, 2, 0}};
    const QString source = QStringLiteral("c.png");
    CHECK(srgbThrough(samples::profileOf(samples::srgb()), colours, source) == same);
    CHECK(srgbThrough(samples::profileOf(samples::displayP3()), colours, source) != same);
}

TEST_CASE("an sRGB profile leaves every shade of 8 bits as it is") {
    std::vector<ProfileRgb> colours;
    std::vector<Srgb8> same;
    for (unsigned i = 0; i < 256; ++i) {
        const auto value = static_cast<std::uint8_t>(i);
        const auto other = static_cast<std::uint8_t>(255 - i);
        colours.push_back({static_cast<std::uint16_t>(257 * i), static_cast<std::uint16_t>(257 * i),
                           static_cast<std::uint16_t>(257 * (255 - i))});
        same.push_back({value, value, other});
    }
    CHECK(srgbThrough(samples::profileOf(samples::srgb()), colours, QStringLiteral("c.png")) ==
          same);
}

TEST_CASE("a grey profile takes grey pixels through its curve") {
    std::vector<ProfileRgb> colours;
    for (unsigned i = 0; i < 65536; i += 97) {
        const auto value = static_cast<std::uint16_t>(i);
        colours.push_back({value, value, value});
    }
    const auto srgb = srgbThrough(samples::greyProfile(1.0), colours, QStringLiteral("c.png"));
    for (std::size_t i = 0; i < colours.size(); ++i) {
        CAPTURE(colours[i].r);
        CHECK_THAT(srgb[i].r,
                   Catch::Matchers::WithinAbs(255 * encoded(colours[i].r / 65535.0), 0.52));
        CHECK(srgb[i].g == srgb[i].r);
        CHECK(srgb[i].b == srgb[i].r);
    }
    CHECK(refusalOf(samples::greyProfile(1.0), {{5, 5, 5}, {5, 5, 6}}) ==
          kExpected + "one for grey in a picture in colour");
}

TEST_CASE("an RGB profile takes grey pixels too") {
    const auto srgb = srgbThrough(samples::profileOf(samples::adobeRgb()),
                                  std::vector<ProfileRgb>{{0, 0, 0}, {65535, 65535, 65535}},
                                  QStringLiteral("c.png"));
    CHECK(srgb == std::vector<Srgb8>{{0, 0, 0}, {255, 255, 255}});
}

TEST_CASE("a profile for something else is refused") {
    constexpr qsizetype kClassAt = 12; // ICC.1:2010, table 17
    constexpr qsizetype kSpaceAt = 16;
    const QByteArray good = samples::profileOf(samples::adobeRgb());
    const auto with = [&](qsizetype at, const char* four) {
        return QByteArray(good).replace(at, 4, four);
    };
    const std::string somethingElse = kExpected + "one for something else";
    CHECK(refusalOf(with(kSpaceAt, "CMYK"), {{}}) == somethingElse);
    CHECK(refusalOf(with(kSpaceAt, "Lab "), {{}}) == somethingElse);
    CHECK(refusalOf(with(kSpaceAt, "HSV "), {{}}) == somethingElse);
    CHECK(refusalOf(with(kClassAt, "link"), {{}}) == somethingElse);
    CHECK(refusalOf(with(kClassAt, "abst"), {{}}) == somethingElse);
    CHECK(refusalOf(with(kClassAt, "nmcl"), {{}}) == somethingElse);
    CHECK(refusalOf(with(kClassAt, "scnr"), {{}}) == "accepted");
    CHECK(refusalOf(with(kSpaceAt, "GRAY"), {{}}) == kExpected + "a damaged one");
}

TEST_CASE("no part of a profile passes for the whole") {
    const QByteArray good = samples::profileOf(samples::displayP3());
    for (qsizetype bytes = 0; bytes < good.size(); ++bytes) {
        CAPTURE(bytes);
        CHECK(refusalOf(good.left(bytes), {{}}) == kExpected + "a damaged one");
    }
    CHECK(refusalOf(good, {{}}) == "accepted");
    CHECK(refusalOf(good + QByteArray(40, 'x'), {{}}) == "accepted");
}

TEST_CASE("whatever byte of a profile is wrong, colours come out or it is refused") {
    const QByteArray good = samples::profileOf(samples::displayP3());
    int refused = 0;
    for (qsizetype at = 0; at < good.size(); ++at) {
        for (const int flip : {0x01, 0x80, 0xff}) {
            QByteArray bad = good;
            bad[at] = static_cast<char>(bad[at] ^ flip);
            const std::string said = refusalOf(bad, {{1000, 60000, 30000}});
            const bool isOne =
                said == "accepted" || said.compare(0, kExpected.size(), kExpected) == 0;
            CAPTURE(at, flip, said);
            CHECK(isOne);
            refused += said == "accepted" ? 0 : 1;
        }
    }
    CHECK(refused > 100);
}
