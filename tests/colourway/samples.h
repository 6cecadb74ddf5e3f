#pragma once

#include "colour/conversion.h"
#include "colourway/substitute.h"

#include <QStringList>

#include <string>
#include <utility>
#include <vector>

namespace otherskein::colourway {

inline thread::Thread threadOf(const char* code, const colour::Lab& lab) {
    thread::Thread one;
    one.code = QString::fromLatin1(code);
    one.name = QStringLiteral("Shade ") + one.code;
    one.lab = lab;
    return one;
}

inline thread::ShadeCard cardOf(const char* name, std::vector<thread::Thread> threads) {
    return {QString::fromLatin1(name), std::move(threads), {}};
}

inline thread::PooledThread pooledOf(const char* card, thread::Thread thread) {
    const colour::Xyz xyz = colour::xyzFromLab(thread.lab);
    return {QString::fromLatin1(card), std::move(thread), xyz};
}

/// A question for a colour of no card.
inline SubstituteQuestion questionOf(const colour::Lab& lab) {
    SubstituteQuestion question;
    question.wanted.lab = lab;
    return question;
}

/// A question for a thread of a card.
inline SubstituteQuestion questionOf(const char* card, const thread::Thread& thread) {
    SubstituteQuestion question;
    question.wanted = {QString::fromLatin1(card), thread.code, thread.name, thread.lab, thread};
    return question;
}

/// "a:1 2*b:2+1*a:3": card, code and strands of a blend, parted by blanks.
inline std::string listed(const std::vector<Candidate>& candidates) {
    QString text;
    for (const Candidate& candidate : candidates) {
        QStringList portions;
        for (const Candidate::Portion& portion : candidate.portions) {
            const QString name = portion.thread.card + u':' + portion.thread.thread.code;
            portions += candidate.isBlend() ? QString::number(portion.strands) + u'*' + name : name;
        }
        text += (text.isEmpty() ? QString() : QStringLiteral(" ")) + portions.join(u'+');
    }
    return text.toStdString();
}

inline std::string ask(const SubstituteQuestion& question,
                       const std::vector<thread::ShadeCard>& cards, const PoolFilter& filter = {}) {
    return listed(findSubstitutes(question, *poolOf(cards, filter)));
}

} // namespace otherskein::colourway
