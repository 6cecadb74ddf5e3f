// Each refusal's exact line. %1 stands for a small card in the words and in the line, %2 for a
// folder.
#include "folder.h"

namespace {

struct Refusal {
    const char* words;
    const char* line;
};

void checkRefused(const Refusal& refusal) {
    const Folder folder;
    const QString card = folder.write("a.csv", kSmallCard);
    folder.write("k.csv", "srgb,card,code\n#000001,a,A-1\n");
    folder.write("bad.csv", "code,name,srgb\nB-1,Bad,#12345\n");
    const QStringList before = folder.contents();
    const auto filled = [&](const char* text) {
        return QString::fromUtf8(text)
            .replace(QStringLiteral("%1"), card)
            .replace(QStringLiteral("%2"), folder.path("."));
    };
    CAPTURE(refusal.words);
    const Answer answer = ask(filled(refusal.words));
    CHECK(answer.exitCode == 2);
    CHECK(answer.out.isEmpty());
    CHECK(answer.err.toStdString() == filled(refusal.line).toStdString() + '\n');
    CHECK(folder.contents() == before);
}

} // namespace

TEST_CASE("substitute refuses options that do not go together") {
    checkRefused(GENERATE(
        Refusal{"substitute",
                "otherskein substitute: expected either --wanted or --colour, found neither"},
        Refusal{"substitute --wanted %1:A-1 --colour #123456 --from %1",
                "otherskein substitute: expected either --wanted or --colour, found both"},
        Refusal{"substitute --wanted %1:A-1",
                "otherskein substitute: expected at least one --from CARD, found none"},
        Refusal{"substitute --wanted %1:A-1 --from %1 --chart c.png",
                "otherskein substitute: expected --key along with --chart, found --chart alone"},
        Refusal{"substitute --wanted %1:A-1 --from %1 --blend --strands 1",
                "--strands: expected 2 or more with --blend, found 1"}));
}

TEST_CASE("a bad word is refused with what was expected") {
    checkRefused(GENERATE(
        Refusal{"substitute --wanted %1:A-1 --from %1 --limit abc",
                "--limit: expected a whole number from 1 to 1000, found \"abc\""},
        Refusal{"substitute --wanted %1:A-1 --from %1 --limit 0",
                "--limit: expected a whole number from 1 to 1000, found \"0\""},
        Refusal{"substitute --wanted %1:A-1 --from %1 --limit -3",
                "--limit: expected a whole number from 1 to 1000, found \"-3\""},
        Refusal{"substitute --wanted %1:A-1 --from %1 --strands 13",
                "--strands: expected a whole number from 1 to 12, found \"13\""},
        Refusal{"substitute --wanted %1:A-1 --from %1 --weights 1:2:1",
                "--weights: expected 1:1:1 or 2:1:1, found \"1:2:1\""},
        Refusal{"substitute --wanted %1:A-1 --from %1 --finish shiny",
                "--finish: expected matt, satin, metallic or variegated, found \"shiny\""},
        Refusal{"substitute --colour blue --from %1", "--colour: expected #rrggbb, found \"blue\""},
        Refusal{"substitute --from %1 --colour",
                "--colour: expected a colour in quotes after it, such as '#445d76', found none"},
        Refusal{"substitute --colour --from %1",
                "--colour: expected a colour in quotes after it, such as '#445d76', found "
                "\"--from\""},
        Refusal{"substitute --wanted", "--wanted: expected a value after it, found none"},
        Refusal{"substitute --limit 1 --limit 2", "--limit: expected once, found it 2 times"},
        Refusal{"substitute --json=yes", "--json: expected no value after it, found one"},
        Refusal{"substitute --frob",
                "otherskein substitute: expected one of its options (otherskein substitute --help "
                "lists them), found \"--frob\""},
        Refusal{"substitute --from %1 stray",
                "otherskein substitute: expected one of its options (otherskein substitute --help "
                "lists them), found \"stray\""},
        Refusal{"--workbox", "--workbox: expected a value after it, found none"}));
}

TEST_CASE("a card or code that is not there is refused") {
    checkRefused(GENERATE(
        Refusal{"substitute --wanted %1:A-9 --from %1",
                "%1: column code: expected a code of this card, found \"A-9\" (near it: A-1, A-2, "
                "A-3)"},
        Refusal{"substitute --wanted %1:zzz --from %1",
                "%1: column code: expected a code of this card, found \"zzz\""},
        Refusal{"substitute --wanted A-1 --from %1",
                "--wanted: expected CARD:CODE, a shade card and a code on it, found \"A-1\""},
        Refusal{"substitute --wanted %1: --from %1",
                "--wanted: expected CARD:CODE, a shade card and a code on it, found \"%1:\""},
        Refusal{"substitute --wanted nowhere.csv:A-1 --from %1",
                "nowhere.csv: expected a shade card file, or the name of a card in the workbox, "
                "found neither"},
        Refusal{"substitute --wanted %1:A-1 --from %2",
                "%2: expected a shade card file, or the name of a card in the workbox, found "
                "neither"},
        Refusal{"substitute --wanted %1:A-1 --from x --workbox %2/no.sqlite",
                "%2/no.sqlite: expected a workbox, found none there"},
        Refusal{"substitute --wanted %1:A-1 --from %2/bad.csv",
                "%2/bad.csv:2: column srgb: expected #rrggbb, found \"#12345\""},
        Refusal{"substitute --wanted %1:A-1 --from %1 --key %2/no.csv",
                "%2/no.csv: expected a file, found none there"},
        Refusal{"substitute --wanted %1:A-1 --from %1 --key %2/k.csv --chart %2/no.png",
                "%2/no.png: expected a file, found none there"},
        Refusal{"substitute --wanted %1:A-1 --from %1 --key %2/k.csv --chart %1",
                "%1: expected a chart picture (PNG), found another kind of file"}));
}

