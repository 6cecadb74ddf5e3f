// Paths that a page paints, from PDFs that are written here; Qt's own drawing of them is asked too.
#include "trace/detail/pdf_paths.h"
#include "written_pdf.h"

using namespace otherskein::trace::detail;

namespace {

PagePaths pathsIn(const WrittenPdf& pdf) {
    const auto paths = pathsOf(pdf.bytes(), 1);
    REQUIRE(paths);
    return *paths;
}

PagePaths painted(const QByteArray& content) {
    return pathsIn(WrittenPdf(content));
}

struct PathEnds {
    double x1 = 0;
    double y1 = 0;
    double x2 = 0;
    double y2 = 0;
};

/// `ends` in the page's own space, 150 high.
bool isAt(const PathLine& line, const PathEnds& ends) {
    const auto isSame = [](const cv::Point2d& one, double x, double y) {
        return cv::norm(one - cv::Point2d(x, 150 - y)) < 1e-9;
    };
    return (isSame(line.from, ends.x1, ends.y1) && isSame(line.to, ends.x2, ends.y2)) ||
           (isSame(line.from, ends.x2, ends.y2) && isSame(line.to, ends.x1, ends.y1));
}

int darkest(const QImage& page, const cv::Point2d& at, double scale = 4) {
    int least = 255;
    for (int dy = -1; dy <= 1; ++dy) {
        for (int dx = -1; dx <= 1; ++dx) {
            const QPoint point(static_cast<int>(at.x * scale) + dx,
                               static_cast<int>(at.y * scale) + dy);
            if (page.rect().contains(point)) {
                least = std::min(least, qGray(page.pixel(point)));
            }
        }
    }
    return least;
}

/// Whether ink is all along a line where Qt draws the page, and none beyond its ends.
bool isDrawn(const QImage& page, const PathLine& line) {
    const cv::Point2d step = line.to - line.from;
    bool isInked = true;
    for (const double share : {0.02, 0.3, 0.5, 0.7, 0.98}) {
        isInked &= darkest(page, line.from + share * step) < 90;
    }
    const cv::Point2d beyond = step * (3 / cv::norm(step));
    return isInked && darkest(page, line.from - beyond) > 200 &&
           darkest(page, line.to + beyond) > 200;
}

} // namespace

TEST_CASE("a line is read where it is painted") {
    const PagePaths page = painted("2 w 10 20 m 60 20 l 60 70 l S");
    CHECK(page.size.width == 200);
    CHECK(page.size.height == 150);
    REQUIRE(page.paths.size() == 1);
    REQUIRE(page.paths[0].lines.size() == 2);
    CHECK(isAt(page.paths[0].lines[0], {10, 20, 60, 20}));
    CHECK(isAt(page.paths[0].lines[1], {60, 20, 60, 70}));
    CHECK(page.paths[0].lines[0].width == Approx(2));
    CHECK_FALSE(page.paths[0].isClosed);
    CHECK_FALSE(page.paths[0].isFilled);
    CHECK(page.paths[0].colour == cv::Vec3b(0, 0, 0));
}

TEST_CASE("numbers are read in each way that a PDF may write them") {
    const PagePaths page = painted("10. +20 m .5 5.25 l -3 -.5 l 007 1.0 l S");
    REQUIRE(page.paths.size() == 1);
    REQUIRE(page.paths[0].lines.size() == 3);
    CHECK(isAt(page.paths[0].lines[0], {10, 20, 0.5, 5.25}));
    CHECK(isAt(page.paths[0].lines[1], {0.5, 5.25, -3, -0.5}));
    CHECK(isAt(page.paths[0].lines[2], {-3, -0.5, 7, 1}));
}

TEST_CASE("places and widths follow the maps, and come back") {
    const PagePaths page = painted("1 w q 2 0 0 2 10 0 cm q 0 1 -1 0 0 0 cm 3 w\n"
                                   "0 0 m 20 0 l S Q 5 5 m 15 5 l S Q 5 5 m 15 5 l S");
    REQUIRE(page.paths.size() == 3);
    CHECK(isAt(page.paths[0].lines[0], {10, 0, 10, 40}));
    CHECK(page.paths[0].lines[0].width == Approx(6));
    CHECK(isAt(page.paths[1].lines[0], {20, 10, 40, 10}));
    CHECK(page.paths[1].lines[0].width == Approx(2));
    CHECK(isAt(page.paths[2].lines[0], {5, 5, 15, 5}));
    CHECK(page.paths[2].lines[0].width == Approx(1));
}

