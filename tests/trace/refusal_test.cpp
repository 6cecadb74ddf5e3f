// What is no chart, or no whole picture, is refused in one line; what is one comes through.
#include "base/input_error.h"
#include "drawn_page.h"
#include "trace/tracing.h"

#include "written_files.h"

#include <catch2/catch.hpp>

#include <QBuffer>
#include <QFile>
#include <QImageReader>
#include <QTemporaryDir>
#include <QtEndian>

#include <algorithm>

using namespace otherskein;

namespace {

struct Refusals : WrittenFiles {
    [[nodiscard]] QString ofReading(const QString& file) const {
        try {
            static_cast<void>(trace::readPage(file));
        } catch (const base::InputError& error) {
            return error.line().mid(file.size());
        }
        return {};
    }
};

QImage chartPicture() {
    DrawnPage drawn;
    drawn.columns = 20;
    drawn.rows = 16;
    drawn.cell = [](QPainter& painter, int column, int row) {
        if (const int which = kindAt(column, row, 4); which >= 0) {
            drawShape(painter, which);
        }
    };
    return drawn.page().picture;
}

QByteArray packed(const QImage& picture, const char* kind) {
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    picture.save(&buffer, kind);
    return buffer.data();
}

/// CRC-32 as in ISO/IEC 15948, annex D.
quint32 sumOf(const QByteArray& bytes) {
    quint32 sum = 0xffffffffU;
    for (const char byte : bytes) {
        sum ^= static_cast<unsigned char>(byte);
        for (int i = 0; i < 8; ++i) {
            sum = (sum >> 1U) ^ ((sum & 1U) != 0 ? 0xedb88320U : 0U);
        }
    }
    return ~sum;
}

QByteArray number(quint32 value) {
    QByteArray bytes(4, 0);
    qToBigEndian(value, bytes.data());
    return bytes;
}

QByteArray chunk(const QByteArray& name, const QByteArray& data) {
    return number(static_cast<quint32>(data.size())) + name + data + number(sumOf(name + data));
}

/// A PNG of red, green and blue, its pixels as zlib packed them.
QByteArray png(quint32 width, quint32 height, const QByteArray& pixels,
               const QByteArray& between = {}) {
    return QByteArray("\x89PNG\r\n\x1a\n") +
           chunk("IHDR", number(width) + number(height) + QByteArray("\x08\x02\0\0\0", 5)) +
           between + chunk("IDAT", pixels) + chunk("IEND", {});
}

QByteArray zlibOf(const QByteArray& bytes) {
    return qCompress(bytes).mid(4); // Qt puts the length before
}

/// Counts what libraries say while it stands.
struct Remarks {
    Remarks() {
        s_count = 0;
        before = qInstallMessageHandler([](QtMsgType /*type*/, const QMessageLogContext& /*where*/,
                                           const QString& /*text*/) { ++s_count; });
    }
    Remarks(const Remarks&) = delete;
    Remarks& operator=(const Remarks&) = delete;
    ~Remarks() { qInstallMessageHandler(before); }

    QtMessageHandler before;
    inline static int s_count = 0;
};

} // namespace

TEST_CASE("pictures that are cut short are refused as such") {
    const Refusals refusals;
    const QImage picture = chartPicture();
    const QString cut = QStringLiteral(": expected a whole picture, found one that is cut short");
    for (const char* kind : {"png", "jpg"}) {
        const QByteArray whole = packed(picture, kind);
        const QString name = QStringLiteral("page.%1").arg(QLatin1String(kind));
        CHECK(refusals.ofReading(refusals.write(name, whole)).isEmpty());
        for (const qsizetype kept : {whole.size() - 2, whole.size() / 2, qsizetype{400}}) {
            CAPTURE(kind, kept);
            const Remarks remarks;
            CHECK(refusals.ofReading(refusals.write(name, whole.first(kept))) == cut);
            CHECK(Remarks::s_count == 0);
        }
    }
}

TEST_CASE("a PNG whose pixels do not go with its head is refused before it is decoded") {
    const Refusals refusals;
    const QString damaged = QStringLiteral(": expected a whole picture, found a damaged one");
    const QByteArray right = zlibOf(QByteArray(100 * 301, 0));
    const QString name = QStringLiteral("page.png");
    const Remarks remarks;
    CHECK(refusals.ofReading(refusals.write(name, png(100, 100, right))).isEmpty());
    CHECK(refusals.ofReading(refusals.write(name, png(100, 200, right))) == damaged);
    CHECK(refusals.ofReading(refusals.write(name, png(100, 90, right))) == damaged);
    CHECK(refusals.ofReading(refusals.write(name, png(100, 100, "no stream"))) == damaged);
    CHECK(refusals.ofReading(refusals.write(name, png(0, 0, right))) == damaged);
    CHECK(refusals.ofReading(refusals.write(name, png(2'000'000'000, 2'000'000'000, right)))
              .contains(QStringLiteral("at most 48 million pixels")));
    QByteArray flipped = png(100, 100, right);
    flipped[60] = static_cast<char>(flipped[60] ^ 1);
    CHECK(refusals.ofReading(refusals.write(name, flipped)) == damaged);
    // A profile that says nonsense does not matter.
    const QByteArray profile =
        chunk("iCCP", QByteArray("x\0\0", 3) + zlibOf(QByteArray(300, 'n'))) +
        chunk("tIME", QByteArray("nonsense"));
    CHECK(refusals.ofReading(refusals.write(name, png(100, 100, right, profile))).isEmpty());
}

