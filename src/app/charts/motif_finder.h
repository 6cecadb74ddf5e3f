#pragma once

#include "chart/chart.h"
#include "chart/motifs.h"

#include <QObject>
#include <QThreadPool>

#include <memory>

namespace otherskein::app {

/// Finds the motifs of a chart: a small chart's at once, a large one's away from the window's own
/// thread of execution. Only the newest question counts.
class MotifFinder : public QObject {
    Q_OBJECT

  public:
    using Answer = std::shared_ptr<const chart::Motifs>;

    explicit MotifFinder(QObject* parent = nullptr);
    ~MotifFinder() override;

    void ask(const std::shared_ptr<const chart::Chart>& chart, const chart::MotifPlan& plan);
    /// Drops a question that is not answered yet.
    void forget() { m_answered = ++m_asked; }
    [[nodiscard]] bool isBusy() const { return m_asked != m_answered; }

  Q_SIGNALS:
    void found(const std::shared_ptr<const otherskein::chart::Motifs>& motifs);
    void failed(const QString& why);

  private:
    QThreadPool m_threads;
    quint64 m_asked = 0;
    quint64 m_answered = 0;
};

} // namespace otherskein::app
