#pragma once

#include <QString>
#include <QStringList>

namespace otherskein::cli {

/// Up to three of `among` that `text` may have been meant as, likeliest first: few letters differ,
/// capitals aside. For the hint in an error line.
[[nodiscard]] QStringList similarTo(const QString& text, const QStringList& among);

/// " (near it: A, B)", or nothing when nothing is similar.
[[nodiscard]] QString similarHint(const QString& text, const QStringList& among);

} // namespace otherskein::cli
