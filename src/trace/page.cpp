#include "trace/page.h"

#include "base/input_error.h"
#include "base/whole_file.h"
#include "trace/detail/negative.h"
#include "trace/detail/pdf_words.h"
#include "trace/detail/picture_file.h"

#include <QBuffer>
#include <QColorSpace>
#include <QCoreApplication>
#include <QFileInfo>
#include <QImageReader>
#include <QMutex>
#include <QPainter>
#include <QPdfDocument>

namespace otherskein::trace {

namespace {

struct PageTexts {
    Q_DECLARE_TR_FUNCTIONS(TracePage)
};

constexpr double kPointsPerInch = 72;
constexpr int kLeastSide = 64; // px; a grid of four cells each way

[[noreturn]] void refuse(const QString& source, const QString& expected, const QString& found) {
    throw base::InputError({source, std::nullopt, {}, expected, found});
}

bool isPdf(const QByteArray& bytes) {
    return bytes.left(1024).contains("%PDF-");
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

/// An open PDF with the buffer that it reads from.
struct Pdf {
    QBuffer buffer;
    QPdfDocument document{nullptr};

    Pdf(const QByteArray& bytes, const QString& source) {
        buffer.setData(bytes);
        buffer.open(QIODevice::ReadOnly);
        document.load(&buffer);
        const auto error = document.error();
        if (error == QPdfDocument::Error::IncorrectPassword) {
            refuse(source, PageTexts::tr("a PDF without a password"),
                   PageTexts::tr("one that asks for it"));
        }
        if (error == QPdfDocument::Error::UnsupportedSecurityScheme) {
            refuse(source, PageTexts::tr("a PDF without a lock"), PageTexts::tr("a locked one"));
        }
        if (document.status() != QPdfDocument::Status::Ready || document.pageCount() < 1) {
            refuse(source, PageTexts::tr("a whole PDF"), PageTexts::tr("a damaged or empty one"));
        }
        if (document.pageCount() > kMostPages) {
            refuse(source, PageTexts::tr("a PDF of at most %1 pages").arg(kMostPages),
                   QString::number(document.pageCount()));
        }
    }
};

void checkPageNumber(const QString& source, int number, int pages) {
    if (number < 1 || number > pages) {
        refuse(source, PageTexts::tr("a page from 1 to %1").arg(pages), QString::number(number));
    }
}

/// Clear parts become white, colours sRGB.
QImage printed(QImage picture) {
    if (picture.colorSpace().isValid() && picture.colorSpace() != QColorSpace(QColorSpace::SRgb)) {
        picture.convertToColorSpace(QColorSpace(QColorSpace::SRgb));
    }
    if (!picture.hasAlphaChannel()) {
        return picture.convertToFormat(QImage::Format_BGR888);
    }
    QImage paper(picture.size(), QImage::Format_RGB32);
    paper.fill(Qt::white);
    QPainter painter(&paper);
    painter.drawImage(0, 0, picture);
    painter.end();
    return paper.convertToFormat(QImage::Format_BGR888);
}

/// As a page is printed, dark on light.
QImage onPaper(QImage picture) {
    QImage paper = printed(std::move(picture));
    cv::Mat view(paper.height(), paper.width(), CV_8UC3, paper.bits(),
                 static_cast<std::size_t>(paper.bytesPerLine()));
    if (detail::isNegative(view)) {
        paper.invertPixels();
    }
    return paper;
}

Page pdfPage(const QByteArray& bytes, const QString& source, int number) {
    Pdf pdf(bytes, source);
    checkPageNumber(source, number, pdf.document.pageCount());
    const QSizeF points = pdf.document.pagePointSize(number - 1);
    const double scale = kPageDpi / kPointsPerInch;
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
    page.picture = onPaper(rendered);
    page.words = detail::wordsOf(pdf.document, number - 1, page.picture, scale);
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
QImage picturePage(const QByteArray& bytes, const QString& source) {
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
    return onPaper(picture);
}

} // namespace

int pageCount(const QString& path) {
    const QByteArray bytes = base::readWholeFile(path, kMostPageBytes);
    if (!isPdf(bytes)) {
        checkPicture(bytes, path);
        return 1;
    }
    return Pdf(bytes, path).document.pageCount();
}

Page readPage(const QString& path, int number) {
    const QByteArray bytes = base::readWholeFile(path, kMostPageBytes);
    if (isPdf(bytes)) {
        return pdfPage(bytes, path, number);
    }
    checkPageNumber(path, number, 1);
    Page page;
    page.source = path;
    page.picture = picturePage(bytes, path);
    return page;
}

} // namespace otherskein::trace
