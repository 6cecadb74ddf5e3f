#include "cli/detail/table.h"

#include <catch2/catch.hpp>

#include <QStringList>

using otherskein::cli::Table;
using otherskein::cli::terminalWidth;

TEST_CASE("columns keep in line when names hold wide letters and marks") {
    Table table({{QStringLiteral("Name")}, {QStringLiteral("N"), Table::Align::Right}});
    for (const char* name : {"plain", "藍色の糸", "🧵 spool", "cafe\u0301", "Ёлка"}) {
        table.addRow({QString::fromUtf8(name), QStringLiteral("7")});
    }
    const QStringList lines = table.text().split(QLatin1Char('\n'), Qt::SkipEmptyParts);
    REQUIRE(lines.size() == 6);
    for (const QString& line : lines) {
        CAPTURE(line.toStdString());
        CHECK(terminalWidth(line) == terminalWidth(lines.front()));
    }
}

TEST_CASE("wide letters take two columns and marks none") {
    CHECK(terminalWidth(QStringLiteral("ab")) == 2);
    CHECK(terminalWidth(QStringLiteral("藍色")) == 4);
    CHECK(terminalWidth(QStringLiteral("🧵")) == 2);
    CHECK(terminalWidth(QString::fromUtf8("e\u0301")) == 1);
}

TEST_CASE("a name cannot move the terminal's cursor") {
    Table table({{QStringLiteral("Name")}});
    table.addRow({QStringLiteral("red\x1b[2Jmoon\nrise")});
    table.addRemark(QStringLiteral("a\rb"));
    CHECK(table.text() == QStringLiteral("Name\nred [2Jmoon rise\n     ! a b\n"));
}

TEST_CASE("a long name is cut and its column stays in line") {
    Table table({{QStringLiteral("Name")}, {QStringLiteral("N")}});
    table.addRow({QString(300, QLatin1Char('x')), QStringLiteral("1")});
    CHECK(table.text().endsWith(QStringLiteral("xxx…  1\n")));
    CHECK(table.text().size() < 120);
}
