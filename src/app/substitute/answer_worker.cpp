#include "app/substitute/answer_worker.h"

#include "colourway/key_threads.h"

#include <QElapsedTimer>

#include <algorithm>

namespace otherskein::app {

AnswerWorker::AnswerWorker(QObject* parent) : QObject(parent) {
    m_threads.setMaxThreadCount(1);
}

AnswerWorker::~AnswerWorker() {
    ++m_asked; // stops the running search
    m_threads.clear();
    m_threads.waitForDone();
}

void AnswerWorker::ask(const SubstituteState& state, const Session::Cards& cards) {
    const quint64 number = ++m_asked;
    m_threads.clear();
    m_threads.start([this, state, cards, number] {
        // An exception must not leave the worker: it travels as text.
        try {
            const SubstituteAnswer found = answer(state, cards, number);
            QMetaObject::invokeMethod(this, [this, found, number] {
                if (number == m_asked) {
                    m_answered = number;
                    Q_EMIT answered(found);
                }
            });
        } catch (const std::exception& error) {
            const QString why = QString::fromUtf8(error.what());
            QMetaObject::invokeMethod(this, [this, why, number] {
                m_answered = std::max(m_answered, number);
                Q_EMIT failed(why);
            });
        }
    });
}

SubstituteAnswer AnswerWorker::answer(const SubstituteState& state, const Session::Cards& cards,
                                      quint64 number) {
    QElapsedTimer timer;
    timer.start();
    SubstituteAnswer found;
    found.state = state;
    std::vector<const thread::ShadeCard*> known;
    for (const thread::ShadeCard& card : *cards) {
        known.push_back(&card);
    }
    found.state.question.key = colourway::withThreadColours(state.question.key, known);
    const thread::ThreadPool& pool = poolFor(state, cards);
    found.candidates = colourway::findSubstitutes(found.state.question, pool,
                                                  [this, number] { return number != m_asked; });
    found.threadsLookedAt = pool.size();
    found.milliseconds = static_cast<double>(timer.nsecsElapsed()) / 1e6;
    return found;
}

const thread::ThreadPool& AnswerWorker::poolFor(const SubstituteState& state,
                                                const Session::Cards& cards) {
    if (m_cache.pool && m_cache.cards == cards && m_cache.filter == state.filter &&
        m_cache.cardsLeftOut == state.cardsLeftOut) {
        return *m_cache.pool;
    }
    std::vector<thread::ShadeCard> among;
    std::ranges::copy_if(*cards, std::back_inserter(among), [&](const thread::ShadeCard& card) {
        return !state.cardsLeftOut.contains(card.name);
    });
    m_cache = {cards, state.filter, state.cardsLeftOut, colourway::poolOf(among, state.filter)};
    return *m_cache.pool;
}

} // namespace otherskein::app
