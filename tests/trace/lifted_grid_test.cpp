// A drawn chart's own lines, and what lies over its frame: gone from what cells are drawn again by.
#include "traced_page.h"
#include "written_files.h"

#include "trace/detail/lifted_lines.h"
#include "trace/detail/pdf_file.h"

#include <QPageSize>
#include <QPainterPath>
#include <QPdfWriter>

#include <functional>
#include <map>

using namespace otherskein;

namespace {

constexpr int kGridWide = 24;
constexpr int kGridHigh = 20;
constexpr double kGridCell = 10; // points
constexpr double kGridLeft = 50;
constexpr double kGridTop = 60;

/// What stands in a cell: patches of two symbols, and nothing.
int signAt(int column, int row) {
    return (column / 3 * 5 + row / 2 * 2) % 3 - 1;
}

struct GridLook {
    QColor lines = Qt::black;
    double frame = 0.3;     ///< points
    bool isPatched = false; ///< squares of colour in place of signs
};

void drawGridLines(QPainter& painter, const GridLook& look) {
    painter.setPen(QPen(look.lines, 0.3));
    for (int i = 1; i < kGridWide; ++i) {
        painter.drawLine(QPointF(i * kGridCell, 0), QPointF(i * kGridCell, kGridHigh * kGridCell));
    }
    for (int i = 1; i < kGridHigh; ++i) {
        painter.drawLine(QPointF(0, i * kGridCell), QPointF(kGridWide * kGridCell, i * kGridCell));
    }
    painter.setPen(QPen(look.lines, look.frame));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(QRectF(0, 0, kGridWide * kGridCell, kGridHigh * kGridCell));
}

void drawSigns(QPainter& painter, const GridLook& look) {
    painter.setPen(Qt::NoPen);
    for (int row = 0; row < kGridHigh; ++row) {
        for (int column = 0; column < kGridWide; ++column) {
            const int sign = signAt(column, row);
            if (sign < 0) {
                continue;
            }
            const QPointF at(column * kGridCell, row * kGridCell);
            if (look.isPatched) {
                painter.fillRect(QRectF(at, QSizeF(kGridCell, kGridCell)),
                                 sign == 0 ? QColor(246, 240, 232) : QColor(90, 120, 180));
            } else if (sign == 0) {
                painter.fillRect(QRectF(at + QPointF(2.1, 4.2), QSizeF(5.9, 1.7)), Qt::black);
            } else {
                painter.setBrush(Qt::black);
                painter.drawEllipse(QRectF(at + QPointF(2.5, 2.5), QSizeF(5, 5)));
            }
        }
    }
}

trace::Page gridPage(const GridLook& look, const std::function<void(QPainter&)>& over = {}) {
    const WrittenFiles files;
    const QString path = files.path(QStringLiteral("grid.pdf"));
    {
        QPdfWriter writer(path);
        writer.setPageSize(QPageSize(QSizeF(360, 320), QPageSize::Point));
        writer.setPageMargins({});
        QPainter painter(&writer);
        painter.scale(writer.resolution() / 72.0, writer.resolution() / 72.0);
        painter.translate(kGridLeft, kGridTop);
        drawSigns(painter, look);
        drawGridLines(painter, look);
        if (over) {
            over(painter);
        }
    }
    return trace::readPage(path);
}

/// Every fifth column's number, its lower half over the first row.
void drawNumbersOver(QPainter& painter) {
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPointSizeF(6 * 72.0 / painter.device()->logicalDpiY());
    painter.setFont(font);
    painter.setPen(Qt::black);
    for (int n = 10; n <= kGridWide; n += 5) {
        painter.drawText(QPointF((n - 0.85) * kGridCell, 2.5), QString::number(n));
    }
}

trace::detail::LiftedLines liftedFrom(const trace::Page& page) {
    const auto grids = trace::gridsOn(page);
    REQUIRE(grids.size() == 1);
    REQUIRE(grids[0].columns == kGridWide);
    REQUIRE(grids[0].rows == kGridHigh);
    const trace::Piece piece{0, grids[0], {}};
    return trace::detail::liftedLines(std::span(&page, 1), std::span(&piece, 1));
}

/// How dark the picture of a page is at a place of the grid, in cells.
int darknessAt(const QImage& picture, double column, double row) {
    const double scale = picture.width() / 360.0;
    const int x = static_cast<int>((kGridLeft + column * kGridCell) * scale);
    const int y = static_cast<int>((kGridTop + row * kGridCell) * scale);
    int darkest = 0;
    for (int dx = -1; dx <= 1; ++dx) {
        for (int dy = -1; dy <= 1; ++dy) {
            darkest = std::max(darkest, 255 - qGray(picture.pixel(x + dx, y + dy)));
        }
    }
    return darkest;
}

QImage drawnFrom(const trace::Page& page) {
    trace::detail::PdfFile pdf(page.pdf, page.source);
    QImage picture(page.picture.size(), QImage::Format_RGB32);
    picture.fill(Qt::white);
    QPainter(&picture).drawImage(0, 0, pdf.document.render(0, page.picture.size()));
    return picture;
}

int wrongSigns(const trace::Tracing& tracing) {
    std::map<chart::KeyIndex, std::map<int, int>> counts;
    for (int row = 0; row < kGridHigh; ++row) {
        for (int column = 0; column < kGridWide; ++column) {
            ++counts[tracing.chart.grid.at({column, row})][signAt(column, row)];
        }
    }
    int wrong = counts.size() == 3 ? 0 : 1000;
    for (const auto& [key, of] : counts) {
        wrong += static_cast<int>(of.size()) - 1;
        wrong += (key == chart::kBare) == (of.begin()->first < 0) ? 0 : 1;
    }
    return wrong;
}

} // namespace

