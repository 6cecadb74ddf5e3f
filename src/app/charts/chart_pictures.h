#pragma once

#include "app/frame/session.h"

#include <QImage>
#include <QObject>
#include <QThreadPool>

#include <map>

namespace otherskein::app {

/// Small pictures of charts, drawn away from the window's own thread of execution when they are
/// first looked at, and again when the chart or its ground has changed.
class ChartPictures : public QObject {
    Q_OBJECT

  public:
    explicit ChartPictures(Session& session, QObject* parent = nullptr);
    ~ChartPictures() override;

    /// Fitted into `size` device pixels; the last one known while a new one is drawn, null before
    /// the first.
    [[nodiscard]] QImage picture(workbox::ChartId id, const QSize& size);
    [[nodiscard]] bool isBusy() const { return m_running > 0; }

  Q_SIGNALS:
    void drawn();

  private:
    struct Entry {
        QImage image;
        QSize size; ///< asked for last
        bool stale = true;
        quint64 number = 0; ///< of the drawing that counts
    };

    Session& m_session;
    std::map<workbox::ChartId, Entry> m_entries;
    QThreadPool m_threads;
    quint64 m_last = 0;
    int m_running = 0;
};

} // namespace otherskein::app
