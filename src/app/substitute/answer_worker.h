#pragma once

#include "app/frame/session.h"
#include "app/substitute/substitute_state.h"

#include <QObject>
#include <QThreadPool>

#include <atomic>
#include <memory>

namespace otherskein::app {

/// Answers questions away from the window's own thread of execution, so that typing never waits.
/// Only the newest question counts: an older one still running is stopped, and its answer is
/// dropped.
class AnswerWorker : public QObject {
    Q_OBJECT

  public:
    explicit AnswerWorker(QObject* parent = nullptr);
    ~AnswerWorker() override;

    void ask(const SubstituteState& state, const Session::Cards& cards);
    [[nodiscard]] bool isBusy() const { return m_asked != m_answered; }

  Q_SIGNALS:
    void answered(const otherskein::app::SubstituteAnswer& answer);
    /// The search itself broke (out of memory); the window stays as it is.
    void failed(const QString& why);

  private:
    /// The pool of the last question: kept while neither cards nor filter change. Touched by the
    /// worker only.
    struct PoolCache {
        Session::Cards cards;
        colourway::PoolFilter filter;
        QStringList cardsLeftOut;
        std::shared_ptr<const thread::ThreadPool> pool;
    };

    QThreadPool m_threads; // one worker, so answers come in the order of the questions
    std::atomic<quint64> m_asked = 0;
    quint64 m_answered = 0;
    PoolCache m_cache;

    SubstituteAnswer answer(const SubstituteState& state, const Session::Cards& cards,
                            quint64 number);
    const thread::ThreadPool& poolFor(const SubstituteState& state, const Session::Cards& cards);
};

} // namespace otherskein::app
