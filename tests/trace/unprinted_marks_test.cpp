#include "trace/detail/unprinted_marks.h"
#include "trace/tracing.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>

using namespace otherskein;

namespace {

/// 20 × 20 cells of 24 px: paper, but for groups of cells that are drawn.
struct MarkedSheet {
    MarkedSheet() {
        sheet.cell = 24;
        sheet.columns = 20;
        sheet.rows = 20;
        sheet.straight = cv::Mat(480, 480, CV_8UC3, cv::Scalar::all(255));
        groups.count = 1;
        groups.of.assign(400, 0);
        groups.confidence.assign(400, 1);
    }

    /// The group's number; its cells are so many of the next ones.
    int add(int cells, const std::function<void(cv::Mat&)>& draw) {
        for (int i = 0; i < cells; ++i, ++m_next) {
            cv::Mat cell = sheet.straight(sheet.box(m_next % 20, m_next / 20));
            draw(cell);
            groups.of[static_cast<std::size_t>(m_next)] = groups.count;
        }
        return groups.count++;
    }

    [[nodiscard]] std::vector<trace::detail::GroupLook> looks() const {
        auto all = trace::detail::groupLooks(trace::detail::looksOf(sheet), groups);
        all[0].isBare = true;
        return all;
    }

    [[nodiscard]] bool isDoubtful(int group) const {
        const auto at = std::ranges::find(groups.of, group) - groups.of.begin();
        return groups.confidence[static_cast<std::size_t>(at)] < trace::kDoubtful;
    }

    trace::detail::Sheet sheet;
    trace::detail::Groups groups;

  private:
    int m_next = 0;
};

void drawTopBar(cv::Mat& cell) {
    cell.rowRange(0, 6).setTo(cv::Scalar(30, 30, 150));
}

} // namespace

TEST_CASE("what a line leaves in cells beside it is bare and doubtful, a symbol there is not") {
    MarkedSheet marked;
    const int rest = marked.add(20, drawTopBar);
    const int tee = marked.add(20, [](cv::Mat& cell) {
        drawTopBar(cell);
        cell.colRange(10, 14).setTo(cv::Scalar::all(20));
    });
    std::vector<char> masked(400, 0);
    std::fill_n(masked.begin(), 40, char{1});
    const int bar = marked.add(20, drawTopBar); // no line was found there: a symbol
    auto looks = marked.looks();
    trace::detail::markLineRests(masked, marked.groups, looks);
    CHECK(looks[static_cast<std::size_t>(rest)].isBare);
    CHECK(marked.isDoubtful(rest));
    CHECK_FALSE(looks[static_cast<std::size_t>(tee)].isBare);
    CHECK_FALSE(looks[static_cast<std::size_t>(bar)].isBare);
    CHECK_FALSE(marked.isDoubtful(bar));
}

TEST_CASE("few soft marks among sharp ones are doubtful, plain fills and many alike are not") {
    const auto slope = [](cv::Mat& cell) {
        for (int y = 0; y < 24; ++y) {
            cell.row(y).setTo(cv::Scalar(180 + y, 200 + y, 230 + y));
        }
    };
    MarkedSheet marked;
    marked.add(20, [](cv::Mat& cell) { cell(cv::Rect(6, 6, 12, 12)).setTo(0); });
    marked.add(20, [](cv::Mat& cell) { cell(cv::Rect(10, 4, 4, 16)).setTo(0); });
    const int stain = marked.add(3, slope);
    const int fill = marked.add(3, [](cv::Mat& cell) { cell.setTo(cv::Scalar(200, 180, 230)); });
    const int usual = marked.add(40, slope);
    const auto looks = marked.looks();
    trace::detail::doubtSoftMarks(marked.groups, looks);
    CHECK(marked.isDoubtful(stain));
    CHECK_FALSE(marked.isDoubtful(fill));
    CHECK_FALSE(marked.isDoubtful(usual));
    CHECK_FALSE(marked.isDoubtful(1));
}

