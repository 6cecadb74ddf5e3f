// Any bytes are backstitch lines or one InputError; lines come back equal from their own file.
#include "base/input_error.h"
#include "chart/lines_csv.h"

#include <QString>
#include <QStringList>

#include <cstddef>
#include <cstdint>
#include <cstdlib>

using namespace otherskein;

namespace {

void expect(bool held) {
    if (!held) {
        std::abort();
    }
}

chart::Key keyOf(const QStringList& symbols) {
    chart::Key key;
    for (const QString& symbol : symbols) {
        chart::KeyRow row;
        row.symbol = symbol;
        key.push_back(row);
    }
    return key;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const QByteArray bytes(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size));
    const QString source = QStringLiteral("c.lines.csv");
    const chart::Grid grid(20, 9);
    const chart::Key key =
        keyOf({QStringLiteral("S"), QStringLiteral("=,"), QStringLiteral("\""), QString(),
               QStringLiteral("T"), QStringLiteral(" T"), QStringLiteral("'=1")});
    std::vector<chart::Line> lines;
    try {
        lines = chart::parseLines(bytes, source, grid, key);
    } catch (const base::InputError& error) {
        expect(!error.line().isEmpty() && !error.line().contains(u'\n'));
        return 0;
    }
    // From here on nothing may be refused.
    chart::Chart whole;
    whole.grid = grid;
    whole.key = key;
    for (std::size_t i = 0; i < whole.key.size(); ++i) {
        whole.key[i].pixel.b = static_cast<std::uint8_t>(i);
    }
    whole.lines = lines;
    expect(whole.isConsistent());
    expect(chart::parseLines(chart::linesCsv(lines, key), source, grid, key) == lines);
    return 0;
}
