// Puzzles, cloth and floors have grids too, and are refused; charts that come near them are not.
#include "base/input_error.h"
#include "trace/detail/other_grids.h"
#include "trace/detail/views.h"
#include "traced_page.h"

#include <catch2/catch.hpp>

#include <QPainterPath>

#include <array>
#include <functional>
#include <string>
#include <string_view>

using namespace otherskein;

namespace {

/// What is said against a drawn page; empty where it is traced.
std::string refusalOf(const DrawnPage& drawn) {
    const trace::Page page = drawn.page();
    const std::vector<trace::Piece> pieces{{0, drawnGrid(drawn), {}}};
    try {
        static_cast<void>(trace::traced(std::span(&page, 1), pieces));
    } catch (const base::InputError& error) {
        return error.line().toStdString();
    }
    return {};
}

void writeInCell(QPainter& painter, const QRectF& box, int number) {
    QFont font = painter.font();
    font.setPixelSize(static_cast<int>(box.height()));
    painter.setFont(font);
    painter.setPen(Qt::black);
    painter.drawText(box, Qt::AlignCenter, QString::number(number));
}

constexpr std::array<std::string_view, 9> kWords{"....#....", ".#.#.#.#.", "...#.....",
                                                 ".#...#.#.", "##.#.#.##", ".#.#...#.",
                                                 ".....#...", ".#.#.#.#.", "....#...."};

bool isBlackAt(int column, int row) {
    return column < 0 || row < 0 || column >= 9 || row >= 9 ||
           kWords[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] == '#';
}

} // namespace

TEST_CASE("a puzzle of digits is refused, a small motif of letters is not") {
    DrawnPage drawn;
    drawn.columns = 9;
    drawn.rows = 9;
    drawn.pitch = 40;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (kindAt(column, row, 1) == 0) {
            writeInCell(painter, {15, 15, 70, 70}, (3 * row + row / 3 + column) % 9 + 1);
        }
    };
    CHECK(refusalOf(drawn) == std::string("drawn: expected a chart, found a puzzle: no symbol "
                                          "stands twice in a row or column"));
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int ring = std::max(std::abs(column - 4), std::abs(row - 4)); ring < 4) {
            writeInCell(painter, {15, 15, 70, 70}, 2 + 3 * (ring / 2));
        }
    };
    CHECK(refusalOf(drawn).empty());
}

TEST_CASE("a puzzle of words is refused, a chart of the same black cells is not") {
    for (const bool hasNumbers : {true, false}) {
        DrawnPage drawn;
        drawn.columns = 9;
        drawn.rows = 9;
        drawn.pitch = 60;
        int number = 0;
        drawn.cell = [&](QPainter& painter, int column, int row) {
            if (isBlackAt(column, row)) {
                painter.fillRect(QRectF(0, 0, 100, 100), Qt::black);
            } else if (hasNumbers &&
                       ((isBlackAt(column - 1, row) && !isBlackAt(column + 1, row)) ||
                        (isBlackAt(column, row - 1) && !isBlackAt(column, row + 1)))) {
                writeInCell(painter, {10, 10, 30, 24}, ++number);
            }
        };
        CHECK(refusalOf(drawn) ==
              (hasNumbers ? std::string("drawn: expected a chart, found a puzzle: small numbers "
                                        "where its words begin")
                          : std::string()));
    }
}

TEST_CASE(
    "a board for a game is refused, a chart of as many large squares with one left out is not") {
    for (const bool isBoard : {true, false}) {
        DrawnPage drawn;
        drawn.columns = 24;
        drawn.rows = 16;
        drawn.cell = [&](QPainter& painter, int column, int row) {
            const int square = column / 3 + row / 2;
            if (isBoard ? square % 2 == 0 : square % 3 == 0) {
                painter.fillRect(QRectF(0, 0, 100, 100), QColor(110, 150, 90));
            }
            if (column / 3 == 4 && row / 2 == 3) {
                drawShape(painter, 0);
            }
        };
        CHECK(refusalOf(drawn) ==
              (isBoard
                   ? std::string("drawn: expected a chart, found a board: large squares in turn "
                                 "all over")
                   : std::string()));
    }
}

TEST_CASE("many kinds of cells that hardly recur are refused: a table, a picture") {
    for (const int each : {2, 8}) {
        DrawnPage drawn;
        drawn.columns = 24;
        drawn.rows = 18;
        drawn.cell = [&](QPainter& painter, int column, int row) {
            // 40 kinds, each in `each` cells: two digits tell them.
            const int at = row * 24 + column;
            if (at < 40 * each) {
                const int kind = at / each;
                writeInCell(painter, {8, 25, 42, 50}, kind / 10);
                writeInCell(painter, {50, 25, 42, 50}, kind % 10);
            }
        };
        CHECK((refusalOf(drawn).find("expected a chart whose symbols recur") !=
               std::string::npos) == (each == 2));
    }
}

