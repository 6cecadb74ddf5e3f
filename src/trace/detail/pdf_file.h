#pragma once

#include <QBuffer>
#include <QPdfDocument>

namespace otherskein::trace::detail {

inline constexpr double kPointsPerInch = 72;

[[nodiscard]] bool isPdf(const QByteArray& bytes);

/// An open PDF with the buffer that it reads from.
struct PdfFile {
    QBuffer buffer;
    QPdfDocument document{nullptr};

    /// Errors: InputError of `source` in one line: damaged, locked, empty, too many pages.
    PdfFile(const QByteArray& bytes, const QString& source);
};

} // namespace otherskein::trace::detail
