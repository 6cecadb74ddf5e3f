#pragma once

#include <QByteArray>
#include <QString>

namespace otherskein::thread {

/// True for text that has CGATS's table keywords and no CSV header in its first line.
[[nodiscard]] bool looksLikeCgats(const QByteArray& bytes);

/// CGATS text made safe for littleCMS's reader, which is kinder than a shade card can bear.
///
/// Every value between BEGIN_DATA and END_DATA is put in quotes, for without them the reader takes
/// "007" for 7, 12.50 for 12.5, 0x20 for 32, and (2.14) puts the identifier before it in front of a
/// code such as 12B. An empty string gets a blank, or the reader (2.14) gives the value before it
/// once more. A byte order mark is taken off. Lines stay as they are, so that the reader's own
/// messages name the right one.
///
/// Errors: InputError naming `source`: a NUL byte, text that is not UTF-8, an include of another
/// file, which the reader would open.
[[nodiscard]] QByteArray mendedCgats(const QByteArray& bytes, const QString& source);

} // namespace otherskein::thread
