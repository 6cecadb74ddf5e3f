#include "folder.h"

TEST_CASE("without a command the window opens") {
    std::ostringstream out;
    std::ostringstream err;
    const auto invocation = otherskein::cli::run({}, {out, err});
    CHECK(invocation.wantsWindow());
    CHECK_FALSE(invocation.workboxPath.isEmpty());
    CHECK(out.str().empty());
    CHECK(err.str().empty());
}

TEST_CASE("the window and the commands take the workbox that the user names") {
    std::ostringstream out;
    std::ostringstream err;
    const QStringList words{QStringLiteral("--workbox"), QStringLiteral("mine.sqlite")};
    const auto invocation = otherskein::cli::run(words, {out, err});
    CHECK(invocation.wantsWindow());
    CHECK(invocation.workboxPath == QStringLiteral("mine.sqlite"));
}

TEST_CASE("the version is that of the build") {
    const Answer answer = ask(QStringLiteral("--version"));
    CHECK(answer.exitCode == 0);
    CHECK(answer.out.startsWith(QStringLiteral("otherskein ")));
    CHECK(answer.out.count(QLatin1Char('\n')) == 1);
}

TEST_CASE("the help of each command shows an example") {
    const char* command = GENERATE("", "substitute ", "recolour ", "convert ", "ground ",
                                   "quantities ", "trace ", "workbox ", "workbox import ",
                                   "workbox export ", "workbox list ", "workbox check ");
    const char* flag = GENERATE("-h", "--help");
    CAPTURE(command, flag);
    const Answer answer = ask(QString::fromUtf8(command) + QString::fromUtf8(flag));
    CHECK(answer.exitCode == 0);
    CHECK(answer.err.isEmpty());
    CHECK(answer.out.contains(QStringLiteral("Example:\n  otherskein ") +
                              QString::fromUtf8(command).trimmed()));
}

TEST_CASE("the general help offers the commands that exist and no others") {
    const QString help = ask(QStringLiteral("--help")).out;
    CHECK(help.contains(QStringLiteral("\n  substitute ")));
    CHECK(help.contains(QStringLiteral("\n  recolour ")));
    CHECK(help.contains(QStringLiteral("\n  convert ")));
    CHECK(help.contains(QStringLiteral("\n  ground ")));
    CHECK(help.contains(QStringLiteral("\n  quantities ")));
    CHECK(help.contains(QStringLiteral("\n  trace ")));
    CHECK(help.contains(QStringLiteral("\n  workbox ")));
    for (const char* later : {"measure", "sheet"}) {
        CAPTURE(later);
        CHECK_FALSE(help.contains(QStringLiteral("\n  ") + QString::fromUtf8(later)));
    }
}

TEST_CASE("the help of ground says how its limits were chosen") {
    const QString help = ask(QStringLiteral("ground --help")).out;
    CHECK(help.contains(QStringLiteral("\"vanishes\" under 8")));
    CHECK(help.contains(QStringLiteral("\"clear\" from 16")));
    CHECK(help.contains(QStringLiteral("common practice")));
}

TEST_CASE("an unknown command is refused in one line") {
    const char* word = GENERATE("measure", "sheet", "Substitute", "--json", "x.csv");
    CAPTURE(word);
    const Answer answer = ask(QString::fromUtf8(word));
    CHECK(answer.exitCode == 2);
    CHECK(answer.out.isEmpty());
    CHECK(answer.err ==
          QStringLiteral("otherskein: expected a command (substitute, recolour, convert, ground, "
                         "quantities, trace, workbox), "
                         "found \"%1\"\n")
              .arg(QString::fromUtf8(word)));
}

TEST_CASE("an answer that cannot be written is an error") {
    std::ostringstream out;
    std::ostringstream err;
    out.setstate(std::ios::badbit);
    const auto invocation = otherskein::cli::run({QStringLiteral("--version")}, {out, err});
    CHECK(invocation.exitCode == 2);
    CHECK(err.str() ==
          "standard output: expected a place to write, found one that takes no more\n");
}
