#include "base/natural_order.h"

#include <catch2/catch.hpp>

#include <array>
#include <utility>

using namespace otherskein;

TEST_CASE("codes sort as people count") {
    const std::pair<const char*, const char*> pairs[] = {
        {"MS-21", "MS-100"}, {"ms-21", "MS-22"},  {"9", "10"},    {"A2", "A10"},        {"A", "A1"},
        {"7", "B"},          {"A-9-2", "A-9-11"}, {"A007", "A8"}, {"X99999", "X100000"}};
    for (const auto& [first, second] : pairs) {
        CAPTURE(first, second);
        CHECK(base::naturalKey(QString::fromLatin1(first)) <
              base::naturalKey(QString::fromLatin1(second)));
    }
}
