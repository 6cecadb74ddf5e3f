#pragma once

#include <QByteArray>
#include <QString>

#include <vector>

namespace otherskein::base {

/// The bytes of a file.
/// Errors: InputError when it is missing, a folder, unreadable, or larger than `mostBytes` (seen
/// before memory is spent).
[[nodiscard]] QByteArray readWholeFile(const QString& path, qint64 mostBytes);

enum class Existing { Refuse, Replace };

/// Writes a file whole or not at all: to a temporary name beside it, synced, renamed.
/// Errors: InputError when it stands already and may not be replaced, or cannot be written.
void writeWholeFile(const QString& path, const QByteArray& bytes, Existing existing);

struct NewFile {
    QString path;
    QByteArray bytes;
};

/// Writes files that belong together: all are whole on the disk under temporary names before the
/// first is renamed, so a full disk or a bad path leaves every one as it was.
/// Errors: as above, for the first that fails.
void writeWholeFiles(const std::vector<NewFile>& files, Existing existing);

} // namespace otherskein::base
