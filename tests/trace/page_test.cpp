#include "trace/page.h"

#include "base/input_error.h"

#include "written_files.h"

#include <catch2/catch.hpp>

#include <QFile>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QTemporaryDir>

#include <algorithm>

using namespace otherskein;

namespace {

struct PageFolder : WrittenFiles {
    QString writePdf(const QString& name, int pages) const {
        QPdfWriter writer(path(name));
        writer.setPageSize(QPageSize(QPageSize::A5));
        QPainter painter(&writer);
        for (int i = 0; i < pages; ++i) {
            if (i > 0) {
                writer.newPage();
            }
            painter.drawText(QPoint(600, 900), QStringLiteral("Harbour %1").arg(i + 1));
            painter.drawText(QPoint(600, 1800), QStringLiteral("42"));
        }
        return path(name);
    }
    [[nodiscard]] QString refusal(const QString& file, int number = 1) const {
        try {
            const trace::Page page = trace::readPage(file, number);
        } catch (const base::InputError& error) {
            return error.line().mid(file.size());
        }
        return {};
    }
};

} // namespace

TEST_CASE("a PDF's page comes at 300 dpi with its words where they stand") {
    const PageFolder folder;
    const QString file = folder.writePdf(QStringLiteral("two.pdf"), 2);
    CHECK(trace::pageCount(file) == 2);
    const trace::Page page = trace::readPage(file, 2);
    CHECK(std::abs(page.picture.width() - 1748) <= 2); // 148 mm
    CHECK(page.picture.format() == QImage::Format_BGR888);
    QStringList words;
    for (const trace::Word& word : page.words) {
        words << word.text;
        CHECK(QRectF(page.picture.rect()).contains(word.box));
        CHECK(word.box.width() > 5);
    }
    CHECK(words.contains(QStringLiteral("Harbour")));
    CHECK(words.contains(QStringLiteral("42")));
}

TEST_CASE("words of a page that does not begin at the paper's corner stand where it shows them") {
    const PageFolder folder;
    const QString path = folder.writePdf(QStringLiteral("cut.pdf"), 1);
    QFile file(path);
    REQUIRE(file.open(QIODevice::ReadOnly));
    QByteArray bytes = file.readAll();
    file.close();
    // As many bytes as before: the file's own table says where its parts begin.
    const auto at = bytes.indexOf("/MediaBox [0 0 4");
    REQUIRE(at >= 0);
    bytes.replace(at, 14, "/MediaBox [7 9");
    REQUIRE(file.open(QIODevice::WriteOnly));
    file.write(bytes);
    file.close();
    const trace::Page page = trace::readPage(path);
    REQUIRE(page.words.size() == 3);
    for (const trace::Word& word : page.words) {
        int ink = 0;
        const QRect box = word.box.toAlignedRect();
        for (int y = box.top(); y <= box.bottom(); ++y) {
            for (int x = box.left(); x <= box.right(); ++x) {
                ink += qGray(page.picture.pixel(x, y)) < 128 ? 1 : 0;
            }
        }
        INFO(word.text.toStdString());
        CHECK(ink > 20);
    }
}

TEST_CASE("a page of ten thousand letters tells its words where they stand") {
    const PageFolder folder;
    const QString file = folder.path(QStringLiteral("letters.pdf"));
    std::vector<std::pair<QString, QPointF>> wanted; // left end of the baseline, px
    {
        QPdfWriter writer(file);
        writer.setPageSize(QPageSize(QPageSize::A4));
        writer.setPageMargins(QMarginsF(0, 0, 0, 0));
        writer.setResolution(trace::kPageDpi);
        QPainter painter(&writer);
        QFont font(QStringLiteral("DejaVu Sans"));
        font.setPixelSize(20);
        painter.setFont(font);
        const auto say = [&](double x, double y, const QString& text) {
            painter.drawText(QPointF(x, y), text);
            wanted.emplace_back(text, QPointF(x, y));
        };
        for (int i = 0; i < 12; ++i) {
            say(200, 3000 + 30 * i, QStringLiteral("QV%1").arg(100 + i));
            say(420, 3000 + 30 * i, QStringLiteral("Heron"));
            say(900, 3000 + 30 * i, QStringLiteral("%1").arg(400 + i));
        }
        for (int i = 0; i < 10'000; ++i) {
            painter.drawText(QPointF(200 + 20 * (i % 100), 300 + 24 * (i / 100)), // NOLINT
                             QString(QChar(u'a' + (i * i / 7) % 23)));
        }
        for (int i = 1; i <= 10; ++i) {
            say(180 + 200 * i, 270, QString::number(10 * i));
        }
        painter.rotate(-90);
        painter.drawText(QPointF(-500, 150), QStringLiteral("77"));
    }
    const trace::Page page = trace::readPage(file);
    for (const auto& [text, at] : wanted) {
        CAPTURE(text.toStdString(), at.x(), at.y());
        CHECK(std::ranges::any_of(page.words, [&](const trace::Word& word) {
            return word.text == text && std::abs(word.box.left() - at.x()) < 6 &&
                   std::abs(word.box.bottom() - at.y()) < 6;
        }));
    }
    CHECK(std::ranges::any_of(page.words, [&](const trace::Word& word) {
        return word.text == QStringLiteral("77") && word.box.contains(140, 490);
    }));
}

TEST_CASE("clear parts of a picture are paper") {
    const PageFolder folder;
    QImage picture(100, 80, QImage::Format_ARGB32);
    picture.fill(Qt::transparent);
    picture.save(folder.path(QStringLiteral("clear.png")));
    const trace::Page page = trace::readPage(folder.path(QStringLiteral("clear.png")));
    CHECK(page.picture.pixelColor(50, 40) == QColor(Qt::white));
}

TEST_CASE("what is no page is refused in one line") {
    const PageFolder folder;
    CHECK(folder.refusal(folder.write(QStringLiteral("a.png"), "plain words")) ==
          QStringLiteral(": expected a PDF, PNG or JPEG, found another kind of file"));
    CHECK(folder.refusal(folder.write(QStringLiteral("b.pdf"), "")) ==
          QStringLiteral(": expected a PDF, PNG or JPEG, found an empty file"));
    CHECK(folder.refusal(folder.write(QStringLiteral("c.pdf"), "%PDF-1.4\nnothing more")) ==
          QStringLiteral(": expected a whole PDF, found a damaged or empty one"));
    const QString two = folder.writePdf(QStringLiteral("two.pdf"), 2);
    CHECK(folder.refusal(two, 3) == QStringLiteral(": expected a page from 1 to 2, found 3"));
    QImage small(20, 20, QImage::Format_RGB32);
    small.fill(Qt::white);
    small.save(folder.path(QStringLiteral("small.png")));
    CHECK(folder.refusal(folder.path(QStringLiteral("small.png"))) ==
          QStringLiteral(": expected a page of at least 64 × 64 pixels, found 20 × 20"));
}

TEST_CASE("a page of 100 megapixels is refused by its header") {
    const PageFolder folder;
    QImage huge(10'000, 10'000, QImage::Format_Mono);
    huge.fill(1);
    huge.save(folder.path(QStringLiteral("huge.png")));
    CHECK(folder.refusal(folder.path(QStringLiteral("huge.png"))) ==
          QStringLiteral(": expected a page of at most 48 million pixels, found 10000 × 10000"));
}