TEST_CASE("a fold down a column is bare and doubtful, a shaded row doubtful, symbols neither") {
    MarkedSheet marked;
    const auto addAt = [&](int column, int row, int stepX, int stepY, const auto& draw) {
        for (int i = 0; i < 12; ++i) {
            const int x = column + i * stepX;
            const int y = row + i * stepY;
            cv::Mat cell = marked.sheet.straight(marked.sheet.box(x, y));
            draw(cell);
            marked.groups.of[static_cast<std::size_t>(20 * y + x)] = marked.groups.count;
        }
        return marked.groups.count++;
    };
    const auto stripe = [](cv::Mat& cell) { cell.colRange(8, 15).setTo(cv::Scalar::all(215)); };
    const int fold = addAt(9, 4, 0, 1, stripe);
    const int shade = addAt(2, 19, 1, 0, [](cv::Mat& cell) { cell.setTo(cv::Scalar::all(210)); });
    const int anywhere = addAt(4, 5, 1, 1, stripe);
    const int fill =
        addAt(2, 1, 1, 0, [](cv::Mat& cell) { cell.setTo(cv::Scalar(190, 230, 250)); });
    const int bar =
        addAt(1, 4, 0, 1, [](cv::Mat& cell) { cell.colRange(8, 15).setTo(cv::Scalar::all(60)); });
    auto looks = marked.looks();
    const trace::detail::LookGrid grid{0, 20, 20};
    trace::detail::markFolds(std::span(&grid, 1), marked.groups, looks);
    CHECK(looks[static_cast<std::size_t>(fold)].isBare);
    CHECK(marked.isDoubtful(fold));
    CHECK_FALSE(looks[static_cast<std::size_t>(shade)].isBare);
    CHECK(marked.isDoubtful(shade));
    for (const int symbol : {anywhere, fill, bar}) {
        CAPTURE(symbol);
        CHECK_FALSE(looks[static_cast<std::size_t>(symbol)].isBare);
        CHECK_FALSE(marked.isDoubtful(symbol));
    }
}

TEST_CASE("rests of a frame in an outermost row are doubtful, symbols there are not") {
    MarkedSheet marked;
    const auto corner = [](cv::Mat& cell) {
        cell.rowRange(0, 5).setTo(cv::Scalar::all(20));
        cell.colRange(0, 5).setTo(cv::Scalar::all(20));
    };
    const auto dot = [](cv::Mat& cell) { cell(cv::Rect(9, 9, 6, 6)).setTo(20); };
    const int rest = marked.add(6, corner); // the first row has 20 cells
    const int symbol = marked.add(10, dot);
    const int within = marked.add(8, corner);
    const auto looks = marked.looks();
    const trace::detail::LookGrid grid{0, 20, 20};
    trace::detail::doubtFrameRests(std::span(&grid, 1), marked.groups, looks);
    CHECK(marked.isDoubtful(rest));
    CHECK_FALSE(marked.isDoubtful(symbol));
    CHECK_FALSE(marked.isDoubtful(within));
}

TEST_CASE("few marks far paler than the page's own are doubtful, many are meant") {
    const bool isTape = GENERATE(true, false);
    const auto drawPale = [&](cv::Mat& cell) {
        if (isTape) {
            cell.setTo(cv::Scalar(190, 220, 230));
        } else {
            cv::line(cell, {6, 18}, {17, 5}, cv::Scalar::all(190), 2);
        }
    };
    MarkedSheet marked;
    marked.add(60, [](cv::Mat& cell) { cell(cv::Rect(6, 6, 12, 12)).setTo(0); });
    const int thin = marked.add(20, [](cv::Mat& cell) { cell.row(11).setTo(cv::Scalar::all(90)); });
    const int pale = marked.add(12, drawPale);
    const auto looks = marked.looks();
    trace::detail::doubtPaleMarks(marked.groups, looks);
    CHECK(marked.isDoubtful(pale));
    CHECK_FALSE(marked.isDoubtful(1));
    CHECK_FALSE(marked.isDoubtful(thin));

    MarkedSheet meant; // where there are many
    meant.add(60, [](cv::Mat& cell) { cell(cv::Rect(6, 6, 12, 12)).setTo(0); });
    const int many = meant.add(40, drawPale);
    trace::detail::doubtPaleMarks(meant.groups, meant.looks());
    CHECK_FALSE(meant.isDoubtful(many));
}

TEST_CASE("a dark fold that leans over two rows is doubtful, dashes in many rows are not") {
    const int rowsEach = GENERATE(1, 4); // from one half of the cells to the other
    MarkedSheet marked;
    for (int i = 0; i < 12; ++i) {
        const int row = 4 + (i < 6 ? 0 : rowsEach);
        cv::Mat cell = marked.sheet.straight(marked.sheet.box(i, row));
        cell.rowRange(10, 13).setTo(cv::Scalar::all(150));
        marked.groups.of[static_cast<std::size_t>(20 * row + i)] = 1;
    }
    marked.groups.count = 2;
    auto looks = marked.looks();
    const trace::detail::LookGrid grid{0, 20, 20};
    trace::detail::markFolds(std::span(&grid, 1), marked.groups, looks);
    CHECK_FALSE(looks[1].isBare);
    CHECK(marked.isDoubtful(1) == (rowsEach == 1));
}