TEST_CASE("states that are saved far too deep still come back in order") {
    const QByteArray deep = QByteArray("q ").repeated(1000) + "1 0 0 1 50 0 cm " +
                            QByteArray("Q ").repeated(1000) + "5 5 m 15 5 l S";
    const PagePaths page = painted("1 0 0 1 10 0 cm q 1 0 0 1 10 0 cm " + deep);
    REQUIRE(page.paths.size() == 1);
    CHECK(isAt(page.paths[0].lines[0], {25, 5, 35, 5}));
}

TEST_CASE("a rectangle and a way that goes back are closed") {
    const PagePaths page = painted("10 20 30 40 re S 0 0 m 10 0 l 10 10 l h S\n"
                                   "0 0 m 10 0 l 10 10 l s 0 0 m 10 0 l 10 10 l S\n"
                                   "10 20 30 40 re B 0 0 m 10 0 l h 20 20 l S");
    REQUIRE(page.paths.size() == 6);
    CHECK(page.paths[0].lines.size() == 4);
    CHECK(isAt(page.paths[0].lines[2], {10, 60, 40, 60}));
    CHECK(page.paths[0].isClosed);
    CHECK(page.paths[1].lines.size() == 3);
    CHECK(isAt(page.paths[1].lines[2], {10, 10, 0, 0}));
    CHECK(page.paths[1].isClosed);
    CHECK(page.paths[2].lines.size() == 3);
    CHECK(page.paths[2].isClosed);
    CHECK(page.paths[3].lines.size() == 2);
    CHECK_FALSE(page.paths[3].isClosed);
    CHECK(page.paths[4].isFilled);
    CHECK_FALSE(page.paths[0].isFilled);
    REQUIRE(page.paths[5].lines.size() == 2);
    CHECK(isAt(page.paths[5].lines[1], {0, 0, 20, 20}));
}

TEST_CASE("paths look equal where they are painted equally") {
    const QByteArray line = " 0 0 m 10 0 l S ";
    const PagePaths page =
        painted("1 0 0 RG 2 w" + line + line + "q 2 0 0 2 0 0 cm 1 w" + line + "Q" + "0 1 0 RG" +
                line + "1 0 0 RG [2 1] 0 d" + line + "[] 0 d 3 w" + line + "2 w /Pale gs" + line +
                "0 1 1 0 K" + line);
    REQUIRE(page.paths.size() == 8);
    const auto isLike = [&](std::size_t one, std::size_t other) {
        return page.paths[one].look == page.paths[other].look;
    };
    CHECK(isLike(0, 1));
    CHECK(isLike(0, 2)); // a pen half as wide, twice as large
    for (std::size_t i = 3; i < page.paths.size(); ++i) {
        for (std::size_t k = 0; k < i; ++k) {
            CAPTURE(i, k);
            CHECK((k < 3 && i < 3) == isLike(i, k));
        }
    }
    CHECK(page.paths[0].colour == cv::Vec3b(0, 0, 255));
    CHECK(page.paths[3].colour == cv::Vec3b(0, 255, 0));
    CHECK_FALSE(page.paths[7].colour);
    const PagePaths solid = painted("0 G" + line + "[2 1] 0 d [] 0 d" + line + "0  G" + line);
    CHECK(solid.paths[0].look == solid.paths[1].look);
    CHECK(solid.paths[0].look == solid.paths[2].look);
}

TEST_CASE("a narrow area that is filled is a line, a broad one is none") {
    const PagePaths page = painted("0 0 1 rg 10 20 50 2 re f 10 20 30 20 re f\n"
                                   "20 21 m 40 41 l 41 40 l 21 20 l f\n"
                                   "0 0 m 10 0 l 10 3 l f 10 60 50 9 re f");
    REQUIRE(page.paths.size() == 2);
    REQUIRE(page.paths[0].lines.size() == 1);
    CHECK(isAt(page.paths[0].lines[0], {10, 21, 60, 21}));
    CHECK(page.paths[0].lines[0].width == Approx(2));
    CHECK(page.paths[0].colour == cv::Vec3b(255, 0, 0));
    CHECK(page.paths[0].place == PathPlace{0, 0});
    CHECK(isAt(page.paths[1].lines[0], {20.5, 20.5, 40.5, 40.5}));
    CHECK(page.paths[1].lines[0].width == Approx(std::sqrt(2.0)));
    CHECK(page.paths[1].place == PathPlace{0, 2});
}

