#include "folder.h"

TEST_CASE("the table names the wanted thread and ends with the caution") {
    const Folder folder;
    const QString card = folder.write("a.csv", kSmallCard);
    const Answer answer = ask(QStringLiteral("substitute --wanted %1:A-1 --from %1").arg(card));
    CHECK(answer.exitCode == 0);
    CHECK(answer.out ==
          QString::fromUtf8(
              "Wanted: a A-1 Mist  #808890  (L* 56.2, a* -1.8, b* -5.4)\n"
              "\n"
              "#  Card  Code  Name   ΔE00  Grey  In words               Stash\n"
              "1  a     A-2   Fog    0.72  4-5   No visible difference    1.5\n"
              "2  a     A-3   Haar   0.72  4-5   No visible difference      0\n"
              "     ! A-3 is matt, not satin\n"
              "     ! A-3 is wool, not cotton\n"
              "     ! A-3 is out of stock\n"
              "3  a     A:4   Smirr   3.0  3     A little darker            0\n"
              "     ! A:4 is metallic: its colour shifts with the light\n"
              "     ! A:4 is discontinued\n"
              "\n"
              "Grey: step of the textile grey scale, 5 is no difference, 1 a large one.\n"
              "Screen colours guide; the skein in hand decides: compare in the light the piece "
              "will hang in.\n"));
}

TEST_CASE("an empty list is an answer") {
    const Folder folder;
    const QString card = folder.write("a.csv", kSmallCard);
    const Answer answer =
        ask(QStringLiteral("substitute --wanted %1:A-1 --from %1 --fibre silk").arg(card));
    CHECK(answer.exitCode == 0);
    CHECK(answer.out.contains(QStringLiteral("No thread on these cards answers what was asked.")));
}
