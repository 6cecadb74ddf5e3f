#include "trace/detail/pdf_file.h"

#include "base/input_error.h"
#include "trace/page.h"

#include <QCoreApplication>

namespace otherskein::trace::detail {

namespace {

struct PdfTexts {
    Q_DECLARE_TR_FUNCTIONS(TracePage)
};

[[noreturn]] void refuse(const QString& source, const QString& expected, const QString& found) {
    throw base::InputError({source, std::nullopt, {}, expected, found});
}

} // namespace

bool isPdf(const QByteArray& bytes) {
    return bytes.left(1024).contains("%PDF-");
}

PdfFile::PdfFile(const QByteArray& bytes, const QString& source) {
    buffer.setData(bytes);
    buffer.open(QIODevice::ReadOnly);
    document.load(&buffer);
    const auto error = document.error();
    if (error == QPdfDocument::Error::IncorrectPassword) {
        refuse(source, PdfTexts::tr("a PDF without a password"),
               PdfTexts::tr("one that asks for it"));
    }
    if (error == QPdfDocument::Error::UnsupportedSecurityScheme) {
        refuse(source, PdfTexts::tr("a PDF without a lock"), PdfTexts::tr("a locked one"));
    }
    if (document.status() != QPdfDocument::Status::Ready || document.pageCount() < 1) {
        refuse(source, PdfTexts::tr("a whole PDF"), PdfTexts::tr("a damaged or empty one"));
    }
    if (document.pageCount() > kMostPages) {
        refuse(source, PdfTexts::tr("a PDF of at most %1 pages").arg(kMostPages),
               QString::number(document.pageCount()));
    }
}

} // namespace otherskein::trace::detail