TEST_CASE("a page of 47 megapixels with 16 bits is read, and Qt's own limit stands as before") {
    const Refusals refusals;
    QImage large(6800, 6900, QImage::Format_RGBX64);
    large.fill(Qt::white);
    const QString file = refusals.path(QStringLiteral("large.png"));
    REQUIRE(large.save(file, "png", 50));
    const QSize size = large.size();
    large = {};
    const int before = QImageReader::allocationLimit();
    CHECK(trace::readPage(file).picture.size() == size);
    CHECK(QImageReader::allocationLimit() == before);
}

TEST_CASE("a negative is turned over and traced like the page") {
    const Refusals refusals;
    QImage picture = chartPicture();
    const QString page = refusals.path(QStringLiteral("page.png"));
    REQUIRE(picture.save(page));
    picture.invertPixels();
    const QString negative = refusals.path(QStringLiteral("negative.png"));
    REQUIRE(picture.save(negative));
    CHECK(trace::readPage(negative).picture == trace::readPage(page).picture);
    const trace::Tracing right = trace::tracedPage(page, 1);
    const trace::Tracing turned = trace::tracedPage(negative, 1);
    CHECK(std::ranges::equal(turned.chart.grid.cells(), right.chart.grid.cells()));
    CHECK(turned.chart.key.size() == right.chart.key.size());
}

TEST_CASE("a dark page with light paper on it is no negative") {
    const Refusals refusals;
    const QImage picture = chartPicture();
    QImage desk(picture.width() * 2, picture.height() * 2, QImage::Format_RGB32);
    desk.fill(QColor(20, 20, 20));
    QPainter painter(&desk);
    painter.drawImage(picture.width() / 2, picture.height() / 2, picture);
    painter.end();
    const QString file = refusals.path(QStringLiteral("desk.png"));
    REQUIRE(desk.save(file));
    CHECK(trace::readPage(file).picture.pixelColor(5, 5).lightness() < 40);
}

TEST_CASE("squares with another picture in each are no chart") {
    const Refusals refusals;
    DrawnPage drawn;
    drawn.columns = 20;
    drawn.rows = 14;
    drawn.cell = [](QPainter& painter, int column, int row) {
        std::mt19937 random(static_cast<unsigned>(column * 331 + row));
        std::uniform_int_distribution<int> level(30, 255);
        painter.fillRect(QRectF(0, 0, 100, 100),
                         QColor(level(random), level(random), level(random)));
        painter.setBrush(QColor(level(random), level(random), level(random)));
        painter.drawEllipse(QPointF(level(random) / 4.0, level(random) / 4.0), 30, 20);
    };
    const QString file = refusals.path(QStringLiteral("scrawls.png"));
    REQUIRE(drawn.page().picture.save(file));
    try {
        static_cast<void>(trace::tracedPage(file, 1));
        FAIL("taken for a chart");
    } catch (const base::InputError& error) {
        CHECK(
            error.line().startsWith(file + QStringLiteral(": expected a chart whose symbols recur, "
                                                          "found ")));
    }
}

TEST_CASE("writing on squared paper is no chart") {
    const Refusals refusals;
    DrawnPage drawn;
    drawn.columns = 50;
    drawn.rows = 40;
    drawn.pitch = 20;
    drawn.left = 40;
    drawn.top = 40;
    drawn.over = [](QPainter& painter) {
        QFont font = painter.font();
        font.setPixelSize(30);
        font.setItalic(true);
        painter.setFont(font);
        painter.setPen(QColor(30, 40, 110));
        const char* const words[] = {"the pump wants new washers", "grey yarn for the jetty",
                                     "we shall come on Sunday", "bring six quinces along"};
        for (int line = 0; line < 20; ++line) {
            painter.drawText(QPointF(50 + 3 * (line % 5), 75 + 37.3 * line),
                             QString::fromLatin1(words[line * 3 % 4]) + QLatin1Char(' ') +
                                 QString::fromLatin1(words[(line + 1) % 4]));
        }
    };
    const QString file = refusals.path(QStringLiteral("writing.png"));
    REQUIRE(drawn.page().picture.save(file));
    QString line;
    try {
        const trace::Tracing tracing = trace::tracedPage(file, 1);
        line = QStringLiteral("%1 kinds").arg(tracing.chart.key.size());
    } catch (const base::InputError& error) {
        line = error.line();
    }
    INFO(line.toStdString());
    CHECK(line.contains(QStringLiteral("kinds in")));
}
