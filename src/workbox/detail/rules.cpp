#include "workbox/detail/rules.h"

#include "base/number.h"

#include <QSet>

#include <cmath>

namespace otherskein::workbox::detail {

namespace {

using base::InputError;

/// The fields of one thing; `source` is its card's or its own name.
struct Fields {
    QString source;

    [[nodiscard]] InputError error(const char* column, const QString& expected,
                                   const QString& found) const {
        return InputError({source, {}, QString::fromLatin1(column), expected, found});
    }

    void range(const char* column, double value, double least, double most) const {
        if (!std::isfinite(value) || value < least || value > most) {
            throw error(column,
                        QStringLiteral("a number from %1 to %2")
                            .arg(base::formatNumber(least), base::formatNumber(most)),
                        base::formatNumber(value));
        }
    }

    void lab(const colour::Lab& lab) const {
        range("L", lab.L, 0, thread::limits::kMostLightness);
        range("a", lab.a, -thread::limits::kMostAb, thread::limits::kMostAb);
        range("b", lab.b, -thread::limits::kMostAb, thread::limits::kMostAb);
    }

    /// NUL ends a text in many programs, and half a surrogate pair has no UTF-8.
    void text(const char* column, const QString& text) const {
        if (text.contains(QChar(u'\0')) || !text.isValidUtf16()) {
            throw error(column, QStringLiteral("text without NUL and broken characters"),
                        base::quotedForMessage(text));
        }
    }

    [[nodiscard]] QString name(const char* column, const QString& given) const {
        text(column, given);
        QString trimmed = given.trimmed();
        if (trimmed.isEmpty()) {
            throw error(column, QStringLiteral("some text"), QStringLiteral("none"));
        }
        return trimmed;
    }
};

} // namespace

QString checkedCardName(const QString& name) {
    return Fields{QStringLiteral("shade card")}.name("name", name);
}

thread::Thread checkedThread(thread::Thread thread, const QString& cardName) {
    // As the shade card reader, which takes no skein shorter than a centimetre.
    constexpr double kLeastLengthM = 0.01;
    const Fields fields{cardName};
    thread.code = fields.name("code", thread.code);
    fields.text("name", thread.name);
    fields.lab(thread.lab);
    fields.text("fibre", thread.fibre);
    fields.range("strands", thread.strands, 1, thread::limits::kMostStrands);
    fields.range("length_m", thread.lengthM, kLeastLengthM, thread::limits::kMostLengthM);
    fields.range("stash", thread.stash, 0, thread::limits::kMostStash);
    fields.text("lot", thread.lot);
    if (thread.spread) {
        fields.range("spread", *thread.spread, 0, thread::limits::kMostSpread);
    }
    fields.text("note", thread.note);
    for (const QString& cell : thread.extra) {
        fields.text("extra", cell);
    }
    return thread;
}

thread::Ground checkedGround(thread::Ground ground) {
    const Fields unnamed{QStringLiteral("ground")};
    ground.name = unnamed.name("name", ground.name);
    const Fields fields{ground.name};
    fields.lab(ground.lab);
    fields.range("count", ground.count, thread::limits::kLeastCount, thread::limits::kMostCount);
    fields.range("over", ground.over, 1, thread::limits::kMostOver);
    fields.text("weave", ground.weave);
    fields.range("width_mm", ground.widthMm, 0, thread::limits::kMostPieceMm);
    fields.range("height_mm", ground.heightMm, 0, thread::limits::kMostPieceMm);
    fields.range("bytes of the photo", static_cast<double>(ground.photo.size()), 0,
                 static_cast<double>(thread::limits::kMostPhotoBytes));
    return ground;
}

thread::ShadeCard checkedCard(thread::ShadeCard card) {
    card.name = checkedCardName(card.name);
    checkThreadCount(card.threads.size(), card.name);
    for (const QString& column : card.columns) {
        Fields{card.name}.text("columns", column);
    }
    QSet<QString> codes;
    for (thread::Thread& one : card.threads) {
        one = checkedThread(std::move(one), card.name);
        if (codes.contains(one.code)) {
            throw doubledCode(card.name, one.code);
        }
        codes.insert(one.code);
    }
    return card;
}

InputError doubledCode(const QString& cardName, const QString& code) {
    return Fields{cardName}.error("code", QStringLiteral("each code once on a card"),
                                  base::quotedForMessage(code) + QStringLiteral(" again"));
}

void checkThreadCount(std::size_t count, const QString& cardName) {
    if (count > static_cast<std::size_t>(thread::limits::kMostThreads)) {
        throw InputError(
            {cardName,
             {},
             {},
             QStringLiteral("at most %1 threads on a card").arg(thread::limits::kMostThreads),
             QStringLiteral("%1").arg(count)});
    }
}

} // namespace otherskein::workbox::detail
