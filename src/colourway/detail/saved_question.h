#pragma once

#include "colourway/recolour.h"

#include <QJsonArray>
#include <QJsonObject>

namespace otherskein::colourway::json {

[[nodiscard]] QJsonObject choiceObject(const Choice& choice);
[[nodiscard]] QJsonObject questionObject(const RecolourQuestion& question);

/// Takes a saved colourway apart. Errors: InputError naming the source and the member.
class Reader {
  public:
    explicit Reader(QString source) : m_source(std::move(source)) {}

    [[noreturn]] void refuse(const QString& expected, const QString& found) const;
    [[nodiscard]] QJsonObject object(const QJsonObject& from, const char* name) const;
    [[nodiscard]] QJsonArray array(const QJsonObject& from, const char* name) const;
    [[nodiscard]] double number(const QJsonObject& from, const char* name, double least,
                                double most) const;
    [[nodiscard]] int wholeNumber(const QJsonObject& from, const char* name, int least,
                                  int most) const;
    [[nodiscard]] Choice choice(const QJsonObject& from) const;
    [[nodiscard]] RecolourQuestion question(const QJsonObject& from) const;

  private:
    QString m_source;

    [[nodiscard]] colour::Lab lab(const QJsonObject& from, const char* name) const;
    [[nodiscard]] Theme theme(const QJsonObject& from) const;
};

} // namespace otherskein::colourway::json
