#include "app/charts_fixture.h"

#include "app/charts/motif_table.h"

#include <catch2/catch.hpp>

#include <QLineEdit>
#include <QPushButton>
#include <QSlider>

using namespace otherskein;
using tests::OpenCharts;

namespace {

struct OpenMotifs : OpenCharts {
    app::MotifTable& table = *place->findChild<app::MotifTable*>();

    OpenMotifs() {
        change([](app::ChartsState& state) { state.page = app::ChartsPage::Motifs; });
        // As they are, with nothing bridged or parted: what a hand does is clear then.
        setStep(chart::kMotifSteps / 2);
        document.undoStack().clear();
    }
    void setStep(int step) {
        chart::MotifPlan plan = document.motifPlan(gate);
        plan.step = step;
        document.changeMotifPlan(gate, plan, QStringLiteral("step"));
    }
    [[nodiscard]] int count() const { return table.model()->rowCount(); }
    [[nodiscard]] chart::MotifIndex motifAt(int column, int row) const {
        return place->desk().motifs()->at({column, row});
    }
};

} // namespace

TEST_CASE("the slider cuts the chart into more motifs or fewer, and that is kept with the chart") {
    OpenMotifs open;
    auto* slider = open.control<QSlider>("Few or many motifs");
    REQUIRE(slider != nullptr);
    slider->setFocus();
    QTest::keyClick(slider, Qt::Key_Home);
    const int few = open.count();
    CHECK(open.document.motifPlan(open.gate).step == 0);
    QTest::keyClick(slider, Qt::Key_End);
    const int many = open.count();
    CHECK(open.document.motifPlan(open.gate).step == chart::kMotifSteps - 1);
    CHECK(few < many);
    CHECK(few == static_cast<int>(
                     chart::findMotifs(open.stored().grid, chart::MotifPlan{0, {}}).motifs.size()));
    open.undo();
    CHECK(slider->value() == chart::kMotifSteps / 2);
}

TEST_CASE("two motifs that are clicked are joined, and undo parts them") {
    OpenMotifs open;
    const int before = open.count();
    REQUIRE(open.motifAt(1, 1) != open.motifAt(6, 1));
    auto* join = open.control<QPushButton>("Join");
    CHECK_FALSE(join->isEnabled());
    open.click(1, 1);
    CHECK_FALSE(join->isEnabled());
    open.click(6, 1, Qt::ControlModifier);
    REQUIRE(join->isEnabled());
    CHECK(open.table.selectionModel()->selectedRows().size() == 2);
    QTest::mouseClick(join, Qt::LeftButton);
    CHECK(open.count() == before - 1);
    CHECK(open.motifAt(1, 1) == open.motifAt(6, 1));
    CHECK(open.document.motifPlan(open.gate).edits.size() == 1);
    open.undo();
    CHECK(open.count() == before);
    CHECK(open.motifAt(1, 1) != open.motifAt(6, 1));
}

TEST_CASE("a line that is drawn across a motif cuts it, and undo heals it") {
    OpenMotifs open;
    const int before = open.count();
    auto* cut = open.control<QPushButton>("Cut");
    QTest::mouseClick(cut, Qt::LeftButton);
    CHECK(open.state().cutting);
    const QPoint above = open.at(1, -1);
    const QPoint below = open.at(1, 3);
    // Along the seam between the first column and the others.
    const int seam = drawing::fromCells(open.canvas().view(), {1, 0}).toPoint().x();
    open.drag({{seam, above.y()}, {seam, below.y()}});
    CHECK_FALSE(open.state().cutting);
    CHECK(open.count() == before + 1);
    CHECK(open.motifAt(0, 1) != open.motifAt(1, 1));
    CHECK(open.motifAt(1, 1) == open.motifAt(2, 1));
    open.undo();
    CHECK(open.count() == before);
}

