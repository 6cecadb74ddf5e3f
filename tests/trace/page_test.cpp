#include "trace/page.h"

#include "base/input_error.h"

#include <catch2/catch.hpp>

#include <QFile>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QTemporaryDir>

using namespace otherskein;

namespace {

struct PageFolder {
    QTemporaryDir folder;

    [[nodiscard]] QString path(const QString& name) const { return folder.filePath(name); }
    QString write(const QString& name, const QByteArray& bytes) const {
        QFile file(path(name));
        REQUIRE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
        return path(name);
    }
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
