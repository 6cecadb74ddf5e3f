#pragma once

#include "cli/run.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include <catch2/catch.hpp>

#include <sstream>

/// So that a failed comparison shows its texts.
template <>
struct Catch::StringMaker<QString> {
    static std::string convert(const QString& text) { return text.toStdString(); }
};

/// What a command answered.
struct Answer {
    std::optional<int> exitCode;
    QString out;
    QString err;

    [[nodiscard]] QJsonObject json() const {
        return QJsonDocument::fromJson(out.toUtf8()).object();
    }
};

/// A folder of its own for one test; the usual workbox lies in it too.
class Folder {
  public:
    Folder() { qputenv("XDG_DATA_HOME", QFile::encodeName(path("data"))); }

    [[nodiscard]] QString path(const char* name) const {
        return m_folder.filePath(QString::fromUtf8(name));
    }

    QString write(const char* name, const QByteArray& bytes) const {
        const QString where = path(name);
        QDir().mkpath(QFileInfo(where).path());
        QFile file(where);
        REQUIRE(file.open(QIODevice::WriteOnly));
        REQUIRE(file.write(bytes) == bytes.size());
        return where;
    }

    [[nodiscard]] static QByteArray read(const QString& path) {
        QFile file(path);
        REQUIRE(file.open(QIODevice::ReadOnly));
        return file.readAll();
    }

    /// Every file with its size, to see that nothing was written.
    [[nodiscard]] QStringList contents() const {
        QStringList found;
        QDirIterator files(m_folder.path(), QDir::Files | QDir::Hidden,
                           QDirIterator::Subdirectories);
        while (files.hasNext()) {
            files.next();
            found << files.filePath() + QLatin1Char(' ') + QString::number(files.fileInfo().size());
        }
        found.sort();
        return found;
    }

  private:
    QTemporaryDir m_folder;
};

inline Answer ask(const QStringList& words) {
    std::ostringstream out;
    std::ostringstream err;
    Answer answer;
    answer.exitCode = otherskein::cli::run(words, {out, err}).exitCode;
    answer.out = QString::fromStdString(out.str());
    answer.err = QString::fromStdString(err.str());
    return answer;
}

/// Words as a shell would part them; nothing in them holds a blank.
inline Answer ask(const QString& words) {
    return ask(words.split(QLatin1Char(' '), Qt::SkipEmptyParts));
}

inline QString demo(const char* name) {
    return QStringLiteral(OTHERSKEIN_SOURCE_DIR "/palettes/harbour-row/") + QString::fromUtf8(name);
}

/// A small card with codes that hold colons, a tie and every kind of stock.
inline const QByteArray kSmallCard = "code,name,srgb,fibre,finish,stash,stock\n"
                                     "A-1,Mist,#808890,cotton,satin,0,in\n"
                                     "A-2,Fog,#828a92,cotton,satin,1.5,in\n"
                                     "A-3,Haar,#828a92,wool,matt,0,out\n"
                                     "A:4,Smirr,#788088,cotton,metallic,0,discontinued\n";
