// Grabs the real window on the demo, for scripts/screenshots. Words: the folder, and an end for the
// file names.
#include "app/charts/charts_place.h"
#include "app/frame/look.h"
#include "app/frame/main_window.h"
#include "app/frame/message_bar.h"
#include "app/frame/texts.h"
#include "app/ground/ground_place.h"
#include "app/ground/grounds_dialog.h"
#include "app/ground/measures_dialog.h"
#include "app/ground/shopping_list.h"
#include "app/recolour/recolour_place.h"
#include "app/substitute/substitute_place.h"
#include "app/tracing/contact_sheet.h"
#include "app/tracing/pick_list.h"
#include "app/tracing/symbol_wall.h"
#include "app/tracing/trace_dialog.h"
#include "app/tracing/traced_view.h"
#include "app/tracing/tracing_edits.h"
#include "chart/mending.h"
#include "drawing/symbols.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QDir>
#include <QListWidget>
#include <QPainter>
#include <QTemporaryDir>
#include <QTest>

#include <cstdio>

using namespace otherskein;

namespace {

bool settled(app::MainWindow& window) {
    QTest::qWait(50);
    const bool answered = QTest::qWaitFor(
        [&] {
            return !window.substitutePlace().isBusy() && !window.recolourPlace().isBusy() &&
                   !window.chartsPlace().isBusy();
        },
        60'000);
    window.messages().hide();
    QTest::qWait(250);
    return answered;
}

/// Chooses a thread on the wall, so that the picture shows what is known of it.
void choose(app::MainWindow& window, const QString& code) {
    for (auto* wall : window.findChildren<QAbstractItemView*>()) {
        if (wall->accessibleName() != QStringLiteral("Wall of threads")) {
            continue;
        }
        const auto found = wall->model()->match(wall->model()->index(0, 0), Qt::AccessibleTextRole,
                                                code, 1, Qt::MatchContains);
        if (!found.isEmpty()) {
            wall->setCurrentIndex(found.front());
        }
    }
}

bool save(app::MainWindow& window, const QString& folder, const QString& name, const QString& end) {
    const QString path = folder + QLatin1Char('/') + name + end + QStringLiteral(".png");
    const bool saved = settled(window) && window.grab().save(path);
    std::printf("%s %s\n", saved ? "wrote" : "could not write", qPrintable(path));
    return saved;
}

/// The matrix; the evening chart on dark cloth before and after its lost threads are pushed; values
/// and colour vision.
bool saveGround(app::MainWindow& window, const QString& folder, const QString& word,
                const QString& end) {
    const auto ground = [&](const QString& name) {
        for (const auto& one : window.session().document().grounds()) {
            if (one.ground.name == name) {
                window.session().chooseGround(one.id);
            }
        }
    };
    app::GroundPlace& place = window.groundPlace();
    const auto show = [&](auto change) {
        app::GroundState next = place.state();
        change(next);
        place.ask(next);
    };
    window.show(app::PlaceId::Ground);
    ground(QStringLiteral("Navy linen"));
    show([](app::GroundState& state) { state.strands = 1; });
    bool good = save(window, folder, QStringLiteral("ground-") + word, end);
    if (app::tone() == app::Tone::Dark) {
        return good;
    }
    show([](app::GroundState& state) {
        state.page = app::GroundPage::Chart;
        state.strands = 1;
    });
    good &= save(window, folder, QStringLiteral("ground-before-") + word, end);
    place.desk().pushAll();
    good &= save(window, folder, QStringLiteral("ground-after-") + word, end);
    show([](app::GroundState& state) { state.strands.reset(); });
    show([](app::GroundState& state) { state.sight.kind = colour::Sight::Kind::Values; });
    good &= save(window, folder, QStringLiteral("ground-values-") + word, end);
    show([](app::GroundState& state) { state.sight.kind = colour::Sight::Kind::Deutan; });
    good &= save(window, folder, QStringLiteral("ground-vision-") + word, end);
    return good;
}

/// Dialogs, each as it opens.
bool saveDialogs(app::MainWindow& window, const QString& folder, const QString& end) {
    app::GroundPlace& place = window.groundPlace();
    app::Session& session = window.session();
    std::vector<const thread::ShadeCard*> cards;
    for (const thread::ShadeCard& card : *session.cards()) {
        cards.push_back(&card);
    }
    app::GroundsDialog grounds(session, place.state());
    app::MeasuresDialog measures(session, place.desk().chosenGround());
    app::ShoppingList shopping(place.desk().subject()->chart.name,
                               colourway::quantitiesOf(*place.desk().subject(), place.desk().now(),
                                                       place.desk().stitched(), {}, cards),
                               {});
    bool good = true;
    for (const auto& [dialog, name] : {std::pair<QDialog*, const char*>{&grounds, "my-grounds"},
                                       {&measures, "measure"},
                                       {&shopping, "shopping-list"}}) {
        dialog->show();
        QTest::qWait(100);
        const QString path =
            folder + QLatin1Char('/') + QLatin1String(name) + end + QStringLiteral(".png");
        good &= dialog->grab().save(path);
    }
    return good;
}

/// The chart in use as it may have been printed: the letters of its key in a grid of black lines.
QImage printed(const chart::Chart& chart, int cell) {
    QImage page(chart.grid.columns() * cell, chart.grid.rows() * cell, QImage::Format_BGR888);
    page.fill(Qt::white);
    QPainter painter(&page);
    painter.setRenderHint(QPainter::Antialiasing);
    for (int y = 0; y < chart.grid.rows(); ++y) {
        for (int x = 0; x < chart.grid.columns(); ++x) {
            const QRectF box(x * cell, y * cell, cell, cell);
            painter.setPen(QPen(QColor(0x70, 0x70, 0x70), 1));
            painter.drawRect(box);
            if (const chart::KeyIndex row = chart.grid.at({x, y}); row != chart::kBare) {
                drawing::paintSymbol(painter, row, box.adjusted(4, 4, -4, -4), Qt::black);
            }
        }
    }
    painter.setPen(QPen(Qt::black, 2));
    for (int x = 0; x <= chart.grid.columns(); x += 10) {
        painter.drawLine(x * cell, 0, x * cell, page.height());
    }
    for (int y = 0; y <= chart.grid.rows(); y += 10) {
        painter.drawLine(0, y * cell, page.width(), y * cell);
    }
    return page;
}

/// A tracing of that print with a few cells taken for others.
trace::Tracing tracingOf(const chart::Chart& chart, int cell) {
    trace::Tracing tracing;
    tracing.chart = chart;
    tracing.straight = printed(chart, cell);
    tracing.cell = cell;
    tracing.confidence.assign(chart.grid.cells().size(), 0.96F);
    chart::Chart& read = tracing.chart;
    read.name = QStringLiteral("Traced page");
    for (std::size_t i = 0; i < read.key.size(); ++i) {
        read.key[i].symbol = QString(QLatin1Char(static_cast<char>('A' + i)));
    }
    read.key.back().code = QStringLiteral("17b");
    read.key.back().card.clear();
    constexpr std::size_t kEvery = 997;
    std::size_t wrong = 0;
    for (std::size_t i = kEvery; i < read.grid.cells().size() && wrong < 12; i += kEvery) {
        chart::KeyIndex& one = read.grid.cells()[i];
        if (one != chart::kBare) {
            one = static_cast<chart::KeyIndex>((one + 1) % read.key.size());
            tracing.confidence[i] = 0.08F + 0.03F * static_cast<float>(wrong++);
        }
    }
    chart::recount(read);
    return tracing;
}

/// That tracing with bands of highlighter over the print, where every symbol was taken for another.
trace::Tracing highlighted(trace::Tracing tracing) {
    struct Band {
        int from;
        QColor colour;
    };
    constexpr int kHigh = 12; // rows of a band
    const Band bands[] = {{28, QColor(0xff, 0xf0, 0x80)}, {66, QColor(0xb8, 0xe4, 0xff)}};
    chart::Chart& read = tracing.chart;
    const std::size_t rows = read.key.size();
    QPainter painter(&tracing.straight);
    painter.setCompositionMode(QPainter::CompositionMode_Multiply);
    for (const Band& band : bands) {
        painter.fillRect(
            QRect(0, band.from * tracing.cell, tracing.straight.width(), kHigh * tracing.cell),
            band.colour);
        std::vector<chart::KeyIndex> now(rows, chart::kBare);
        for (int y = band.from; y < band.from + kHigh; ++y) {
            for (int x = 0; x < read.grid.columns(); ++x) {
                const chart::KeyIndex was = read.grid.at({x, y});
                if (was == chart::kBare || was >= rows) {
                    continue;
                }
                if (now[was] == chart::kBare) {
                    now[was] = static_cast<chart::KeyIndex>(read.key.size());
                    read.key.push_back(read.key[was]);
                    read.key.back().symbol = chart::letterSymbol(read.key.size());
                    read.key.back().code.clear();
                    read.key.back().name.clear();
                    read.key.back().pixel = chart::freePixel(read.key, read.key[was].pixel);
                }
                read.grid.set({x, y}, now[was]);
            }
        }
    }
    chart::recount(read);
    return tracing;
}

/// The dialog on two pages of a chart; the chart beside its page, and a sheet of one symbol.
bool saveTracing(app::MainWindow& window, const QString& folder, const QString& word,
                 const QString& end) {
    workbox::Document& document = window.session().document();
    const chart::Chart chart = *document.chart(document.charts().back().id);
    constexpr int kCell = 24;
    const trace::Tracing tracing = tracingOf(chart, kCell);
    app::Tracer tracer;
    tracer.pageCount = [](const QString&) { return 5; };
    tracer.readPage = [&](const QString& file, int number) {
        trace::Page page{file, number, QImage(1240, 1754, QImage::Format_BGR888), {}};
        page.picture.fill(Qt::white);
        QPainter painter(&page.picture);
        painter.drawImage(QRect(120, 260, 1000, 1000 * chart.grid.rows() / chart.grid.columns()),
                          tracing.straight);
        return page;
    };
    tracer.gridsOn = [&](const trace::Page&) {
        const double height = 1000.0 * chart.grid.rows() / chart.grid.columns();
        return std::vector<trace::FoundGrid>{
            {chart.grid.columns(), chart.grid.rows(),
             QPolygonF({{120, 260}, {1120, 260}, {1120, 260 + height}, {120, 260 + height}}),
             std::nullopt, std::nullopt}};
    };
    tracer.joined = [](std::span<const trace::Page>,
                       std::span<const std::vector<trace::FoundGrid>> grids) {
        std::vector<trace::Piece> pieces;
        int column = 0;
        for (std::size_t page = 0; page < grids.size(); ++page) {
            pieces.push_back({page, grids[page].front(), {column, 0}});
            column += grids[page].front().columns - 3;
        }
        return pieces;
    };
    bool good = true;
    const auto keep = [&](QWidget& widget, const char* name) {
        const QString path =
            folder + QLatin1Char('/') + QLatin1String(name) + word + end + QStringLiteral(".png");
        good &= widget.grab().save(path);
    };
    {
        app::TraceDialog dialog(window.session(), {QStringLiteral("harbour-pages.pdf")}, &window,
                                tracer);
        dialog.show();
        const auto idle = [&] { return QTest::qWaitFor([&] { return !dialog.isBusy(); }); };
        good &= idle();
        auto* pages = dialog.findChild<QListWidget*>();
        pages->item(1)->setCheckState(Qt::Checked);
        good &= idle();
        QTest::qWait(100);
        keep(dialog, "trace-dialog-");
    }
    const workbox::ChartId id = document.addTracedChart(tracing.chart, app::pageOf(tracing));
    window.show(app::PlaceId::Charts);
    window.session().chooseChart(id);
    app::ChartsState state = window.chartsPlace().state();
    state.pageView = app::PageView::Cells;
    state.row = static_cast<chart::KeyIndex>(chart.key.size() - 1);
    window.chartsPlace().setState(state);
    good &= save(window, folder, QStringLiteral("trace-cells-") + word, end);
    state.pageView = app::PageView::Symbols;
    state.row = chart::KeyIndex{1};
    window.chartsPlace().setState(state);
    auto& list = window.chartsPlace().tracedView().sheet().list();
    list.selectionModel()->select(list.model()->index(0, 0), QItemSelectionModel::Select);
    list.selectionModel()->select(list.model()->index(1, 0), QItemSelectionModel::Select);
    good &= save(window, folder, QStringLiteral("trace-sheet-") + word, end);
    list.clearSelection();
    QTest::keyClick(&list, Qt::Key_L);
    good &= save(window, folder, QStringLiteral("trace-pair-") + word, end);
    const trace::Tracing broken = highlighted(tracing);
    window.session().chooseChart(document.addTracedChart(broken.chart, app::pageOf(broken)));
    state = window.chartsPlace().state();
    state.pageView = app::PageView::All;
    window.chartsPlace().setState(state);
    auto& wall = window.chartsPlace().tracedView().wall().list();
    QTest::keyClick(&wall, Qt::Key_L);
    QTest::keyClick(&wall, Qt::Key_L);
    good &= save(window, folder, QStringLiteral("trace-all-") + word, end);
    document.undoStack().undo();
    document.undoStack().undo();
    return good;
}

} // namespace

int main(int argc, char* argv[]) {
    QApplication application(argc, argv);
    app::loadTexts(application);
    const QStringList words = QApplication::arguments().mid(1);
    const QString folder = words.value(0, QStringLiteral("."));
    const QString end = words.value(1);
    bool good = true;
    for (const app::Tone tone : {app::Tone::Light, app::Tone::Dark}) {
        const QTemporaryDir scratch;
        app::applyLook(application, tone);
        workbox::Document document(scratch.filePath(QStringLiteral("workbox.sqlite")));
        app::MainWindow window(document);
        window.QMainWindow::show();
        const QString word = app::wordOf(tone);
        if (tone == app::Tone::Light) {
            good &= save(window, folder, QStringLiteral("first-start"), end);
        }
        window.openDemo();
        if (tone == app::Tone::Dark) {
            window.session().chooseChart(document.charts().back().id);
        }
        good &= save(window, folder, QStringLiteral("recolour-") + word, end);
        window.show(app::PlaceId::Charts);
        window.session().chooseChart(document.charts().back().id);
        good &= save(window, folder, QStringLiteral("charts-") + word, end);
        good &= saveTracing(window, folder, word, end);
        window.show(app::PlaceId::Substitute);
        good &= save(window, folder, QStringLiteral("substitute-") + word, end);
        good &= saveGround(window, folder, word, end);
        if (tone == app::Tone::Light) {
            good &= saveDialogs(window, folder, end);
        }
        window.show(app::PlaceId::Threads);
        choose(window, QStringLiteral("LF-218"));
        good &= save(window, folder, QStringLiteral("threads-") + word, end);
    }
    return good ? 0 : 1;
}
