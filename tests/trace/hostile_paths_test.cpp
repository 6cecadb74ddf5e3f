// PDFs made to harm whoever reads their paths: the answer comes soon, in little memory, and may be
// that there are none.
#include "trace/detail/pdf_paths.h"
#include "written_pdf.h"

#include <QFile>

#include <cmath>
#include <ctime>

using namespace otherskein::trace::detail;

namespace {

/// Megabytes of memory that this program had at most, or has now; 0 where the system does not say.
int megabytes(const QByteArray& which) {
    QFile file(QStringLiteral("/proc/self/status"));
    if (file.open(QIODevice::ReadOnly)) {
        for (const QByteArray& line : file.readAll().split('\n')) {
            if (line.startsWith(which)) {
                return line.mid(which.size()).simplified().split(' ')[0].toInt() / 1024;
            }
        }
    }
    return 0;
}

void forgetMost() {
    QFile file(QStringLiteral("/proc/self/clear_refs"));
    if (file.open(QIODevice::WriteOnly)) {
        file.write("5");
    }
}

/// Reads the paths, takes the first one out, and looks at the clock and the memory.
std::optional<PagePaths> readSoon(const QByteArray& pdf) {
    forgetMost();
    const int before = megabytes("VmRSS:");
    // The program's own time: others may be busy.
    const std::clock_t begin = std::clock();
    const auto secondsSince = [](std::clock_t then) {
        return static_cast<double>(std::clock() - then) / CLOCKS_PER_SEC;
    };
    const auto paths = pathsOf(pdf, 1);
    CHECK(secondsSince(begin) < 2);
    if (paths && !paths->paths.empty()) {
        static_cast<void>(withoutPaths(pdf, 1, {{paths->paths[0].place}, {}, {}}));
        CHECK(secondsSince(begin) < 6); // it reads them again
    }
    CHECK(megabytes("VmHWM:") - before < 300);
    return paths;
}

constexpr auto kDeflated = WrittenPdf::Packing::Deflated;
constexpr qsizetype kMega = 1'000'000;

QByteArray many(const QByteArray& one, qsizetype bytes) {
    return one.repeated(bytes / one.size());
}

QByteArray named(const char* name, int number) {
    return "<< /XObject << /" + QByteArray(name) + ' ' + QByteArray::number(number) + " 0 R >> >>";
}

const QByteArray kLine = "1 1 m 9 9 l S ";

} // namespace

TEST_CASE("content that swells is given up before it costs memory") {
    CHECK_FALSE(readSoon(WrittenPdf(QByteArray(200 * kMega, ' '), kDeflated).bytes()));
}

TEST_CASE("one swelling stream that is named a thousand times is read once") {
    WrittenPdf pdf(QByteArray(40 * kMega, ' '), kDeflated);
    pdf.contents = "[" + QByteArray("4 0 R ").repeated(1000) + "]";
    CHECK_FALSE(readSoon(pdf.bytes()));
}

TEST_CASE("swelling forms are given up with the first") {
    WrittenPdf pdf("/F0 Do");
    QByteArray names;
    QByteArray draws;
    const QByteArray swelling =
        WrittenPdf::stream("/Subtype /Form", QByteArray(40 * kMega, '\n'), kDeflated);
    for (int i = 0; i < 60; ++i) {
        const QByteArray name = "/F" + QByteArray::number(i);
        names += name + ' ' + QByteArray::number(pdf.add(swelling)) + " 0 R ";
        draws += name + " Do ";
    }
    pdf.resources = "<< /XObject << " + names + ">> >>";
    pdf.put(4, WrittenPdf::stream({}, draws));
    CHECK_FALSE(readSoon(pdf.bytes()));
}

TEST_CASE("as much content as may be read is read soon") {
    const QByteArray one =
        GENERATE(QByteArray("0 0 m "), QByteArray("0 0 m 1 1 l S "), QByteArray("/X Do "),
                 QByteArray("q "), QByteArray("1 "), QByteArray("( "), QByteArray("BI ID "));
    CAPTURE(one);
    static_cast<void>(readSoon(WrittenPdf(many(one, 32 * kMega), kDeflated).bytes()));
}

