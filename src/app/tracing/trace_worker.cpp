#include "app/tracing/trace_worker.h"

#include <cassert>

namespace otherskein::app {

TraceWorker::TraceWorker(QObject* parent) : QObject(parent) {
    m_threads.setMaxThreadCount(1);
}

TraceWorker::~TraceWorker() {
    m_stopped = true;
    m_threads.waitForDone();
}

void TraceWorker::start(Job job) {
    assert(!m_busy);
    m_busy = true;
    m_stopped = false;
    m_threads.start([this, job = std::move(job)] {
        const trace::Progress progress = [this](double share) {
            QMetaObject::invokeMethod(this, [this, share] { Q_EMIT progressed(share); });
            return !m_stopped;
        };
        // An exception must not leave the worker: it travels as text.
        Done done;
        QString line;
        try {
            done = job(progress);
        } catch (const std::exception& error) {
            line = QString::fromUtf8(error.what());
        }
        QMetaObject::invokeMethod(this, [this, done = std::move(done), line] {
            m_busy = false;
            if (done) {
                done();
            } else {
                Q_EMIT failed(line);
            }
            Q_EMIT idle();
        });
    });
}

} // namespace otherskein::app
