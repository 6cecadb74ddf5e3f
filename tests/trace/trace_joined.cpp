// Traces every page of a PDF that has a grid, joins them and writes the chart, as the window does
// without a hand's help: for tests/pages/score_pages.py, which knows the truth.
//
//     trace_joined CHART.pdf OUT.png OUT.csv
#include "base/input_error.h"
#include "chart/chart_files.h"
#include "trace/tracing.h"

#include <QElapsedTimer>
#include <QGuiApplication>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <iostream>

using namespace otherskein;

namespace {

QJsonObject joinedPages(const QString& path, const QString& picture, const QString& key) {
    QElapsedTimer clock;
    clock.start();
    std::vector<trace::Page> pages;
    std::vector<std::vector<trace::FoundGrid>> grids;
    for (int number = 1; number <= trace::pageCount(path); ++number) {
        pages.push_back(trace::readPage(path, number));
        grids.push_back(trace::gridsOn(pages.back()));
        if (grids.back().size() > 1) {
            grids.back().resize(1);
        }
    }
    const std::vector<trace::Piece> pieces = trace::joined(pages, grids);
    if (pieces.empty()) {
        throw base::InputError({path, std::nullopt, {}, QStringLiteral("pages with grids"), {}});
    }
    const trace::Tracing tracing = *trace::traced(pages, pieces);
    chart::writeChart(tracing.chart, picture, key, base::Existing::Replace);
    QJsonArray places;
    for (const trace::Piece& piece : pieces) {
        places.append(QJsonArray{static_cast<int>(piece.page) + 1, piece.place.column,
                                 piece.place.row, piece.grid.columns, piece.grid.rows});
    }
    QJsonArray doubtful;
    for (const chart::Cell& cell : tracing.doubtful()) {
        doubtful.append(QJsonArray{cell.column, cell.row});
    }
    return {{QStringLiteral("columns"), tracing.chart.grid.columns()},
            {QStringLiteral("rows"), tracing.chart.grid.rows()},
            {QStringLiteral("pieces"), places},
            {QStringLiteral("doubtful"), doubtful},
            {QStringLiteral("seconds"), static_cast<double>(clock.elapsed()) / 1000}};
}

} // namespace

int main(int argc, char* argv[]) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QGuiApplication application(argc, argv);
    const QStringList words = QGuiApplication::arguments();
    if (words.size() != 4) {
        std::cerr << "trace_joined CHART.pdf OUT.png OUT.csv\n";
        return 2;
    }
    try {
        const QJsonObject answer = joinedPages(words[1], words[2], words[3]);
        std::cout << QJsonDocument(answer).toJson(QJsonDocument::Compact).toStdString() << '\n';
    } catch (const base::InputError& error) {
        std::cerr << error.what() << '\n';
        return 2;
    }
    return 0;
}
