#pragma once

#include "trace/tracing.h"

#include <QObject>

#include <memory>

namespace otherskein::app {

/// Reads and traces away from the window's own thread of execution, one job at a time.
class TraceWorker : public QObject {
    Q_OBJECT

  public:
    /// What to do when it is done, in the window's thread of execution.
    using Done = std::function<void()>;
    using Job = std::function<Done(const trace::Progress&)>;

    explicit TraceWorker(QObject* parent = nullptr) : QObject(parent) {}
    ~TraceWorker() override;

    /// Nothing else is under way (asserted). The job looks at nothing that may go before it ends.
    void start(Job job);
    /// Lets go of the job at once, whatever it is at: nothing of it is done. It is told when it
    /// next says how far it is; a page that is being read is read to its end, unseen.
    void stop();
    [[nodiscard]] bool isBusy() const { return m_hold != nullptr; }

  Q_SIGNALS:
    void progressed(double share);
    /// The job threw; nothing of it is done.
    void failed(const QString& line);
    /// After `Done`, `failed` or stop().
    void idle();

  private:
    struct Hold;
    std::shared_ptr<Hold> m_hold; ///< on the job; null when nothing is under way

    void letGo();
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
