#include "colour/sight.h"

#include "colour/conversion.h"
#include "colour/difference.h"
#include "reference/reference_file.h"

#include <catch2/catch.hpp>

#include <cstdlib>

using namespace otherskein;
using namespace otherskein::colour;
using Catch::Matchers::WithinAbs;
using Kind = Sight::Kind;

namespace {

Kind kindOf(const QString& word) {
    return word == QLatin1String("protan")   ? Kind::Protan
           : word == QLatin1String("deutan") ? Kind::Deutan
                                             : Kind::Tritan;
}

int channelsApart(const Srgb8& one, const Srgb8& other) {
    return std::max(
        {std::abs(one.r - other.r), std::abs(one.g - other.g), std::abs(one.b - other.b)});
}

} // namespace

TEST_CASE("colours look as the matrices of Machado 2009 make them") {
    const reference::File table("machado_2009.csv");
    REQUIRE(table.rows().size() == 180);
    for (const auto& row : table.rows()) {
        const Srgb8 srgb = *parseHex(row.text("srgb"));
        const Srgb8 expected = *parseHex(row.text("seen"));
        const Sight sight{kindOf(row.text("kind")), row.number("severity")};
        const Srgb8 found = srgbFromLab(seen(labFromSrgb(srgb), sight));
        CAPTURE(row.text("kind").toStdString(), sight.severity, row.text("srgb").toStdString(),
                toHex(found).toStdString(), toHex(expected).toStdString());
        // Rounding twice by 8 bits; the ICC columns are rounded to 16 bits.
        CHECK(channelsApart(found, expected) <= 1);
    }
}

TEST_CASE("no deficiency leaves a colour as it is and greys stay grey at any severity") {
    const Lab rust{48, 38, 30};
    for (const Kind kind : {Kind::Protan, Kind::Deutan, Kind::Tritan}) {
        CHECK(deltaE00(seen(rust, {kind, 0}), rust) < 1e-6);
        for (const double severity : {0.0, 0.25, 0.7, 1.0}) {
            for (const double lightness : {0.0, 20.0, 55.0, 100.0}) {
                CAPTURE(severity, lightness);
                CHECK(deltaE00(seen({lightness, 0, 0}, {kind, severity}), {lightness, 0, 0}) <
                      0.05);
            }
        }
    }
    CHECK((seen(rust, {Kind::Full, 1}) == rust));
}

TEST_CASE(
    "a red and a green of one lightness merge for green-weak eyes and not for blue-weak ones") {
    const Lab brick{45, 35, 25};
    const Lab moss{46, -12, 25};
    const double full = deltaE00(brick, moss);
    double before = full;
    for (const double severity : {0.2, 0.4, 0.6, 0.8, 1.0}) {
        const double now =
            deltaE00(seen(brick, {Kind::Deutan, severity}), seen(moss, {Kind::Deutan, severity}));
        CHECK(now < before);
        before = now;
    }
    CHECK(before < 0.4 * full);
    CHECK(deltaE00(seen(brick, {Kind::Tritan, 1}), seen(moss, {Kind::Tritan, 1})) > 0.7 * full);
}

TEST_CASE("values keep lightness alone") {
    CHECK((seen({61.5, -20, 44}, {Kind::Values, 1}) == Lab{61.5, 0, 0}));
}
