#include "folder.h"

#include "colour/contrast.h"
#include "colour/conversion.h"
#include "colour/difference.h"
#include "colour/mixing.h"
#include "workbox/document.h"

#include <QJsonArray>

using namespace otherskein;

namespace {

colour::Lab labOf(const QJsonValue& value) {
    const QJsonArray lab = value.toArray();
    REQUIRE(lab.size() == 3);
    return {lab[0].toDouble(), lab[1].toDouble(), lab[2].toDouble()};
}

QJsonObject answerTo(const QString& words) {
    const Answer answer = ask(QStringLiteral("ground --json ") + words);
    CAPTURE(answer.err.toStdString());
    REQUIRE(answer.exitCode == 0);
    return answer.json();
}

} // namespace

TEST_CASE("ground answers with the numbers of the contract") {
    const QJsonObject answer =
        answerTo(QStringLiteral("--from %1 --ground #232C40 --count 36 --over 2 --strands 1")
                     .arg(demo("lanternfold-cotton.csv")));
    const QJsonObject ground = answer[QStringLiteral("ground")].toObject();
    const colour::Lab cloth = colour::labFromSrgb({0x23, 0x2c, 0x40});
    CHECK(ground[QStringLiteral("srgb")].toString() == QStringLiteral("#232c40"));
    CHECK(labOf(ground[QStringLiteral("lab")]) == cloth);
    CHECK(ground[QStringLiteral("count")].toInt() == 36);
    CHECK(ground[QStringLiteral("over")].toInt() == 2);
    CHECK(ground[QStringLiteral("strands")].toInt() == 1);

    const QJsonArray threads = answer[QStringLiteral("threads")].toArray();
    REQUIRE(threads.size() == 420);
    double last = 0;
    for (const QJsonValue& one : threads) {
        CAPTURE(one[QStringLiteral("code")].toString().toStdString());
        const double covered = one[QStringLiteral("coverage")].toDouble();
        const colour::Lab apparent = labOf(one[QStringLiteral("apparent")]);
        const double de00 = one[QStringLiteral("de00")].toDouble();
        // Metallic threads are thinner: √2·0.35/1.4111 of a cell.
        CHECK((std::abs(covered - 0.641) < 5e-4 || std::abs(covered - 0.578) < 6e-4));
        CHECK(apparent ==
              colour::apparentColour(labOf(one[QStringLiteral("lab")]), cloth, covered));
        CHECK(de00 == colour::deltaE00(apparent, cloth));
        CHECK(one[QStringLiteral("dL")].toDouble() == apparent.L - cloth.L);
        CHECK(one[QStringLiteral("ratio")].toDouble() == colour::contrastRatio(apparent, cloth));
        CHECK(one[QStringLiteral("verdict")].toString() == QString::fromUtf8(de00 < 8 ? "vanishes"
                                                                             : de00 < 16
                                                                                 ? "soft"
                                                                                 : "clear"));
        CHECK(de00 >= last);
        last = de00;
    }
}

TEST_CASE("the fabric is 36 count over 2 with 2 strands when nothing is said") {
    const Folder folder;
    const QJsonObject answer =
        answerTo(QStringLiteral("--ground #ffffff --from ") + folder.write("a.csv", kSmallCard));
    const QJsonObject ground = answer[QStringLiteral("ground")].toObject();
    CHECK(ground[QStringLiteral("count")].toInt() == 36);
    CHECK(ground[QStringLiteral("over")].toInt() == 2);
    CHECK(ground[QStringLiteral("strands")].toInt() == 2);
    for (const QJsonValue& one : answer[QStringLiteral("threads")].toArray()) {
        // By fibre: cotton 0.40 mm, wool 0.75, metallic 0.35.
        const QString code = one[QStringLiteral("code")].toString();
        const double covered = code == QStringLiteral("A-3")   ? 1
                               : code == QStringLiteral("A:4") ? 0.911
                                                               : 0.961;
        CHECK_THAT(one[QStringLiteral("coverage")].toDouble(), Catch::WithinAbs(covered, 5e-4));
    }
}

TEST_CASE("a key is judged row by row with its own strands unless they are given") {
    const QString words = QStringLiteral("--ground #232c40 --key ") + demo("harbour-row.key.csv");
    const auto strandsOf = [](const QJsonObject& answer, const char* code) {
        for (const QJsonValue& one : answer[QStringLiteral("threads")].toArray()) {
            if (one[QStringLiteral("code")].toString() == QString::fromUtf8(code)) {
                return one[QStringLiteral("strands")].toInt();
            }
        }
        return 0;
    };
    const QJsonObject own = answerTo(words);
    CHECK(own[QStringLiteral("threads")].toArray().size() == 10);
    CHECK(strandsOf(own, "LF-761") == 1);
    CHECK(strandsOf(own, "LF-218") == 2);
    CHECK(own[QStringLiteral("ground")][QStringLiteral("strands")].isNull());

    const QJsonObject given = answerTo(words + QStringLiteral(" --strands 3"));
    CHECK(strandsOf(given, "LF-761") == 3);
    CHECK(given[QStringLiteral("ground")][QStringLiteral("strands")].toInt() == 3);
}