TEST_CASE("a cut that meets no motif is refused") {
    OpenMotifs open;
    QSignalSpy refused(open.place.get(), &app::ChartsPlace::refused);
    QTest::mouseClick(open.control<QPushButton>("Cut"), Qt::LeftButton);
    open.drag({open.at(0, 3), open.at(7, 3)});
    CHECK(refused.count() == 1);
    CHECK(open.steps() == 0);
}

TEST_CASE("Escape gives up a cut") {
    OpenMotifs open;
    QTest::mouseClick(open.control<QPushButton>("Cut"), Qt::LeftButton);
    QTest::keyClick(&open.canvas(), Qt::Key_Escape);
    CHECK_FALSE(open.state().cutting);
    CHECK_FALSE(open.control<QPushButton>("Cut")->isChecked());
}

TEST_CASE("a motif is named in the table, and undo takes the name back") {
    OpenMotifs open;
    open.click(6, 1);
    open.table.setFocus();
    QTest::keyClick(&open.table, Qt::Key_F2);
    auto* editor = open.table.viewport()->findChild<QLineEdit*>();
    REQUIRE(editor != nullptr);
    CHECK(editor->accessibleName() == QStringLiteral("Name of the motif"));
    QTest::keyClicks(editor, QStringLiteral("east pier"));
    QTest::keyClick(editor, Qt::Key_Return);
    QCoreApplication::processEvents(); // the table takes the text
    QCoreApplication::processEvents(); // and then the plan
    const auto motif = open.motifAt(6, 1);
    CHECK(open.place->desk().motifs()->motifs[motif].name == QStringLiteral("east pier"));
    open.undo();
    CHECK(open.place->desk().motifs()->motifs[open.motifAt(6, 1)].name.isEmpty());
}

TEST_CASE("a click on bare ground chooses no motif") {
    OpenMotifs open;
    open.click(1, 1);
    CHECK(open.state().motifs.size() == 1);
    open.click(4, 0);
    CHECK(open.state().motifs.empty());
}

TEST_CASE("rows of the table choose motifs of the chart") {
    OpenMotifs open;
    open.table.setFocus();
    open.table.selectAll();
    CHECK(static_cast<int>(open.state().motifs.size()) == open.count());
    open.table.clearSelection();
    CHECK(open.state().motifs.empty());
}

TEST_CASE("to start afresh forgets what was done by hand and undo brings it back") {
    OpenMotifs open;
    open.click(1, 1);
    open.click(6, 1, Qt::ControlModifier);
    QTest::mouseClick(open.control<QPushButton>("Join"), Qt::LeftButton);
    const int joined = open.count();
    auto* afresh = open.control<QPushButton>("Start afresh");
    REQUIRE(afresh->isEnabled());
    QTest::mouseClick(afresh, Qt::LeftButton);
    CHECK(open.count() == joined + 1);
    CHECK_FALSE(afresh->isEnabled());
    open.undo();
    CHECK(open.count() == joined);
}

TEST_CASE("motifs of a large chart are found away from the window and then shown") {
    OpenMotifs open;
    chart::Chart large;
    large.name = QStringLiteral("large");
    large.grid = {400, 300};
    large.key.resize(1);
    for (int row = 0; row < 300; ++row) {
        for (int column = 0; column < 400; ++column) {
            if (column % 40 < 20 && row % 50 < 30) {
                large.grid.set({column, row}, 0);
            }
        }
    }
    chart::recount(large);
    open.session.chooseChart(open.document.addChart(large, {chart::kMotifSteps / 2, {}}));
    CHECK(open.place->desk().isBusy());
    CHECK(QTest::qWaitFor([&] { return !open.place->isBusy(); }));
    CHECK(open.count() == 10 * 6);
}

TEST_CASE("stitches that join two motifs make one of them") {
    OpenMotifs open;
    const int before = open.count();
    open.setMode(app::MendMode::Stitch, chart::KeyIndex{0});
    open.drag({open.at(1, 2), open.at(1, 4)}); // from one to the other of the same row
    CHECK(open.count() < before);
    CHECK(open.motifAt(1, 1) == open.motifAt(1, 4));
}
