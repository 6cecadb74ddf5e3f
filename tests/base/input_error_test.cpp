#include "base/input_error.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using namespace otherskein::base;

namespace {

/// Nothing that ends a line in a terminal, a file or a text widget.
bool isOneLine(const QString& text) {
    return std::ranges::none_of(text, [](QChar c) {
        return c.category() == QChar::Other_Control || c == QChar(0x2028) || c == QChar(0x2029);
    });
}

} // namespace

TEST_CASE("an input error says file row column expected and found in one line") {
    const InputError error({QStringLiteral("harbour.csv"), 14, QStringLiteral("srgb"),
                            QStringLiteral("#rrggbb"), quotedForMessage(QStringLiteral("#12345"))});
    CHECK(std::string(error.what()) ==
          "harbour.csv:14: column srgb: expected #rrggbb, found \"#12345\"");
    CHECK(error.line().toStdString() == error.what());
    CHECK(error.problem().row == 14);
    CHECK(error.problem().column.toStdString() == "srgb");
}

TEST_CASE("row and column are left out where there are none") {
    const InputError error({QStringLiteral("harbour.csv"),
                            {},
                            {},
                            QStringLiteral("a file"),
                            QStringLiteral("a folder")});
    CHECK(std::string(error.what()) == "harbour.csv: expected a file, found a folder");
}

TEST_CASE("hostile text cannot break the line of an error") {
    const QString hostile = GENERATE(
        as<QString>(), QStringLiteral("a\nb"), QStringLiteral("a\r\nb"), QStringLiteral("a\rb"),
        QStringLiteral("\u2028b"), QStringLiteral("a\u2029"), QStringLiteral("a\u0085b"),
        QStringLiteral("\x1b[2Jgone"), QStringLiteral("a\tb"), QStringLiteral("a\vb\fc"),
        QString::fromLatin1("a\0b", 3), QString(10'000, QLatin1Char('\n')));
    const InputError error({hostile, 3, hostile, hostile, hostile});
    CAPTURE(error.what());
    CHECK(isOneLine(error.line()));
    // The line is whole: a NUL inside would cut what() short.
    CHECK(error.line().contains(QStringLiteral(":3: column ")));
    CHECK(error.line().contains(QStringLiteral(", found ")));
    CHECK(isOneLine(quotedForMessage(hostile)));
}

TEST_CASE("control characters are shown by their code") {
    CHECK(quotedForMessage(QStringLiteral("a\nb\x1b"
                                          "c"))
              .toStdString() == "\"a\\x0ab\\x1bc\"");
    CHECK(quotedForMessage(QStringLiteral("\u2028")).toStdString() == "\"\\x2028\"");
}

TEST_CASE("other scripts and signs stay as they are") {
    CHECK(quotedForMessage(QStringLiteral("bleu pâle 藍 🧵")).toStdString() ==
          "\"bleu pâle 藍 🧵\"");
    CHECK(quotedForMessage(QString()).toStdString() == "\"\"");
}

TEST_CASE("long text is cut and shows that it was") {
    const QString sixty(60, QLatin1Char('x'));
    CHECK(quotedForMessage(sixty) == QLatin1Char('"') + sixty + QLatin1Char('"'));
    CHECK(quotedForMessage(sixty + QLatin1Char('y')) ==
          QLatin1Char('"') + sixty + QStringLiteral("…\""));
}

TEST_CASE("cutting never splits a character in two") {
    // The picture takes two units, of which the cut at 60 would keep the first.
    const QString text = QString(59, QLatin1Char('x')) + QStringLiteral("🧵🧵");
    const QString shown = quotedForMessage(text);
    CHECK(shown == QLatin1Char('"') + QString(59, QLatin1Char('x')) + QStringLiteral("…\""));
}