TEST_CASE("the cards given give the measured colours of a key") {
    const Folder folder;
    const QString card = folder.write("a.csv", kSmallCard);
    const QString key = folder.write("k.csv", "srgb,card,code\n#000001,a,A-1\n#000002,b,A-2\n");
    const QJsonObject answer =
        answerTo(QStringLiteral("--ground #ffffff --key %1 --from %2").arg(key, card));
    const QJsonArray threads = answer[QStringLiteral("threads")].toArray();
    REQUIRE(threads.size() == 2);
    CHECK(threads[0][QStringLiteral("srgb")].toString() == QStringLiteral("#808890"));
    CHECK(threads[1][QStringLiteral("srgb")].toString() == QStringLiteral("#000002"));
}

TEST_CASE("the ground table counts its verdicts") {
    const Folder folder;
    const Answer answer =
        ask(QStringLiteral("ground --ground #7f8790 --count 14 --over 1 --from ") +
            folder.write("a.csv", kSmallCard));
    CHECK(answer.exitCode == 0);
    CHECK(answer.out.contains(QStringLiteral("14 count over 1, strands in the needle: 2\n")));
    CHECK(answer.out.contains(
        QStringLiteral("\nVanishing: 4 (ΔE00 under 8). Soft: 0. Clear: 0 (from 16).\n")));
}

TEST_CASE("ground says how many strands cover, and takes another width of thread") {
    const QString words =
        QStringLiteral("--from %1 --ground #232c40 --count 36 --over 2 --strands 1 ")
            .arg(demo("lanternfold-cotton.csv"));
    const QJsonObject usual = answerTo(words);
    const QJsonObject wide = answerTo(words + QStringLiteral("--ply-width 0.8"));
    for (const auto& [answer, covered, enough] :
         {std::tuple{usual, 0.641, 2}, std::tuple{wide, 0.961, 1}}) {
        const QJsonValue one = answer[QStringLiteral("threads")].toArray().first();
        CHECK_THAT(one[QStringLiteral("coverage")].toDouble(), Catch::WithinAbs(covered, 5e-4));
        CHECK(one[QStringLiteral("strands_to_cover")].toInt() == enough);
    }
}

TEST_CASE("several grounds are answered one by one, and one of the workbox by its name") {
    const Folder folder;
    const QString box = folder.path("w.sqlite");
    {
        workbox::Document document(box);
        thread::Ground mist = thread::groundOfSrgb(QStringLiteral("Sea mist"), {0xa5, 0xae, 0xb3});
        mist.count = 28;
        mist.over = 1;
        document.addGround(mist);
    }
    const Answer answer = ask(QStringList{
        QStringLiteral("--workbox"), box, QStringLiteral("ground"), QStringLiteral("--json"),
        QStringLiteral("--from"), demo("mossip-silk.csv"), QStringLiteral("--ground"),
        QStringLiteral("#232c40"), QStringLiteral("--ground"), QStringLiteral("Sea mist")});
    CAPTURE(answer.err.toStdString());
    REQUIRE(answer.exitCode == 0);
    const QJsonArray grounds = answer.json()[QStringLiteral("grounds")].toArray();
    REQUIRE(grounds.size() == 2);
    CHECK(grounds[0][QStringLiteral("ground")] == answer.json()[QStringLiteral("ground")]);
    const QJsonValue mist = grounds[1][QStringLiteral("ground")];
    CHECK(mist[QStringLiteral("name")] == QStringLiteral("Sea mist"));
    CHECK(mist[QStringLiteral("srgb")] == QStringLiteral("#a5aeb3"));
    CHECK(mist[QStringLiteral("count")].toInt() == 28);
    CHECK(mist[QStringLiteral("over")].toInt() == 1);
}

TEST_CASE("a ground that nobody knows is refused in one line") {
    const Answer answer =
        ask(QStringLiteral("ground --from %1 --ground Fog").arg(demo("mossip-silk.csv")));
    CHECK(answer.exitCode == 2);
    CHECK(answer.err == QStringLiteral("--ground: expected #rrggbb or the name of a ground in the "
                                       "workbox, found \"Fog\"\n"));
}