TEST_CASE("two kinds in turn that fill a picture are refused, not those with paper around") {
    for (const bool isFull : {true, false}) {
        DrawnPage drawn;
        drawn.columns = isFull ? 36 : 20;
        drawn.rows = isFull ? 29 : 16;
        drawn.left = isFull ? 10 : 160;
        drawn.top = isFull ? 10 : 140;
        drawn.cell = [](QPainter& painter, int column, int row) {
            const bool isOver = (column + row) % 2 == 0;
            painter.fillRect(QRectF(0, 0, 100, 100), QColor(90, 90, 140));
            painter.fillRect(isOver ? QRectF(0, 20, 100, 60) : QRectF(20, 0, 60, 100),
                             QColor(130, 130, 190));
        };
        CHECK(refusalOf(drawn) == (isFull ? std::string("drawn: expected a chart, found two "
                                                        "kinds of cells in turn all over, as in "
                                                        "a weave")
                                          : std::string()));
    }
}

TEST_CASE("symbols that fill a picture are a chart") {
    DrawnPage drawn;
    drawn.columns = 36;
    drawn.rows = 29;
    drawn.left = 10;
    drawn.top = 10;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int which = kindAt(column, row, 4); which >= 0) {
            drawShape(painter, which);
        }
    };
    CHECK(refusalOf(drawn).empty());
}

TEST_CASE("a square code for machines is refused, a chart of cells as dark is not") {
    constexpr int kSide = 29;
    const int cut = GENERATE(0, 1); // a column that was not found
    CAPTURE(cut);
    for (const bool hasEyes : {true, false}) {
        DrawnPage drawn;
        drawn.columns = kSide - cut;
        drawn.rows = kSide;
        drawn.pitch = 22;
        drawn.cell = [hasEyes](QPainter& painter, int column, int row) {
            const int x = column < kSide / 2 ? column : kSide - 1 - column;
            const int y = row < kSide / 2 ? row : kSide - 1 - row;
            const int ring = std::max(std::abs(x - 3), std::abs(y - 3));
            const bool isEye = hasEyes && ring <= 4 && (column < 8 || row < 8);
            if (isEye ? ring == 3 || ring < 2 : kindAt(column, row, 1) == 0) {
                painter.fillRect(QRectF(0, 0, 100, 100), Qt::black);
            }
        };
        CHECK(refusalOf(drawn).empty() != hasEyes);
    }
}

TEST_CASE("writing runs over the sides of cells, signs stay within them") {
    constexpr int kPx = 24;
    const auto over = [](const std::function<void(QPainter&)>& draw) {
        QImage image(30 * kPx, 20 * kPx, QImage::Format_BGR888);
        image.fill(Qt::white);
        QPainter painter(&image);
        painter.setRenderHint(QPainter::Antialiasing);
        draw(painter);
        painter.end();
        trace::detail::Sheet sheet;
        sheet.straight = trace::detail::viewOf(image).clone();
        sheet.cell = kPx;
        sheet.columns = 30;
        sheet.rows = 20;
        return trace::detail::runningOver(sheet);
    };
    CHECK(over([](QPainter& painter) {
              for (int i = 0; i < 600; i += 2) {
                  writeInCell(painter, QRectF(i % 30 * kPx + 4, i / 30 * kPx + 4, 16, 16), i % 9);
              }
          }) < 0.1);
    CHECK(over([](QPainter& painter) {
              painter.setPen(QPen(Qt::black, 3));
              for (int i = 0; i < 16; ++i) { // loops along a line, as of a hand
                  QPainterPath path(QPointF(10, 30 * i + 20));
                  for (int k = 0; k < 44; ++k) {
                      const QPointF from(10 + 16 * k, 30 * i + 20);
                      path.cubicTo(from + QPointF(20, -26), from + QPointF(-4, -26),
                                   from + QPointF(16, 0));
                  }
                  painter.drawPath(path);
              }
          }) > 0.75);
}

TEST_CASE("windows of many kinds in a wall are a house's front, motifs at other steps are not") {
    constexpr int kAcross = 20;
    constexpr int kDown = 17;
    const auto front = [](int step, int kindsOfWindows, int wall) {
        std::vector<int> kinds;
        for (int i = 0; i < kAcross * kDown; ++i) {
            const int column = i % kAcross;
            const int row = i / kAcross;
            const bool isWall = column % step == 1 || row % step == 2 % step;
            kinds.push_back(isWall ? wall : (column * 7 + row * 5) % kindsOfWindows);
        }
        return isWindowFront(kinds, kAcross, kDown);
    };
    CHECK(front(3, 11, -1));
    CHECK(front(3, 11, 40)); // the wall may be a kind of its own
    CHECK(front(4, 9, -1));
    CHECK_FALSE(front(3, 4, -1)); // few colours: a pattern of a chart
    CHECK_FALSE(front(5, 11, -1));
    CHECK_FALSE(front(2, 11, -1));
}
