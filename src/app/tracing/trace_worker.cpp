#include "app/tracing/trace_worker.h"

#include <QThreadPool>

#include <cassert>
#include <mutex>

namespace otherskein::app {

/// What a job has of its worker, which may let go or be gone before the job ends.
struct TraceWorker::Hold : std::enable_shared_from_this<TraceWorker::Hold> {
    std::mutex mutex;
    TraceWorker* worker; ///< null when it let go

    explicit Hold(TraceWorker& of) : worker(&of) {}

    /// Has the worker do something in its own thread of execution. False when it let go.
    bool tell(const std::function<void(TraceWorker&)>& what) {
        const std::lock_guard lock(mutex);
        if (worker == nullptr) {
            return false;
        }
        QMetaObject::invokeMethod(
            worker,
            [self = shared_from_this(), what] {
                if (self->worker != nullptr) { // it may have let go since
                    what(*self->worker);
                }
            },
            Qt::QueuedConnection);
        return true;
    }
};

TraceWorker::~TraceWorker() {
    letGo();
}

void TraceWorker::letGo() {
    if (const auto hold = std::exchange(m_hold, nullptr)) {
        const std::lock_guard lock(hold->mutex);
        hold->worker = nullptr;
    }
}

void TraceWorker::stop() {
    if (isBusy()) {
        letGo();
        Q_EMIT idle();
    }
}

void TraceWorker::start(Job job) {
    assert(!isBusy());
    m_hold = std::make_shared<Hold>(*this);
    // The application's own pool, which it waits for when it ends.
    QThreadPool::globalInstance()->start([hold = m_hold, job = std::move(job)] {
        const trace::Progress progress = [&hold](double share) {
            return hold->tell([share](TraceWorker& worker) { Q_EMIT worker.progressed(share); });
        };
        // An exception must not leave the pool: it travels as text.
        Done done;
        QString line;
        try {
            done = job(progress);
        } catch (const std::exception& error) {
            line = QString::fromUtf8(error.what());
        }
        hold->tell([done, line](TraceWorker& worker) {
            worker.letGo();
            if (done) {
                done();
            } else {
                Q_EMIT worker.failed(line);
            }
            Q_EMIT worker.idle();
        });
    });
}

} // namespace otherskein::app
