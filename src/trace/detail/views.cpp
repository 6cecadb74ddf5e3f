#include "trace/detail/views.h"

#include "trace/detail/drawn_again.h"
#include "trace/detail/even_light.h"

#include <opencv2/imgproc.hpp>

#include <array>
#include <cassert>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr int kDrawnCell = 40;      // px
constexpr int kLeastDrawnCell = 20; // below, a drawing shows little more than the page
constexpr double kMostDrawnPixels = 40e6;
constexpr double kMostPiecePixels = 11e6; // 33 MB: larger pictures cost more than they tell

} // namespace

cv::Mat viewOf(const QImage& bgr) {
    assert(bgr.format() == QImage::Format_BGR888);
    return {bgr.height(), bgr.width(), CV_8UC3, const_cast<uchar*>(bgr.constBits()),
            static_cast<std::size_t>(bgr.bytesPerLine())};
}

Lattice latticeOf(const FoundGrid& grid) {
    assert(grid.outline.size() == 4);
    const auto columns = static_cast<float>(grid.columns);
    const auto rows = static_cast<float>(grid.rows);
    const std::array<cv::Point2f, 4> cells{
        cv::Point2f{0, 0}, {columns, 0}, {columns, rows}, {0, rows}};
    std::array<cv::Point2f, 4> places;
    for (int i = 0; i < 4; ++i) {
        places[static_cast<std::size_t>(i)] = {static_cast<float>(grid.outline[i].x()),
                                               static_cast<float>(grid.outline[i].y())};
    }
    Lattice lattice;
    lattice.toPage = cv::Mat(cv::getPerspectiveTransform(cells.data(), places.data()));
    lattice.columns = grid.columns;
    lattice.rows = grid.rows;
    lattice.pitch =
        std::sqrt(cv::contourArea(std::vector<cv::Point2f>(places.begin(), places.end())) /
                  std::max(1, grid.columns * grid.rows));
    return lattice;
}

FoundGrid foundGrid(const Lattice& lattice) {
    FoundGrid grid;
    grid.columns = lattice.columns;
    grid.rows = lattice.rows;
    for (const auto& [x, y] : {std::pair{0, 0}, {1, 0}, {1, 1}, {0, 1}}) {
        const cv::Point2d at = lattice.corner(x * lattice.columns, y * lattice.rows);
        grid.outline << QPointF(at.x, at.y);
    }
    return grid;
}

std::vector<Sheet> sheetsOf(std::span<const Page> pages, std::span<const Piece> pieces) {
    double pitch = 0;
    for (const Piece& piece : pieces) {
        pitch = std::max(pitch, latticeOf(piece.grid).pitch);
    }
    std::vector<Sheet> sheets;
    for (const Piece& piece : pieces) {
        const cv::Mat page = viewOf(pages[piece.page].picture);
        sheets.push_back(sheetOf(page, paperOf(page), latticeOf(piece.grid), cellSizeFor(pitch)));
        evenLight(sheets.back());
    }
    return sheets;
}

std::optional<DrawnSheets> drawnSheetsOf(std::span<const Page> pages, std::span<const Piece> pieces,
                                         std::span<const char> areExact) {
    double cells = 0;
    double most = 0; // of one piece
    for (const Piece& piece : pieces) {
        const double here = static_cast<double>(piece.grid.columns) * piece.grid.rows;
        cells += here;
        most = std::max(most, here);
    }
    const int cell = std::min(
        kDrawnCell,
        static_cast<int>(std::sqrt(std::min(kMostDrawnPixels / cells, kMostPiecePixels / most))));
    DrawnSheets result;
    for (std::size_t p = 0; p < pieces.size(); ++p) {
        const Piece& piece = pieces[p];
        const Page& page = pages[piece.page];
        const bool isExact = !areExact.empty() && areExact[p] != 0;
        const auto drawing = cell < kLeastDrawnCell
                                 ? std::nullopt
                                 : drawnAgain(page, latticeOf(piece.grid), cell, isExact);
        if (!drawing) {
            return std::nullopt;
        }
        result.sheets.push_back(drawnSheet(viewOf(drawing->picture), paperOf(viewOf(page.picture)),
                                           drawing->lattice, cell));
        result.pictures.push_back(drawing->picture);
        result.pieces.push_back(piece);
        result.pieces.back().grid.outline = foundGrid(drawing->onPage).outline;
    }
    return result;
}

} // namespace otherskein::trace::detail
