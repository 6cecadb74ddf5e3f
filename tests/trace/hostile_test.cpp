// Files that were damaged by chance or made to harm: each is a page, or refused in one line.
#include "base/input_error.h"
#include "drawn_page.h"
#include "trace/tracing.h"

#include <catch2/catch.hpp>

#include <QBuffer>
#include <QFile>
#include <QPageSize>
#include <QPdfWriter>
#include <QTemporaryDir>

#include <cstdlib>

using namespace otherskein;

namespace {

/// A small chart page in each kind of file.
QByteArray small(const char* kind) {
    DrawnPage drawn;
    drawn.columns = 12;
    drawn.rows = 9;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int which = kindAt(column, row, 4); which >= 0) {
            drawShape(painter, which);
        }
    };
    const QImage picture = drawn.page().picture.copy(120, 100, 460, 360);
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    if (qstrcmp(kind, "pdf") != 0) {
        picture.save(&buffer, kind);
        return buffer.data();
    }
    QPdfWriter writer(&buffer);
    writer.setPageSize(QPageSize(QSizeF(120, 95), QPageSize::Millimeter));
    QPainter painter(&writer);
    painter.drawImage(QRectF(0, 0, writer.width(), writer.height()), picture);
    painter.drawText(QPointF(100, 200), QStringLiteral("Heron 12 QV471"));
    painter.end();
    return buffer.data();
}

void damage(QByteArray& bytes, std::mt19937& random) {
    const auto below = [&random](qsizetype count) {
        return static_cast<qsizetype>(random() % static_cast<std::size_t>(count));
    };
    const auto edits = static_cast<int>(1 + random() % 6);
    for (int i = 0; i < edits && bytes.size() > 8; ++i) {
        switch (random() % 6) {
        case 0: // bits, mostly near the head, where sizes stand
            bytes[below(random() % 2 == 0 ? std::min<qsizetype>(bytes.size(), 64)
                                          : bytes.size())] ^= static_cast<char>(1U << random() % 8);
            break;
        case 1:
            bytes.truncate(1 + below(bytes.size()));
            break;
        case 2: { // four bytes of a large number
            const qsizetype at = below(std::min<qsizetype>(bytes.size() - 4, 200));
            bytes.replace(at, 4, QByteArray::fromHex(random() % 2 == 0 ? "7fffffff" : "ffffffff"));
            break;
        }
        case 3: { // a piece is gone
            const qsizetype at = below(bytes.size());
            bytes.remove(at, below(200));
            break;
        }
        case 4: { // a piece stands twice
            const qsizetype at = below(bytes.size());
            bytes.insert(below(bytes.size()), bytes.mid(at, below(300)));
            break;
        }
        default: { // digits of a PDF's numbers
            for (qsizetype k = below(bytes.size()); k < bytes.size(); ++k) {
                if (bytes[k] >= '0' && bytes[k] <= '9') {
                    bytes.replace(k, 1, random() % 2 == 0 ? "9999999" : "-");
                    break;
                }
            }
        }
        }
    }
}

/// Reads and traces; what is refused is refused in one line.
void readAll(const QString& path) {
    try {
        static_cast<void>(trace::pageCount(path));
        const trace::Tracing tracing = trace::tracedPage(path, 1);
        CHECK(tracing.chart.isConsistent());
        CHECK(tracing.confidence.size() == tracing.chart.grid.cells().size());
    } catch (const base::InputError& error) {
        CHECK_FALSE(error.line().isEmpty());
        CHECK_FALSE(error.line().contains(QLatin1Char('\n')));
    }
}

} // namespace

TEST_CASE("damaged files are pages or refused in one line") {
    const QTemporaryDir folder;
    // More turns on request, as under the sanitizers; each takes a hundredth of a second or so.
    const QByteArray asked = qgetenv("OTHERSKEIN_HOSTILE_TURNS");
    const int turns = asked.isEmpty() ? 40 : asked.toInt();
    for (const char* kind : {"pdf", "png", "jpg"}) {
        const QByteArray whole = small(kind);
        REQUIRE(whole.size() > 1000);
        std::mt19937 random(29);
        for (int turn = 0; turn < turns; ++turn) {
            CAPTURE(kind, turn);
            QByteArray bytes = whole;
            damage(bytes, random);
            const QString path =
                folder.filePath(QStringLiteral("page.%1").arg(QLatin1String(kind)));
            QFile file(path);
            REQUIRE(file.open(QIODevice::WriteOnly));
            file.write(bytes);
            file.close();
            readAll(path);
        }
    }
}
