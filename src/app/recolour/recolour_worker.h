#pragma once

#include "app/frame/session.h"
#include "colourway/recolour.h"

#include <QImage>
#include <QObject>
#include <QThreadPool>

#include <atomic>
#include <memory>

namespace otherskein::app {

/// One card of the wall: a colourway, and how the chart looks in it.
struct Alternative {
    colourway::Colourway colourway;
    QImage picture;          ///< the worked chart in small, on its ground
    std::vector<QRgb> strip; ///< its threads, most stitches first, each once
};

/// What fills the wall.
struct WallQuestion {
    std::shared_ptr<const colourway::Subject> subject; ///< never null
    colourway::RecolourQuestion question;
    Session::Cards cards;
    QStringList cardsLeftOut;
    std::size_t count = 8;
    /// Stands first on the wall whatever is found: the one that was taken.
    std::optional<colourway::Colourway> first;
    bool likeFirst = false; ///< the others are to be like `first`
    QSize picture;          ///< of each card, device pixels

    /// Whether the same cards come of both.
    [[nodiscard]] bool asksTheSame(const WallQuestion& other) const {
        return subject == other.subject && question == other.question && cards == other.cards &&
               cardsLeftOut == other.cardsLeftOut && count == other.count &&
               likeFirst == other.likeFirst && (!likeFirst || first == other.first);
    }
};

/// Whether both give every part the same threads.
[[nodiscard]] bool isSameChoice(const std::vector<colourway::Choice>& one,
                                const std::vector<colourway::Choice>& other);

/// Makes alternatives away from the window's own thread of execution and hands them over one by
/// one. Only the newest question counts: an older one still running is stopped, and what it would
/// still tell is dropped.
class RecolourWorker : public QObject {
    Q_OBJECT

  public:
    explicit RecolourWorker(QObject* parent = nullptr);
    ~RecolourWorker() override;

    void ask(const WallQuestion& question);
    /// What was found so far stays.
    void stop();
    [[nodiscard]] bool isBusy() const { return m_isBusy; }

  Q_SIGNALS:
    void found(const otherskein::app::Alternative& alternative);
    void progressed(double done);
    /// Nothing more comes of the newest question.
    void finished();
    /// The question cannot be answered; `line` says why.
    void failed(const QString& line);

  private:
    /// The pool of the last question: kept while neither cards nor filter change. Touched by the
    /// worker only.
    struct PoolCache {
        Session::Cards cards;
        colourway::PoolFilter filter;
        QStringList cardsLeftOut;
        std::shared_ptr<const thread::ThreadPool> pool;
    };

    QThreadPool m_threads; // one worker, so that answers come in the order of the questions
    std::atomic<quint64> m_asked = 0;
    bool m_isBusy = false;
    PoolCache m_cache;

    void work(const WallQuestion& question, quint64 number);
    const thread::ThreadPool& poolFor(const WallQuestion& question);
    /// Runs `what` in the window's thread of execution unless there is a newer question by then.
    template <typename What>
    void tell(quint64 number, What what);
};

} // namespace otherskein::app
