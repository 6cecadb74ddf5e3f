#include "trace/tracing.h"

#include "chart/chart_files.h"
#include "cli/detail/answer.h"
#include "cli/detail/chart_job.h"
#include "cli/detail/command_line.h"
#include "cli/detail/values.h"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QJsonArray>
#include <QJsonObject>

#include <numeric>
#include <ostream>
#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace otherskein::cli {

namespace {

struct TraceTexts {
    Q_DECLARE_TR_FUNCTIONS(TraceCommand)
};

CommandLine traceLine() {
    CommandLine line(
        QStringLiteral("otherskein trace"),
        TraceTexts::tr("Reads a printed chart from a page, a PDF or a picture of 150 dpi or more, "
                       "and\nlists the cells to look at. For your own stitching: share the thread "
                       "list, not the\ndesigner's chart."),
        CommandLine::Takes::Files, TraceTexts::tr("PAGE.pdf|PAGE.png|PAGE.jpg"));
    line.value("--page", TraceTexts::tr("N"), TraceTexts::tr("page of a PDF, from 1 (usual: 1)"));
    line.value("--out", TraceTexts::tr("PNG"), TraceTexts::tr("write the chart's picture here"));
    line.value("--out-key", TraceTexts::tr("CSV"), TraceTexts::tr("write its key here"));
    line.flag("--force", TraceTexts::tr("replace files that stand already"));
    line.flag("--json", TraceTexts::tr("print one JSON document"));
    line.footer(TraceTexts::tr("Example:\n"
                               "  otherskein trace harbour.pdf --page 2 --out harbour.png "
                               "--out-key harbour.key.csv"));
    return line;
}

QJsonObject traceJson(const trace::Tracing& tracing, double seconds) {
    QJsonArray doubtful;
    for (const chart::Cell& cell : tracing.doubtful()) {
        doubtful.append(QJsonArray{cell.column, cell.row});
    }
    const auto counts = chart::stitchCounts(tracing.chart.grid, tracing.chart.key.size());
    return {{QStringLiteral("columns"), tracing.chart.grid.columns()},
            {QStringLiteral("rows"), tracing.chart.grid.rows()},
            {QStringLiteral("symbols"), static_cast<int>(tracing.chart.key.size())},
            {QStringLiteral("stitches"), std::accumulate(counts.begin(), counts.end(), 0)},
            {QStringLiteral("doubtful"), doubtful},
            {QStringLiteral("seconds"), seconds}};
}

QString traceText(const trace::Tracing& tracing, double seconds) {
    const QJsonObject facts = traceJson(tracing, seconds);
    QStringList lines;
    lines << TraceTexts::tr("%1 × %2 cells, %3 symbols, %4 stitches, read in %5 s")
                 .arg(facts[QStringLiteral("columns")].toInt())
                 .arg(facts[QStringLiteral("rows")].toInt())
                 .arg(facts[QStringLiteral("symbols")].toInt())
                 .arg(facts[QStringLiteral("stitches")].toInt())
                 .arg(seconds, 0, 'f', 1);
    for (const chart::KeyRow& row : tracing.chart.key) {
        lines << QStringLiteral("  %1  %2  %3  %4")
                     .arg(row.symbol, -3)
                     .arg(row.stitches, 6)
                     .arg(row.code, row.name)
                     .trimmed()
                     .prepend(QStringLiteral("  "));
    }
    const auto doubtful = tracing.doubtful();
    lines << (doubtful.empty()
                  ? TraceTexts::tr("No doubtful cells.")
                  : TraceTexts::tr("Doubtful cells, to look at (%1), column and row from 1:")
                        .arg(doubtful.size()));
    constexpr std::size_t kMostShown = 40;
    QStringList places;
    for (std::size_t i = 0; i < std::min(kMostShown, doubtful.size()); ++i) {
        places << QStringLiteral("%1,%2").arg(doubtful[i].column + 1).arg(doubtful[i].row + 1);
    }
    if (!places.isEmpty()) {
        lines << QStringLiteral("  ") + places.join(QLatin1Char(' ')) +
                     (doubtful.size() > kMostShown ? QStringLiteral(" …") : QString());
    }
    lines << TraceTexts::tr("For your own stitching: share the thread list, not the designer's "
                            "chart.");
    return lines.join(QLatin1Char('\n'));
}

/// While a page is read, the libraries' own remarks on it stay off the error output: what is wrong
/// with a page is one line.
class QuietLibraries {
  public:
    QuietLibraries() { s_before = qInstallMessageHandler(pass); }
    QuietLibraries(const QuietLibraries&) = delete;
    QuietLibraries& operator=(const QuietLibraries&) = delete;
    ~QuietLibraries() { qInstallMessageHandler(s_before); }

  private:
    static void pass(QtMsgType type, const QMessageLogContext& context, const QString& text) {
        const QByteArrayView from(context.category);
        if (type != QtFatalMsg && (from.startsWith("qt.gui.") || from.startsWith("qt.pdf"))) {
            return;
        }
        if (s_before != nullptr) {
            s_before(type, context, text);
        }
    }

    inline static QtMessageHandler s_before = nullptr;
};

/// Pictures of a page come and go by the dozen; handed back to the system in between, their memory
/// is paid for page by page each time. The command ends soon after.
void keepFreedMemory() {
#ifdef __GLIBC__
    mallopt(M_MMAP_THRESHOLD, 32 << 20); // the most that is allowed
    mallopt(M_TRIM_THRESHOLD, 1 << 30);
    mallopt(M_TOP_PAD, 64 << 20);
#endif
}

} // namespace

void runTrace(Call call) {
    CommandLine line = traceLine();
    if (!line.read(call)) {
        return;
    }
    const auto refuse = [](const QString& expected, const QString& found) {
        throw badWord(QStringLiteral("otherskein trace"), expected, found);
    };
    const QStringList& files = line.rest();
    if (files.size() != 1) {
        refuse(TraceTexts::tr("one page, a PDF, PNG or JPEG"), QString::number(files.size()));
    }
    for (const char* option : {"--out", "--out-key"}) {
        if (!line.has(option)) {
            refuse(TraceTexts::tr("%1 with a file to write").arg(QString::fromLatin1(option)),
                   TraceTexts::tr("none"));
        }
    }
    const int page = wholeNumber(line, "--page", 1, trace::kMostPages, 1);
    keepFreedMemory();
    QElapsedTimer clock;
    clock.start();
    const trace::Tracing tracing = [&] {
        const QuietLibraries quiet;
        return trace::tracedPage(files.front(), page);
    }();
    const double seconds = static_cast<double>(clock.elapsed()) / 1000;
    chart::writeChart(tracing.chart, *line.word("--out"), *line.word("--out-key"),
                      existingOf(line));
    if (line.has("--json")) {
        print(call.out, traceJson(tracing, seconds));
    } else {
        print(call.out, traceText(tracing, seconds));
    }
}

} // namespace otherskein::cli