TEST_CASE("ground refuses fabric that there is not") {
    checkRefused(GENERATE(
        Refusal{"ground --from %1", "otherskein ground: expected --ground with the fabric's "
                                    "colour, such as --ground '#232c40', found none"},
        Refusal{"ground --ground #232c40",
                "otherskein ground: expected --from CARD or --key KEY, found neither"},
        Refusal{
            "ground --from %1 --ground navy",
            "--ground: expected #rrggbb or the name of a ground in the workbox, found \"navy\""},
        Refusal{"ground --from %1 --ground",
                "--ground: expected a colour in quotes after it, such as '#445d76', found none"},
        Refusal{"ground --from %1 --ground #232c40 --count 0",
                "--count: expected a whole number from 5 to 80, found \"0\""},
        Refusal{"ground --from %1 --ground #232c40 --count -14",
                "--count: expected a whole number from 5 to 80, found \"-14\""},
        Refusal{"ground --from %1 --ground #232c40 --count 14.5",
                "--count: expected a whole number from 5 to 80, found \"14.5\""},
        Refusal{"ground --from %1 --ground #232c40 --over 3",
                "--over: expected a whole number from 1 to 2, found \"3\""},
        Refusal{"ground --from %1 --ground #232c40 --strands 0",
                "--strands: expected a whole number from 1 to 12, found \"0\""},
        Refusal{"ground --from %1 --ground #232c40 --chart c.png",
                "otherskein ground: expected --key along with --chart, found --chart alone"}));
}

TEST_CASE("the workbox commands refuse what they cannot do") {
    checkRefused(GENERATE(
        Refusal{"workbox",
                "otherskein workbox: expected import, export, list or check, found nothing"},
        Refusal{"workbox mend",
                "otherskein workbox: expected import, export, list or check, found \"mend\""},
        Refusal{"workbox import",
                "otherskein workbox import: expected at least one shade card file, found none"},
        Refusal{"workbox import %1 %2/no.csv", "%2/no.csv: expected a file, found none there"},
        Refusal{"workbox import %1 %2/bad.csv",
                "%2/bad.csv:2: column srgb: expected #rrggbb, found \"#12345\""},
        Refusal{"workbox import %1 --frob",
                "otherskein workbox import: expected one of its options (otherskein workbox import "
                "--help lists them), found \"--frob\""},
        Refusal{"workbox export --out x.csv",
                "otherskein workbox export: expected one CARD, found none"},
        Refusal{"workbox export a", "otherskein workbox export: expected --out FILE, found none"},
        Refusal{"workbox list --workbox %2/no.sqlite",
                "%2/no.sqlite: expected a workbox (\"otherskein workbox import\" makes one), found "
                "none there"},
        Refusal{"workbox check --workbox %1",
                "%1: expected an Otherskein workbox, found a file of another kind"}));
}

TEST_CASE("recolour refuses what it cannot do") {
    checkRefused(GENERATE(
        Refusal{"recolour --from %1 --json",
                "otherskein recolour: expected --chart with the chart's picture, found none"},
        Refusal{"recolour --chart c.png --json",
                "otherskein recolour: expected at least one --from CARD, found none"},
        Refusal{"recolour --chart c.png --from %1",
                "otherskein recolour: expected --out and --out-key, or --json, found none"},
        Refusal{"recolour --chart c.png --from %1 --out o.png",
                "otherskein recolour: expected --out and --out-key together, found one of them"},
        Refusal{"recolour --chart c.png --from %1 --json --hue 361",
                "--hue: expected a number from 0 to 360, found \"361\""},
        Refusal{"recolour --chart c.png --from %1 --json --hue 30 --like p.png",
                "otherskein recolour: expected either --hue or --like, found both"},
        Refusal{"recolour --chart c.png --from %1 --json --neutrals",
                "otherskein recolour: expected --hue along with --neutrals, found --neutrals "
                "alone"},
        Refusal{"recolour --chart c.png --from %1 --json --colours 0",
                "--colours: expected a whole number from 1 to 300, found \"0\""},
        Refusal{"recolour --chart c.png --from %1 --json --seed -1",
                "--seed: expected a whole number from 1 to 1000000000, found \"-1\""},
        Refusal{"recolour --chart %2/no.png --from %1 --json",
                "%2/no.png: expected a file, found none there"},
        Refusal{"recolour --chart %1 --from %1 --json",
                "%1: expected a chart picture (PNG), found another kind of file"},
        Refusal{"convert --from %1 --out-key k.csv",
                "otherskein convert: expected --chart with the chart's picture, found none"},
        Refusal{"convert --chart c.png --from %1",
                "otherskein convert: expected --out-key with the new key's file, found none"}));
}
