#include "cli/detail/answer.h"

#include <QCoreApplication>
#include <QJsonDocument>

#include <ostream>

namespace otherskein::cli {

namespace {

struct AnswerTexts {
    Q_DECLARE_TR_FUNCTIONS(Answer)
};

} // namespace

QJsonArray labJson(const colour::Lab& lab) {
    return {lab.L, lab.a, lab.b};
}

void addColour(QJsonObject& object, const QString& card, const thread::Thread& thread) {
    object[QStringLiteral("card")] = card;
    object[QStringLiteral("code")] = thread.code;
    object[QStringLiteral("name")] = thread.name;
    object[QStringLiteral("lab")] = labJson(thread.lab);
    object[QStringLiteral("srgb")] = colour::toHex(thread::shownColour(thread));
}

void addThread(QJsonObject& object, const QString& card, const thread::Thread& thread) {
    addColour(object, card, thread);
    object[QStringLiteral("stash")] = thread.stash;
    if (!thread.fibre.isEmpty()) {
        object[QStringLiteral("fibre")] = thread.fibre;
    }
    if (thread.finish != thread::Finish::Unstated) {
        object[QStringLiteral("finish")] = thread::wordOf(thread.finish);
    }
    if (thread.stock != thread::Stock::Unstated) {
        object[QStringLiteral("stock")] = thread::wordOf(thread.stock);
    }
    if (thread.spread) {
        object[QStringLiteral("spread")] = *thread.spread;
    }
}

void print(std::ostream& out, const QJsonObject& document) {
    out << QJsonDocument(document).toJson(QJsonDocument::Indented).toStdString();
}

void print(std::ostream& out, const QString& text) {
    out << text.toStdString();
}

QString differenceText(double de00) {
    return QString::number(de00, 'f', de00 < 1 ? 2 : 1);
}

QString colourText(const colour::Lab& lab, const colour::Srgb8& srgb) {
    return QStringLiteral("%1  (L* %2, a* %3, b* %4)")
        .arg(colour::toHex(srgb))
        .arg(lab.L, 0, 'f', 1)
        .arg(lab.a, 0, 'f', 1)
        .arg(lab.b, 0, 'f', 1);
}

QString caution() {
    return AnswerTexts::tr(
        "Screen colours guide; the skein in hand decides: compare in the light the "
        "piece will hang in.");
}

} // namespace otherskein::cli
