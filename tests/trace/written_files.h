#pragma once

#include <catch2/catch.hpp>

#include <QFile>
#include <QTemporaryDir>

/// A folder of files that a test writes; gone with it.
struct WrittenFiles {
    QTemporaryDir folder;

    [[nodiscard]] QString path(const QString& name) const { return folder.filePath(name); }
    QString write(const QString& name, const QByteArray& bytes) const {
        QFile file(path(name));
        REQUIRE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
        return path(name);
    }
};