TEST_CASE("curves are no lines, but a circle is round") {
    const QByteArray circle = "20 10 m 20 15.5 15.5 20 10 20 c 4.5 20 0 15.5 0 10 c "
                              "0 4.5 4.5 0 10 0 c 15.5 0 20 4.5 20 10 c h ";
    const PagePaths page = painted(circle + "f q 2 0 0 1 0 0 cm " + circle +
                                   "f Q 0 0 m 5 5 10 5 20 0 c S 1 1 m 9 9 l S");
    REQUIRE(page.paths.size() == 2);
    REQUIRE(page.paths[0].round);
    CHECK(page.paths[0].round->width == Approx(20));
    CHECK(page.paths[0].round->x == Approx(0));
    CHECK(page.paths[0].round->y == Approx(130));
    CHECK(page.paths[0].lines.empty());
    CHECK(page.paths[1].place == PathPlace{0, 3});
    CHECK_FALSE(page.paths[1].round);
}

TEST_CASE("a form is read wherever it is drawn, in its own map and with its own forms") {
    WrittenPdf pdf("1 0 0 RG /Leaf Do q 1 0 0 1 100 0 cm /Leaf Do Q 0 0 m 5 0 l S");
    const int inner = pdf.addForm("0 0 m 0 30 l S");
    const int outer =
        pdf.addForm("0 0 m 10 0 l S /Vein Do", "/Matrix [2 0 0 2 20 10] /Resources "
                                               "<< /XObject << /Vein " +
                                                   QByteArray::number(inner) + " 0 R >> >>");
    pdf.resources = "<< /XObject << /Leaf " + QByteArray::number(outer) + " 0 R >> >>";
    const PagePaths page = pathsIn(pdf);
    REQUIRE(page.paths.size() == 5);
    CHECK(isAt(page.paths[0].lines[0], {20, 10, 40, 10}));
    CHECK(isAt(page.paths[1].lines[0], {20, 10, 20, 70}));
    CHECK(isAt(page.paths[2].lines[0], {120, 10, 140, 10}));
    CHECK(isAt(page.paths[3].lines[0], {120, 10, 120, 70}));
    CHECK(isAt(page.paths[4].lines[0], {0, 0, 5, 0}));
    CHECK(page.paths[0].place == page.paths[2].place);
    CHECK(page.paths[1].place == page.paths[3].place);
    CHECK(page.paths[0].place != page.paths[1].place);
    CHECK(page.paths[0].colour == cv::Vec3b(0, 0, 255)); // as the page's ink was
    CHECK(page.paths[0].lines[0].width == Approx(2));
}

TEST_CASE("what is no painting does not count as one") {
    const PagePaths page =
        painted("BT (S f B) Tj ET 0 0 10 10 re W n\n% 1 1 m 2 2 l S\n"
                "BI /W 4 /H 1 /BPC 8 /CS /G ID \nS f\n EI\n/Name BMC 0 0 m 9 0 l S EMC");
    REQUIRE(page.paths.size() == 1);
    CHECK(page.paths[0].place == PathPlace{0, 0});
}

TEST_CASE("content in several streams is one, and packed or not is the same") {
    WrittenPdf pdf("1 0 0 1 10 0 cm 0 0 m", WrittenPdf::Packing::Deflated);
    const int second = pdf.add(WrittenPdf::stream({}, "20 20 l S"));
    pdf.contents = "[4 0 R null " + QByteArray::number(second) + " 0 R]";
    const PagePaths page = pathsIn(pdf);
    REQUIRE(page.paths.size() == 1);
    CHECK(isAt(page.paths[0].lines[0], {10, 0, 30, 20}));
}

