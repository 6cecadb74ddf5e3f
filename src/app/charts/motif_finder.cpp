#include "app/charts/motif_finder.h"

namespace otherskein::app {

namespace {

/// 1,000 × 1,000 cells take 150 ms at most, so this many stay under 5 ms.
constexpr std::size_t kAtOnce = 30'000;

} // namespace

MotifFinder::MotifFinder(QObject* parent) : QObject(parent) {
    m_threads.setMaxThreadCount(1);
}

MotifFinder::~MotifFinder() {
    m_threads.clear();
    m_threads.waitForDone();
}

void MotifFinder::ask(const std::shared_ptr<const chart::Chart>& chart,
                      const chart::MotifPlan& plan) {
    const quint64 number = ++m_asked;
    m_threads.clear();
    if (chart->grid.cells().size() <= kAtOnce) {
        m_answered = number;
        Q_EMIT found(std::make_shared<const chart::Motifs>(chart::findMotifs(chart->grid, plan)));
        return;
    }
    m_threads.start([this, chart, plan, number] {
        // An exception must not leave the worker: it travels as text.
        try {
            Answer answer =
                std::make_shared<const chart::Motifs>(chart::findMotifs(chart->grid, plan));
            QMetaObject::invokeMethod(this, [this, answer = std::move(answer), number] {
                if (number == m_asked) {
                    m_answered = number;
                    Q_EMIT found(answer);
                }
            });
        } catch (const std::exception& error) {
            QMetaObject::invokeMethod(this, [this, why = QString::fromUtf8(error.what()), number] {
                if (number == m_asked) {
                    m_answered = number;
                    Q_EMIT failed(why);
                }
            });
        }
    });
}

} // namespace otherskein::app