TEST_CASE("a drawn grid is found where it was drawn, to a tenth of a pixel") {
    const trace::Page page = gridPage({});
    const auto grids = trace::gridsOn(page);
    REQUIRE(grids.size() == 1);
    const double scale = page.picture.width() / 360.0;
    const double scaleY = page.picture.height() / 320.0;
    const QPointF first = grids[0].outline[0];
    const QPointF last = grids[0].outline[2];
    CHECK(std::abs(first.x() - (kGridLeft * scale - 0.5)) < 0.1);
    CHECK(std::abs(first.y() - (kGridTop * scaleY - 0.5)) < 0.1);
    CHECK(std::abs(last.x() - ((kGridLeft + kGridWide * kGridCell) * scale - 0.5)) < 0.1);
    CHECK(std::abs(last.y() - ((kGridTop + kGridHigh * kGridCell) * scaleY - 0.5)) < 0.1);
}

TEST_CASE("cells are drawn again without the grid's lines and frame, which the picture keeps") {
    const trace::Page page = gridPage({Qt::black, 1.2, false});
    const auto lifted = liftedFrom(page);
    CHECK(lifted.isExact[0] == 1);
    CHECK(lifted.areAll[0] == 1);
    const QImage drawn = drawnFrom(lifted.pages[0]);
    CHECK(darknessAt(page.picture, 7, 0.1) > 100); // a line
    CHECK(darknessAt(lifted.pages[0].picture, 7, 0.1) > 100);
    CHECK(darknessAt(drawn, 7, 0.1) == 0);
    CHECK(darknessAt(page.picture, 0, 10.5) > 100); // the frame
    CHECK(darknessAt(drawn, 0, 10.5) == 0);
    CHECK(wrongSigns(tracedWhole(page)) == 0);
}

TEST_CASE("numbers half over the frame go with it, and the cells below are told for sure") {
    const trace::Page page = gridPage({Qt::black, 1.2, false}, drawNumbersOver);
    const auto lifted = liftedFrom(page);
    const QImage drawn = drawnFrom(lifted.pages[0]);
    int before = 0;
    int after = 0;
    for (double x = 9.2; x < 10.8; x += 0.05) { // where 10 stands, above the frame
        before += darknessAt(page.picture, x, -0.2) > 100 ? 1 : 0;
        after += darknessAt(drawn, x, -0.2) > 100 ? 1 : 0;
    }
    CHECK(before > 3);
    CHECK(after == 0);
    CHECK(darknessAt(drawn, 0, 10.5) == 0);
    const trace::Tracing tracing = tracedWhole(page);
    CHECK(wrongSigns(tracing) == 0);
    CHECK(tracing.doubtful().empty());
}

TEST_CASE("an outlined number over the frame goes, a sign in the first row stays") {
    const trace::Page page = gridPage({}, [](QPainter& painter) {
        QPainterPath path;
        QFont font(QStringLiteral("DejaVu Sans"));
        font.setPixelSize(6);
        path.addText(QPointF(12.1 * kGridCell, 2.5), font, QStringLiteral("13"));
        painter.fillPath(path, Qt::black);
    });
    const trace::Tracing tracing = tracedWhole(page);
    CHECK(wrongSigns(tracing) == 0);
    CHECK(tracing.doubtful().empty());
}

TEST_CASE("white lines stay: they tell pale squares from paper") {
    const trace::Page page = gridPage({Qt::white, 0.3, true});
    const auto lifted = liftedFrom(page);
    const QImage drawn = drawnFrom(lifted.pages[0]);
    const int column = 4; // between two cells of blue
    REQUIRE(signAt(column - 1, 0) == signAt(column, 0));
    CHECK(darknessAt(drawn, column - 0.5, 0.5) == darknessAt(page.picture, column - 0.5, 0.5));
    CHECK(wrongSigns(tracedWhole(page)) == 0);
}

TEST_CASE("a curve through the grid may be a line to look for in the picture") {
    const trace::Page page = gridPage({}, [](QPainter& painter) {
        painter.setPen(QPen(Qt::red, 1));
        QPainterPath path;
        path.moveTo(20, 20);
        path.cubicTo(60, 20, 100, 60, 120, 140);
        painter.drawPath(path);
    });
    const auto lifted = liftedFrom(page);
    CHECK(lifted.isExact[0] == 1);
    CHECK(lifted.areAll[0] == 0);
    CHECK(lifted.lines[0].empty());
}
