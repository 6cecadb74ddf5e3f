#pragma once

#include <QByteArray>

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

// qpdf's own pointers are std::shared_ptr: no word of its older ones.
#define POINTERHOLDER_TRANSITION 4
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>

namespace otherskein::trace::detail {

/// The content of a page's streams and of the forms that it draws may come to so many bytes.
inline constexpr std::size_t kMostContentBytes = 32U << 20U;

/// A PDF open in qpdf. `pdf` must outlive it. Errors: what qpdf throws.
[[nodiscard]] std::unique_ptr<QPDF> openPdf(const QByteArray& pdf);

/// A stream's bytes as they are read; none where it is damaged.
/// Errors: std::length_error where there are more than `most`, seen before memory is spent.
[[nodiscard]] std::optional<std::string> contentOf(QPDFObjectHandle stream, std::size_t most);

/// A page's own content, all its streams in one.
/// Errors: as contentOf, and std::runtime_error where a part is damaged.
[[nodiscard]] std::string pageContent(QPDFObjectHandle page);

} // namespace otherskein::trace::detail
