#pragma once

#include <QByteArray>
#include <QString>

namespace otherskein::base {

/// The bytes of a file.
/// Errors: InputError when it is missing, a folder, unreadable, or larger than `mostBytes` (seen
/// before memory is spent).
[[nodiscard]] QByteArray readWholeFile(const QString& path, qint64 mostBytes);

enum class Existing { Refuse, Replace };

/// Writes a file whole or not at all: to a temporary name beside it, synced, renamed.
/// Errors: InputError when it stands already and may not be replaced, or cannot be written.
void writeWholeFile(const QString& path, const QByteArray& bytes, Existing existing);

} // namespace otherskein::base
