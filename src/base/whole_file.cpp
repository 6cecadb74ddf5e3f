#include "base/whole_file.h"

#include "base/input_error.h"

#include <QFile>
#include <QFileInfo>
#include <QSaveFile>

#include <memory>

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
    writeWholeFiles({{path, bytes}}, existing);
}

void writeWholeFiles(const std::vector<NewFile>& files, Existing existing) {
    for (const NewFile& file : files) {
        if (existing == Existing::Refuse && QFileInfo::exists(file.path)) {
            throw InputError({file.path,
                              {},
                              {},
                              QStringLiteral("no file there yet (or --force)"),
                              QStringLiteral("one that exists")});
        }
    }
    const auto check = [](bool done, const QSaveFile& file) {
        if (!done) {
            throw InputError(
                {file.fileName(), {}, {}, QStringLiteral("a place to write"), file.errorString()});
        }
    };
    std::vector<std::unique_ptr<QSaveFile>> saves;
    for (const NewFile& file : files) {
        QSaveFile& save = *saves.emplace_back(std::make_unique<QSaveFile>(file.path));
        check(save.open(QIODevice::WriteOnly) && save.write(file.bytes) == file.bytes.size() &&
                  save.flush(),
              save);
    }
    for (const auto& save : saves) {
        check(save->commit(), *save); // syncs and renames
    }
}

} // namespace otherskein::base