TEST_CASE("lines lie where Qt draws them, however the page is turned and cut") {
    const char* const turn =
        GENERATE("", "/Rotate 90", "/Rotate 180", "/Rotate 270", "/Rotate -90", "/Rotate 450");
    const char* const box = GENERATE(
        "/MediaBox [0 0 200 150]", "/MediaBox [-40 30 160 180]", "/MediaBox [200 150 0 0]",
        "/MediaBox [0 0 200 150] /CropBox [15 10 190 100]",
        "/MediaBox [0 0 200 150] /CropBox [15 10 900 100]",
        "/MediaBox [0 0 200 150] /CropBox [190 100 15 10]",
        "/MediaBox [0 0 200 150] /CropBox [0 0 0 0]", "/MediaBox [0 0 200 150] /UserUnit 2", "");
    CAPTURE(turn, box);
    WrittenPdf pdf("1.5 w 30 50 m 110 50 l S 30 60 m 60 90 l S 1 0 0 1 -10 0 cm 3 w "
                   "120 40 m 120 90 l S 40 80 10 1.5 re f");
    pdf.boxes = QByteArray(box) + ' ' + turn;
    const QImage drawn = drawnByQt(pdf.bytes());
    const PagePaths page = pathsIn(pdf);
    CHECK(drawn.width() == Approx(4 * page.size.width).margin(4));
    CHECK(drawn.height() == Approx(4 * page.size.height).margin(4));
    REQUIRE(page.paths.size() == 4);
    for (const PaintedPath& path : page.paths) {
        for (const PathLine& line : path.lines) {
            CAPTURE(line.from, line.to);
            CHECK(isDrawn(drawn, line));
        }
    }
}

namespace {

/// Three lines, of which the second shall go.
const QByteArray kThree = "2 w 20 20 m 100 20 l S 20 50 m 100 50 l S 20 80 m 100 80 l S ";

void checkMiddleIsGone(const QByteArray& pdf) {
    const auto paths = pathsOf(pdf, 1);
    REQUIRE(paths);
    REQUIRE(paths->paths.size() == 3);
    const QImage before = drawnByQt(pdf);
    const QByteArray rest = withoutPaths(pdf, 1, {{paths->paths[1].place}, {}, {}});
    REQUIRE_FALSE(rest.isEmpty());
    const QImage after = drawnByQt(rest);
    REQUIRE(after.size() == before.size());
    for (std::size_t i = 0; i < 3; ++i) {
        CAPTURE(i);
        CHECK(isDrawn(before, paths->paths[i].lines[0]));
        CHECK(isDrawn(after, paths->paths[i].lines[0]) == (i != 1));
    }
    const PathLine& gone = paths->paths[1].lines[0];
    CHECK(darkest(after, (gone.from + gone.to) / 2) == 255);
}

} // namespace

TEST_CASE("a path that is taken out is not drawn, and the others are") {
    SECTION("plain") {
        checkMiddleIsGone(WrittenPdf(kThree).bytes());
    }
    SECTION("deflated") {
        checkMiddleIsGone(WrittenPdf(kThree, WrittenPdf::Packing::Deflated).bytes());
    }
    SECTION("objects in streams") {
        checkMiddleIsGone(WrittenPdf(kThree).bytesInStreams());
    }
    SECTION("no table of objects") {
        QByteArray pdf = WrittenPdf(kThree).bytes();
        pdf.replace("startxref", "startxxxx");
        checkMiddleIsGone(pdf);
    }
    SECTION("in a form, deflated") {
        WrittenPdf pdf("/Leaf Do");
        const int form =
            pdf.addForm(kThree, "/Matrix [1 0 0 1 30 20]", WrittenPdf::Packing::Deflated);
        pdf.resources = "<< /XObject << /Leaf " + QByteArray::number(form) + " 0 R >> >>";
        checkMiddleIsGone(pdf.bytes());
        checkMiddleIsGone(pdf.bytesInStreams());
    }
    SECTION("content in parts") {
        WrittenPdf pdf("2 w 20 20 m 100 20 l S 20 50 m 100");
        const int second = pdf.add(WrittenPdf::stream({}, "50 l S 20 80 m 100 80 l S"));
        pdf.contents = "[4 0 R " + QByteArray::number(second) + " 0 R]";
        checkMiddleIsGone(pdf.bytes());
    }
}

