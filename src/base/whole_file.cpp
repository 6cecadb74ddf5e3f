#include "base/whole_file.h"

#include "base/input_error.h"

#include <QFile>
#include <QFileInfo>
#include <QSaveFile>

namespace otherskein::base {

QByteArray readWholeFile(const QString& path, qint64 mostBytes) {
    const QFileInfo info(path);
    if (!info.exists()) {
        throw InputError({path, {}, {}, QStringLiteral("a file"), QStringLiteral("none there")});
    }
    if (info.isDir()) {
        throw InputError({path, {}, {}, QStringLiteral("a file"), QStringLiteral("a folder")});
    }
    const auto tooLarge = [&](qint64 size) {
        return InputError({path,
                           {},
                           {},
                           QStringLiteral("a file of at most %1 bytes").arg(mostBytes),
                           QStringLiteral("%1 bytes").arg(size)});
    };
    if (info.size() > mostBytes) {
        throw tooLarge(info.size());
    }
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        throw InputError({path, {}, {}, QStringLiteral("a readable file"), file.errorString()});
    }
    // Devices and pipes report no size, so the limit also holds while reading.
    QByteArray bytes = file.read(mostBytes + 1);
    if (file.error() != QFileDevice::NoError) {
        throw InputError({path, {}, {}, QStringLiteral("a readable file"), file.errorString()});
    }
    if (bytes.size() > mostBytes) {
        throw tooLarge(bytes.size());
    }
    return bytes;
}

void writeWholeFile(const QString& path, const QByteArray& bytes, Existing existing) {
    if (existing == Existing::Refuse && QFileInfo::exists(path)) {
        throw InputError({path,
                          {},
                          {},
                          QStringLiteral("no file there yet (or --force)"),
                          QStringLiteral("one that exists")});
    }
    QSaveFile file(path); // syncs and renames in commit()
    if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size() || !file.commit()) {
        throw InputError({path, {}, {}, QStringLiteral("a place to write"), file.errorString()});
    }
}

} // namespace otherskein::base
