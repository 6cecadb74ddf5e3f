#pragma once

#include "trace/tracing.h"

#include <QObject>
#include <QThreadPool>

#include <atomic>

namespace otherskein::app {

/// Reads and traces away from the window's own thread of execution, one job at a time.
class TraceWorker : public QObject {
    Q_OBJECT

  public:
    /// What to do when it is done, in the window's thread of execution.
    using Done = std::function<void()>;
    using Job = std::function<Done(const trace::Progress&)>;

    explicit TraceWorker(QObject* parent = nullptr);
    ~TraceWorker() override;

    /// Nothing else is under way (asserted).
    void start(Job job);
    /// Asks the job to stop when it next reports how far it is.
    void stop() { m_stopped = true; }
    [[nodiscard]] bool isBusy() const { return m_busy; }
    [[nodiscard]] bool isStopped() const { return m_stopped; }

  Q_SIGNALS:
    void progressed(double share);
    /// The job threw; nothing of it is done.
    void failed(const QString& line);
    /// After `Done` or `failed`.
    void idle();

  private:
    QThreadPool m_threads;
    std::atomic<bool> m_stopped = false;
    bool m_busy = false;
};

/// What the dialog asks of the tracer; tests answer in its place.
struct Tracer {
    std::function<int(const QString&)> pageCount = trace::pageCount;
    std::function<trace::Page(const QString&, int)> readPage = trace::readPage;
    std::function<std::vector<trace::FoundGrid>(const trace::Page&)> gridsOn = trace::gridsOn;
    std::function<std::vector<trace::Piece>(std::span<const trace::Page>,
                                            std::span<const std::vector<trace::FoundGrid>>)>
        joined = trace::joined;
    std::function<std::optional<trace::Tracing>(
        std::span<const trace::Page>, std::span<const trace::Piece>, const trace::Progress&)>
        traced = trace::traced;
};

} // namespace otherskein::app
