#include "cli/detail/similar.h"

#include <catch2/catch.hpp>

using otherskein::cli::similarHint;
using otherskein::cli::similarTo;

namespace {

const QStringList kCodes{QStringLiteral("LF-118"), QStringLiteral("LF-218"),
                         QStringLiteral("LF-219"), QStringLiteral("LF-281"),
                         QStringLiteral("MS-40")};

} // namespace

TEST_CASE("the codes most like a mistyped one come first and at most three") {
    const QStringList hints = similarTo(QStringLiteral("lf-217"), kCodes);
    CHECK(hints == QStringList{QStringLiteral("LF-218"), QStringLiteral("LF-219"),
                               QStringLiteral("LF-281")});
}

TEST_CASE("nothing is hinted at where nothing is like it") {
    CHECK(similarHint(QStringLiteral("harbour"), kCodes).isEmpty());
    CHECK(similarHint(QString(), kCodes).isEmpty());
}
