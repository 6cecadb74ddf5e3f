#include "folder.h"

#include "colour/conversion.h"
#include "colour/difference.h"
#include "thread/shade_card.h"

#include <QJsonArray>

#include <algorithm>
#include <tuple>

using namespace otherskein;

namespace {

colour::Lab candidateLab(const QJsonValue& value) {
    const QJsonArray lab = value.toArray();
    REQUIRE(lab.size() == 3);
    return {lab[0].toDouble(), lab[1].toDouble(), lab[2].toDouble()};
}

QJsonArray candidatesOf(const Answer& answer) {
    CAPTURE(answer.err.toStdString());
    REQUIRE(answer.exitCode == 0);
    REQUIRE(answer.err.isEmpty());
    return answer.json()[QStringLiteral("candidates")].toArray();
}

QStringList codesOf(const QJsonArray& candidates) {
    QStringList codes;
    for (const QJsonValue& one : candidates) {
        codes << one[QStringLiteral("code")].toString();
    }
    return codes;
}

QStringList codesFor(const QString& words) {
    return codesOf(candidatesOf(ask(QStringLiteral("substitute --json ") + words)));
}

QStringList list(const char* words) {
    return QString::fromUtf8(words).split(QLatin1Char(' '));
}

} // namespace

TEST_CASE("the list is what asking every thread would give") {
    const QString cotton = demo("lanternfold-cotton.csv");
    const QString silk = demo("mossip-silk.csv");
    const QString wanted = QStringLiteral("LF-218");
    std::vector<std::tuple<double, QString, QString>> expected;
    const thread::ShadeCard own = thread::readShadeCard(cotton);
    const colour::Lab lab = thread::findThread(own, wanted)->lab;
    for (const thread::ShadeCard& card : {own, thread::readShadeCard(silk)}) {
        for (const thread::Thread& one : card.threads) {
            if (one.code != wanted) {
                expected.emplace_back(colour::deltaE00(lab, one.lab), card.name, one.code);
            }
        }
    }
    std::ranges::sort(expected);

    const QJsonArray found =
        candidatesOf(ask(QStringLiteral("substitute --wanted %1:%2 --from %1 --from %3 "
                                        "--limit 1000 --json")
                             .arg(cotton, wanted, silk)));
    REQUIRE(found.size() == static_cast<qsizetype>(expected.size()));
    for (qsizetype i = 0; i < found.size(); ++i) {
        const auto& [de00, card, code] = expected[static_cast<std::size_t>(i)];
        CAPTURE(i, code.toStdString());
        REQUIRE(found[i][QStringLiteral("de00")].toDouble() == de00); // to the last bit
        REQUIRE(found[i][QStringLiteral("card")].toString() == card);
        REQUIRE(found[i][QStringLiteral("code")].toString() == code);
    }
}

TEST_CASE("a candidate in JSON has all that the contract names") {
    const QJsonObject answer = ask(QStringLiteral("substitute --wanted %1:LF-218 --from %1 --json")
                                       .arg(demo("lanternfold-cotton.csv")))
                                   .json();
    const QJsonObject wanted = answer[QStringLiteral("wanted")].toObject();
    CHECK(wanted[QStringLiteral("card")].toString() == QStringLiteral("lanternfold-cotton"));
    CHECK(wanted[QStringLiteral("code")].toString() == QStringLiteral("LF-218"));
    CHECK(wanted[QStringLiteral("name")].toString() == QStringLiteral("Harbour slate"));
    CHECK(wanted[QStringLiteral("srgb")].toString() == QStringLiteral("#445d76"));
    const QJsonArray candidates = answer[QStringLiteral("candidates")].toArray();
    REQUIRE(candidates.size() == 10);
    const QJsonObject first = candidates[0].toObject();
    const auto parts = colour::differenceParts(candidateLab(wanted[QStringLiteral("lab")]),
                                               candidateLab(first[QStringLiteral("lab")]));
    CHECK(first[QStringLiteral("dL")].toDouble() == parts.dL);
    CHECK(first[QStringLiteral("dC")].toDouble() == parts.dC);
    CHECK(first[QStringLiteral("dH")].toDouble() == parts.dH);
    CHECK(first[QStringLiteral("srgb")].toString().size() == 7);
    CHECK_FALSE(first[QStringLiteral("words")].toString().isEmpty());
    CHECK_FALSE(first[QStringLiteral("grey_scale")].toString().isEmpty());
    CHECK(first[QStringLiteral("warnings")].isArray());
    CHECK(first[QStringLiteral("stash")].isDouble());
    CHECK_FALSE(first.contains(QStringLiteral("blend")));
}

TEST_CASE("blends and single threads stand in one list with the strands of each") {
    const QJsonArray found =
        candidatesOf(ask(QStringLiteral("substitute --wanted %1:LF-218 --from %1 --blend "
                                        "--strands 3 --limit 40 --json")
                             .arg(demo("lanternfold-cotton.csv"))));
    REQUIRE(found.size() == 40);
    int blends = 0;
    double last = 0;
    for (const QJsonValue& one : found) {
        CHECK(one[QStringLiteral("de00")].toDouble() >= last);
        last = one[QStringLiteral("de00")].toDouble();
        if (const QJsonArray blend = one[QStringLiteral("blend")].toArray(); !blend.isEmpty()) {
            ++blends;
            REQUIRE(blend.size() == 2);
            CHECK(blend[0][QStringLiteral("strands")].toInt() == 2);
            CHECK(blend[1][QStringLiteral("strands")].toInt() == 1);
            CHECK(blend[0][QStringLiteral("code")].toString() != QStringLiteral("LF-218"));
            CHECK(blend[1][QStringLiteral("code")].toString() != QStringLiteral("LF-218"));
        }
    }
    CHECK(blends > 0);
}

