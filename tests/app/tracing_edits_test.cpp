// How a tracing comes into the workbox, and what the key makes of its codes.

#include "app/tracing_fixture.h"

#include "app/tracing/page_picture.h"

#include <catch2/catch.hpp>

#include <QLabel>

using namespace otherskein;
using tests::OpenTraced;

TEST_CASE("a code that one card has is worked with its thread, one that two cards have is not") {
    OpenTraced open;
    thread::ShadeCard other{QStringLiteral("pier"), {}, {}};
    other.threads = {
        thread::threadOfSrgb(QStringLiteral("Q-8"), QStringLiteral("Foam"), {0xee, 0xee, 0xee})};
    open.document.addCard(other);
    chart::Chart traced = open.chart();
    traced.key[2].code = QStringLiteral("nobody's");
    const chart::Chart after = app::withThreadsOfCodes(traced, open.session);
    CHECK(after.key[0].card == QStringLiteral("quay"));
    CHECK(after.key[0].name == QStringLiteral("Rust"));
    CHECK(after.key[0].pixel == colour::Srgb8{0xa0, 0x40, 0x20});
    CHECK(after.key[0].symbol == QStringLiteral("A"));
    CHECK(after.key[1] == traced.key[1]);
    CHECK(after.key[2] == traced.key[2]);
    CHECK(app::isInWorkbox(after.key[0], open.session));
    CHECK_FALSE(app::isInWorkbox(after.key[2], open.session));
    CHECK(after.isConsistent());
}

TEST_CASE("what is doubtful in a tracing is doubtful in the workbox, and nothing else") {
    trace::Tracing tracing;
    tracing.straight = QImage(4, 1, QImage::Format_RGB32);
    tracing.straight.fill(Qt::white);
    tracing.cell = 1;
    tracing.confidence = {0, 0.4999F, trace::kDoubtful, 1};
    const workbox::TracedPage page = app::pageOf(tracing);
    REQUIRE(page.confidence.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        CAPTURE(i);
        CHECK((page.confidence[i] < app::kDoubtfulByte) ==
              (tracing.confidence[i] < trace::kDoubtful));
    }
    CHECK(page.confidence[3] == 255);
    CHECK(QImage::fromData(page.picture).convertToFormat(QImage::Format_RGB32) == tracing.straight);
}

TEST_CASE("a huge page is kept without filling the workbox") {
    trace::Tracing tracing;
    tracing.straight = QImage(4000, 3100, QImage::Format_BGR888);
    std::uint32_t noise = 5;
    for (int y = 0; y < tracing.straight.height(); ++y) {
        auto* line = tracing.straight.scanLine(y);
        for (int x = 0; x < 3 * tracing.straight.width(); ++x) {
            noise = noise * 1664525 + 1013904223; // Knuth's "quick and dirty" step, from memory
            line[x] = static_cast<uchar>(200 + (noise >> 28));
        }
    }
    tracing.cell = 50;
    const workbox::TracedPage page = app::pageOf(tracing);
    CHECK(page.picture.size() < 8'000'000);
    CHECK(QImage::fromData(page.picture).size() == tracing.straight.size());
}

TEST_CASE("letters name rows as typed, else in the other case") {
    chart::Key key(3);
    key[0].symbol = QStringLiteral("A");
    key[1].symbol = QStringLiteral("a");
    key[2].symbol = QStringLiteral("C");
    CHECK(app::rowOfLetter(key, QStringLiteral("a")) == chart::KeyIndex{1});
    CHECK(app::rowOfLetter(key, QStringLiteral("A")) == chart::KeyIndex{0});
    CHECK(app::rowOfLetter(key, QStringLiteral("c")) == chart::KeyIndex{2});
    CHECK_FALSE(app::rowOfLetter(key, QStringLiteral("b")));
    CHECK_FALSE(app::rowOfLetter(key, QStringLiteral(" ")));
    CHECK_FALSE(app::rowOfLetter(key, QString()));
}

TEST_CASE("the page is drawn where its cells lie, at every zoom") {
    QImage board(40 * 24, 30 * 24, QImage::Format_RGB32);
    board.fill(Qt::white);
    QPainter printer(&board);
    printer.fillRect(12 * 24, 9 * 24, 24, 24, Qt::black);
    printer.end();
    const app::PagePicture picture(board, 24);
    for (const double cell : {3.0, 7.3, 24.0, 60.0}) {
        CAPTURE(cell);
        QImage drawn(200, 160, QImage::Format_RGB32);
        drawn.fill(Qt::gray);
        drawing::View view;
        view.cell = cell;
        view.size = drawn.size();
        view.origin = QPointF(100, 80) - QPointF(12.5, 9.5) * cell; // the black one in the middle
        QPainter painter(&drawn);
        picture.paint(painter, view, QRectF(drawn.rect()));
        painter.end();
        CHECK(qGray(drawn.pixel(100, 80)) < 60);
        CHECK(qGray(drawn.pixel(100 + qRound(cell * 0.9), 80)) > 200);
        CHECK(qGray(drawn.pixel(100 - qRound(cell * 0.9), 80)) > 200);
        CHECK(qGray(drawn.pixel(100, 80 + qRound(cell * 0.9))) > 200);
    }
}

TEST_CASE("the key says which threads of a traced chart the workbox lacks") {
    OpenTraced open;
    open.change([](app::ChartsState& state) { state.row = chart::KeyIndex{0}; });
    const QString hint = QStringLiteral("Not in the workbox. Type its thread above (Enter).");
    CHECK_FALSE(open.says(hint));
    chart::Chart after = open.chart();
    after.key[0].code = QStringLiteral("X-1");
    open.document.changeChart(open.leaf, after, QStringLiteral("x"));
    CHECK(open.says(hint));
    open.session.chooseChart(open.gate); // not traced: its key came from a file
    open.change([](app::ChartsState& state) { state.row = chart::KeyIndex{0}; });
    CHECK_FALSE(open.says(hint));
}