TEST_CASE("a path that clips still clips when it is taken out") {
    const QByteArray pdf =
        WrittenPdf("2 w 20 20 60 60 re W S 0 0 1 rg 20 50 m 180 50 l 180 60 l 20 60 l f").bytes();
    const auto paths = pathsOf(pdf, 1);
    REQUIRE(paths);
    REQUIRE(paths->paths.size() == 1); // the other is a broad area
    const QImage after = drawnByQt(withoutPaths(pdf, 1, {{paths->paths[0].place}, {}, {}}));
    CHECK(darkest(after, {50, 150 - 55}) < 90);
    CHECK(darkest(after, {120, 150 - 55}) > 200);
    CHECK(darkest(after, {20, 150 - 30}) > 200);
}

TEST_CASE("words, strings and pictures inside the content outlive what is taken out") {
    const QByteArray content =
        "q 40 0 0 10 20 100 cm BI /W 4 /H 1 /BPC 8 /CS /G ID \1S \xff EI Q\n"
        "BT /F1 20 Tf 120 100 Td (S \\) f) Tj <2E2E> Tj ET 20 50 m 100 50 l S";
    WrittenPdf pdf(content);
    pdf.resources = "<< /Font << /F1 << /Type /Font /Subtype /Type1 /BaseFont /Helvetica >> >> >>";
    const auto paths = pathsOf(pdf.bytes(), 1);
    REQUIRE(paths);
    REQUIRE(paths->paths.size() == 1);
    const QImage before = drawnByQt(pdf.bytes());
    const QImage after = drawnByQt(withoutPaths(pdf.bytes(), 1, {{paths->paths[0].place}, {}, {}}));
    CHECK(before.copy(0, 0, before.width(), 300) == after.copy(0, 0, after.width(), 300));
    CHECK(darkest(before, {25, 45}) < 90); // the picture's first quarter
    CHECK(before != after);
}

TEST_CASE("a page that is not there has no paths") {
    const QByteArray pdf = WrittenPdf(kThree).bytes();
    CHECK_FALSE(pathsOf(pdf, 0));
    CHECK_FALSE(pathsOf(pdf, 2));
    CHECK_FALSE(pathsOf("not a PDF", 1));
    CHECK_FALSE(pathsOf({}, 1));
    CHECK(withoutPaths(pdf, 2, {{{0, 0}}, {}, {}}).isEmpty());
    CHECK(withoutPaths({}, 1, {{{0, 0}}, {}, {}}).isEmpty());
}

TEST_CASE("text is read where it begins, and goes without moving the rest") {
    WrittenPdf pdf(
        "BT /F1 20 Tf 2 Tr 20 100 Td (1\\062) Tj 0 -40 TD [(I) 10 <49 4>] TJ T* (I) ' ET\n"
        "BT 0 Tr 1 0 0 1 120 60 Tm (II) Tj (I) Tj ET 20 10 m 100 10 l S");
    pdf.resources = "<< /Font << /F1 << /Type /Font /Subtype /Type1 /BaseFont /Helvetica >> >> >>";
    const PagePaths page = pathsIn(pdf);
    REQUIRE(page.texts.size() == 5);
    CHECK(page.texts[0].origin == cv::Point2d(20, 50));
    CHECK(page.texts[0].bytes == 2);
    CHECK(page.texts[1].origin == cv::Point2d(20, 90));
    CHECK(page.texts[1].bytes == 3);
    CHECK(page.texts[2].origin == cv::Point2d(20, 170));
    CHECK(page.texts[3].origin == page.texts[4].origin);
    const QImage before = drawnByQt(pdf.bytes());
    const QImage after = drawnByQt(withoutPaths(pdf.bytes(), 1, {{}, {}, {page.texts[3].place}}));
    REQUIRE(after.size() == before.size());
    const auto ink = [](const QImage& image, const QRect& where) {
        int count = 0;
        for (int y = where.top(); y <= where.bottom(); ++y) {
            for (int x = where.left(); x <= where.right(); ++x) {
                count += qGray(image.pixel(x, y)) < 128 ? 1 : 0;
            }
        }
        return count;
    };
    const QRect gone(480, 280, 44, 90); // the first two of three
    CHECK(ink(before, gone) > 100);
    CHECK(ink(after, gone) == 0);
    const QRect stays(525, 280, 60, 90);
    CHECK(ink(before, stays) > 50);
    CHECK(before.copy(stays) == after.copy(stays));
    CHECK(before.copy(0, 0, 470, before.height()) == after.copy(0, 0, 470, after.height()));
}