TEST_CASE("ties go by card and then by code") {
    const Folder folder;
    const QString a = folder.write("a.csv", kSmallCard);
    const QString b = folder.write("b.csv", kSmallCard);
    const QJsonArray found =
        candidatesOf(ask(QStringLiteral("substitute --colour #828a92 --from %2 --from %1 "
                                        "--limit 4 --json")
                             .arg(a, b)));
    CHECK(codesOf(found) == list("A-2 A-3 A-2 A-3"));
    CHECK(found[0][QStringLiteral("card")].toString() == QStringLiteral("a"));
    CHECK(found[2][QStringLiteral("card")].toString() == QStringLiteral("b"));
}

TEST_CASE("a bare colour is wanted by its sRGB value alone") {
    const Folder folder;
    const QString card = folder.write("a.csv", kSmallCard);
    const QJsonObject wanted =
        ask(QStringLiteral("substitute --colour #828A92 --from %1 --json").arg(card))
            .json()[QStringLiteral("wanted")]
            .toObject();
    CHECK(wanted[QStringLiteral("srgb")].toString() == QStringLiteral("#828a92"));
    CHECK(candidateLab(wanted[QStringLiteral("lab")]) == colour::labFromSrgb({0x82, 0x8a, 0x92}));
    CHECK_FALSE(wanted.contains(QStringLiteral("code")));
}

TEST_CASE("a card given twice is read once") {
    const Folder folder;
    const QString card = folder.write("a.csv", kSmallCard);
    const QString again = QFileInfo(card).path() + QStringLiteral("/./a.csv");
    CHECK(codesFor(QStringLiteral("--wanted %1:A-1 --from %1 --from %2").arg(card, again)) ==
          list("A-2 A-3 A:4"));
}

TEST_CASE("only the wanted card loses its thread where two cards share a name") {
    const Folder folder;
    const QString one = folder.write("one/a.csv", kSmallCard);
    const QString other = folder.write("other/a.csv", kSmallCard);
    CHECK(codesFor(QStringLiteral("--wanted %1:A-1 --from %1 --from %2").arg(one, other)) ==
          list("A-1 A-2 A-2 A-3 A-3 A:4 A:4"));
    CHECK(codesFor(QStringLiteral("--wanted %1:A-1 --from %2").arg(one, other)) ==
          list("A-1 A-2 A-3 A:4"));
}

TEST_CASE("a code may hold a colon") {
    const Folder folder;
    const QString card = folder.write("a.csv", kSmallCard);
    CHECK(codesFor(QStringLiteral("--wanted %1:A:4 --from %1 --limit 1").arg(card)) == list("A-1"));
}

TEST_CASE("filters leave out what was not asked for") {
    const Folder folder;
    const QString card = folder.write("a.csv", kSmallCard);
    const QString all = QStringLiteral("--colour #808890 --from %1 ").arg(card);
    CHECK(codesFor(all + QStringLiteral("--stash")) == list("A-2"));
    CHECK(codesFor(all + QStringLiteral("--in-stock")) == list("A-1 A-2"));
    CHECK(codesFor(all + QStringLiteral("--fibre wool")) == list("A-3"));
    CHECK(codesFor(all + QStringLiteral("--finish metallic")) == list("A:4"));
    CHECK(codesFor(all + QStringLiteral("--fibre silk")).isEmpty());
}

TEST_CASE("the weights change the difference") {
    const Folder folder;
    const QString card = folder.write("a.csv", kSmallCard);
    const auto de00 = [&](const char* weights) {
        return candidatesOf(
                   ask(QStringLiteral("substitute --wanted %1:A-1 --from %1 --json "
                                      "--weights %2")
                           .arg(card, QString::fromUtf8(weights))))[0][QStringLiteral("de00")]
            .toDouble();
    };
    CHECK(de00("2:1:1") < de00("1:1:1"));
}

TEST_CASE("a key warns and the wanted row of it does not") {
    const Folder folder;
    const QString card = folder.write("a.csv", kSmallCard);
    const QString key = folder.write("k.csv", "srgb,card,code\n#000001,a,A-1\n#000002,a,A-2\n");
    const QJsonArray found = candidatesOf(
        ask(QStringLiteral("substitute --wanted %1:A-1 --from %1 --key %2 --json").arg(card, key)));
    REQUIRE(codesOf(found) == list("A-2 A-3 A:4"));
    CHECK(found[0][QStringLiteral("warnings")][0].toString() ==
          QStringLiteral("Already in the chart as A-2"));
    // Only the card knows that A-2 is as near as this; its pixel is almost black.
    CHECK(found[1][QStringLiteral("warnings")][0].toString().startsWith(
        QStringLiteral("Close to A-2 in the chart: ΔE 0.0")));
}
