#include "trace/page.h"

#include "base/input_error.h"
#include "base/whole_file.h"
#include "trace/detail/negative.h"
#include "trace/detail/on_paper.h"
#include "trace/detail/pdf_file.h"
#include "trace/detail/pdf_words.h"
#include "trace/detail/picture_file.h"
#include "trace/detail/views.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QFileInfo>
#include <QImageReader>
#include <QMutex>

namespace otherskein::trace {

namespace {

struct PageTexts {
    Q_DECLARE_TR_FUNCTIONS(TracePage)
};

constexpr int kLeastSide = 64; // px; a grid of four cells each way

[[noreturn]] void refuse(const QString& source, const QString& expected, const QString& found) {
    throw base::InputError({source, std::nullopt, {}, expected, found});
}

void checkPixels(const QString& source, double width, double height) {
    if (width * height > static_cast<double>(kMostPagePixels)) {
        refuse(
            source,
            PageTexts::tr("a page of at most %1 million pixels").arg(kMostPagePixels / 1'000'000),
            PageTexts::tr("%1 × %2").arg(width, 0, 'f', 0).arg(height, 0, 'f', 0));
    }
    if (width < kLeastSide || height < kLeastSide) {
        refuse(source, PageTexts::tr("a page of at least %1 × %1 pixels").arg(kLeastSide),
               PageTexts::tr("%1 × %2").arg(width, 0, 'f', 0).arg(height, 0, 'f', 0));
    }
}

void checkPageNumber(const QString& source, int number, int pages) {
    if (number < 1 || number > pages) {
        refuse(source, PageTexts::tr("a page from 1 to %1").arg(pages), QString::number(number));
    }
}

/// As a page is printed, dark on light.
void putOnPaper(QImage picture, Page& page) {
    page.picture = detail::printed(std::move(picture));
    page.isTurnedOver = detail::isNegative(detail::viewOf(page.picture));
    if (page.isTurnedOver) {
        page.picture.invertPixels();
    }
}

Page pdfPage(const QByteArray& bytes, const QString& source, int number) {
    detail::PdfFile pdf(bytes, source);
    checkPageNumber(source, number, pdf.document.pageCount());
    const QSizeF points = pdf.document.pagePointSize(number - 1);
    const double scale = kPageDpi / detail::kPointsPerInch;
    checkPixels(source, points.width() * scale, points.height() * scale);
    const QSize size(qRound(points.width() * scale), qRound(points.height() * scale));
    Page page;
    page.source = source;
    page.number = number;
    const QImage rendered = pdf.document.render(number - 1, size);
    if (rendered.isNull()) {
        refuse(source, PageTexts::tr("a page that can be drawn"),
               PageTexts::tr("page %1 cannot").arg(number));
    }
    putOnPaper(rendered, page);
    if (bytes.size() <= kMostKeptBytes) {
        page.pdf = bytes;
    }
    page.words = detail::wordsOf(pdf.document, bytes, number - 1, page.picture, scale);
    return page;
}

void checkPicture(const QByteArray& bytes, const QString& source) {
    QBuffer buffer;
    buffer.setData(bytes);
    buffer.open(QIODevice::ReadOnly);
    const QByteArray format = QImageReader::imageFormat(&buffer);
    if (format != "png" && format != "jpeg" && format != "jpg") {
        refuse(source, PageTexts::tr("a PDF, PNG or JPEG"),
               bytes.isEmpty() ? PageTexts::tr("an empty file")
                               : PageTexts::tr("another kind of file"));
    }
}

/// Lets pictures of up to kMostPagePixels through while one is read; Qt's own limit is one for the
/// whole program, so those who read wait for each other.
class RoomForPage {
  public:
    RoomForPage() {
        constexpr qint64 kMostBytesPerPixel = 8; // 16 bits of four channels
        constexpr int kMost = static_cast<int>(kMostPagePixels * kMostBytesPerPixel >> 20) + 2;
        QImageReader::setAllocationLimit(m_before == 0 ? 0 : std::max(m_before, kMost));
    }
    RoomForPage(const RoomForPage&) = delete;
    RoomForPage& operator=(const RoomForPage&) = delete;
    ~RoomForPage() { QImageReader::setAllocationLimit(m_before); }

  private:
    inline static QMutex m_one;
    QMutexLocker<QMutex> m_alone{&m_one};
    int m_before = QImageReader::allocationLimit(); // megabytes; 0 is none
};

void checkWhole(const QString& source, detail::Wholeness wholeness) {
    if (wholeness != detail::Wholeness::Whole) {
        refuse(source, PageTexts::tr("a whole picture"),
               wholeness == detail::Wholeness::CutShort ? PageTexts::tr("one that is cut short")
                                                        : PageTexts::tr("a damaged one"));
    }
}

/// The picture, its size and its end looked at before it is decoded.
QImage pictureOf(const QByteArray& bytes, const QString& source) {
    checkPicture(bytes, source);
    const bool isPng = bytes.startsWith("\x89PNG");
    if (isPng) {
        const detail::PngHead head = detail::pngHead(bytes);
        if (head.width > 0) {
            checkPixels(source, head.width, head.height);
        }
        checkWhole(source, detail::pngWholeness(bytes));
    } else {
        checkWhole(source, detail::jpegWholeness(bytes));
    }
    QBuffer buffer;
    buffer.setData(isPng ? detail::neededChunks(bytes) : bytes);
    buffer.open(QIODevice::ReadOnly);
    const RoomForPage room;
    QImageReader reader(&buffer);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (!size.isValid()) {
        checkWhole(source, detail::Wholeness::Damaged);
    }
    checkPixels(source, size.width(), size.height());
    const QImage picture = reader.read();
    if (picture.isNull()) {
        checkWhole(source, detail::Wholeness::Damaged);
    }
    return picture;
}

} // namespace

int pageCount(const QString& path) {
    const QByteArray bytes = base::readWholeFile(path, kMostPageBytes);
    if (!detail::isPdf(bytes)) {
        checkPicture(bytes, path);
        return 1;
    }
    return detail::PdfFile(bytes, path).document.pageCount();
}

Page readPage(const QString& path, int number) {
    const QByteArray bytes = base::readWholeFile(path, kMostPageBytes);
    if (detail::isPdf(bytes)) {
        return pdfPage(bytes, path, number);
    }
    checkPageNumber(path, number, 1);
    Page page;
    page.source = path;
    putOnPaper(pictureOf(bytes, path), page);
    return page;
}

} // namespace otherskein::trace