TEST_CASE("long words before a path do not fill memory") {
    const QByteArray name = "/" + QByteArray(kMega, 'n');
    const QByteArray before =
        GENERATE_COPY(name + " gs ", name + " CS ", '[' + many("1 2 ", kMega) + "] 0 d ",
                      '[' + (QByteArray(10'000, '1') + ' ').repeated(60) + "] 0 d ");
    static_cast<void>(readSoon(WrittenPdf(before + many(kLine, 5 * kMega), kDeflated).bytes()));
    static_cast<void>(
        readSoon(WrittenPdf(before + many("q ", kMega) + many(kLine, kMega), kDeflated).bytes()));
}

TEST_CASE("forms that draw themselves, or each other, end") {
    WrittenPdf pdf("/A Do " + kLine);
    const int one = pdf.addForm({});
    const int other = pdf.addForm({});
    pdf.resources = named("A", one);
    SECTION("itself") {
        pdf.put(one, WrittenPdf::stream("/Subtype /Form /Resources " + named("A", one),
                                        kLine + "/A Do /A Do /A Do"));
    }
    SECTION("each other") {
        pdf.put(one, WrittenPdf::stream("/Subtype /Form /Resources " + named("B", other),
                                        kLine + "/B Do /B Do /B Do"));
        pdf.put(other, WrittenPdf::stream("/Subtype /Form /Resources " + named("A", one),
                                          kLine + "/A Do /A Do"));
    }
    const auto paths = readSoon(pdf.bytes());
    REQUIRE(paths);
    CHECK(paths->paths.size() > 1);
}

TEST_CASE("forms that each draw the next fifty times are given up") {
    const QByteArray what = GENERATE_COPY(QByteArray(), kLine, QByteArray(100'000, ' '));
    WrittenPdf pdf("/A Do");
    int next = pdf.addForm(what);
    for (int i = 0; i < 7; ++i) {
        next = pdf.addForm(what + QByteArray("/A Do ").repeated(50),
                           "/Resources " + named("A", next), kDeflated);
    }
    pdf.resources = named("A", next);
    CHECK_FALSE(readSoon(pdf.bytes()));
}

TEST_CASE("states that never come back are harmless") {
    const auto paths = readSoon(WrittenPdf(many("q ", 200'000) + kLine).bytes());
    REQUIRE(paths);
    CHECK(paths->paths.size() == 1);
    CHECK(readSoon(WrittenPdf(many("Q ", 200'000) + kLine).bytes())->paths.size() == 1);
}

TEST_CASE("a stream that is cut short or is no stream is harmless") {
    const QByteArray content = many(kLine, 100'000);
    const QByteArray packed = qCompress(content).mid(4);
    const auto stream = [](const QByteArray& bytes) {
        return "<< /Filter /FlateDecode /Length " + QByteArray::number(bytes.size()) +
               " >>\nstream\n" + bytes + "\nendstream";
    };
    WrittenPdf pdf(kLine);
    for (const QByteArray& object :
         {stream(packed.left(packed.size() / 2)), stream(packed.left(1)), stream({}),
          stream("not packed"), QByteArray("<< /Length 99999999 >>\nstream\n1 1 m\nendstream"),
          QByteArray("<< /Length -1 >>\nstream\n1 1 m\nendstream"), QByteArray("null"),
          QByteArray("4 0 R"), QByteArray("<< /Filter /NoSuch /Length 2 >>\nstream\nS\nendstream"),
          QByteArray("<< /Filter [/FlateDecode /FlateDecode /LZWDecode /RunLengthDecode] /Length 2 "
                     ">>\nstream\nS\nendstream")}) {
        CAPTURE(object.left(60));
        pdf.put(4, object);
        static_cast<void>(readSoon(pdf.bytes()));
    }
    const QByteArray whole = WrittenPdf(content, kDeflated).bytes();
    for (int part = 1; part < 12; ++part) {
        static_cast<void>(readSoon(whole.left(whole.size() * part / 12)));
    }
}

TEST_CASE("operands that make no sense are harmless") {
    const QByteArray digits(400, '9');
    for (const QByteArray& value :
         {QByteArray("nan"), QByteArray("inf"), QByteArray("1e308"), digits, "-" + digits,
          digits + "." + digits, QByteArray(300, '9'), QByteArray("--5"), QByteArray("1.2.3"),
          QByteArray("/Name"), QByteArray("(text)"), QByteArray("<<"), QByteArray(">>"),
          QByteArray("]"), QByteArray("true"), QByteArray()}) {
        CAPTURE(value);
        const QByteArray v = value + ' ';
        const auto paths = readSoon(
            WrittenPdf(v + "w " + v + v + v + v + v + v + "cm " + v + v + v + v + v + v + "cm " +
                       v + v + v + "RG " + v + v + v + v + "re B " + v + v + "m " + v + v + "l " +
                       v + v + v + v + v + v + "c S " + v + "G " + v + "d " + v + "gs " + v +
                       "Do " + v + v + v + v + "re f l c S h h h S m S l l l S")
                .bytes());
        REQUIRE(paths);
        for (const PaintedPath& path : paths->paths) {
            for (const PathLine& line : path.lines) {
                CAPTURE(line.from, line.to, line.width);
                CHECK(std::isfinite(line.from.x + line.from.y + line.to.x + line.to.y));
                CHECK(std::isfinite(line.width));
            }
        }
    }
}

TEST_CASE("boxes that make no sense are harmless") {
    for (const char* const box :
         {"", "/MediaBox [0 0 0 0]", "/MediaBox [100 100 0 0]", "/MediaBox [0 0 100]",
          "/MediaBox null", "/MediaBox [/A (b) 1 2]", "/MediaBox 3 0 R",
          "/MediaBox [0 0 99999999999999999999 99999999999999999999]",
          "/MediaBox [0 0 100 100] /CropBox [200 200 300 300]",
          "/MediaBox [0 0 100 100] /CropBox [0 0 0 0]", "/MediaBox [0 0 9 9] /Rotate 45",
          "/MediaBox [0 0 9 9] /Rotate -2147483648", "/MediaBox [0 0 9 9] /Rotate 99999999999999",
          "/MediaBox [0 0 9 9] /Rotate /Left"}) {
        CAPTURE(box);
        WrittenPdf pdf(kLine);
        pdf.boxes = box;
        if (const auto paths = readSoon(pdf.bytes())) {
            CHECK(paths->size.width > 0);
            CHECK(paths->size.height > 0);
        }
    }
}

TEST_CASE("pages and contents that lead in a circle are harmless") {
    WrittenPdf pdf(kLine);
    const int array = pdf.add("null");
    pdf.put(array, "[" + QByteArray::number(array) + " 0 R null 4 0 R 77 0 R [4 0 R] (S) ]");
    pdf.contents = QByteArray::number(array) + " 0 R";
    const auto paths = readSoon(pdf.bytes());
    REQUIRE(paths);
    CHECK(paths->paths.size() == 1);
    for (const char* const tree :
         {"<< /Type /Pages /Kids [2 0 R] /Count 1 >>",
          "<< /Type /Pages /Kids [2 0 R 3 0 R] /Count 2 >>",
          "<< /Type /Pages /Parent 2 0 R /Kids [3 0 R 3 0 R 3 0 R] /Count 3 >>",
          "<< /Type /Pages /Kids 2 0 R /Count -1 >>", "<< /Type /Pages /Count 1 >>", "2 0 R",
          "null", "[2 0 R]"}) {
        CAPTURE(tree);
        WrittenPdf looped(kLine);
        looped.put(2, tree);
        static_cast<void>(readSoon(looped.bytes()));
    }
    for (const char* const resources :
         {"null", "4 0 R", "<< /XObject 3 0 R >>", "<< /XObject << /A 3 0 R >> >>",
          "<< /XObject << /A 4 0 R >> >>", "<< /XObject [4 0 R] >>"}) {
        CAPTURE(resources);
        WrittenPdf drawn("/A Do " + kLine);
        drawn.resources = resources;
        const auto found = readSoon(drawn.bytes());
        REQUIRE(found);
        CHECK(found->paths.size() == 1);
    }
}

TEST_CASE("arrays nested without end are harmless") {
    WrittenPdf pdf(many("[", 300'000) + kLine);
    static_cast<void>(readSoon(pdf.bytes()));
    pdf.resources = many("[", 300'000);
    static_cast<void>(readSoon(pdf.bytes()));
    pdf.resources = many("<< /A ", 300'000);
    static_cast<void>(readSoon(pdf.bytes()));
}
