#pragma once

#include "app/charts/chart_pictures.h"

#include <QListWidget>

namespace otherskein::app {

/// The charts of the workbox, each with a small picture and its size. The chosen one is the
/// session's. A chart is renamed in place (F2 or double click).
class ChartList : public QListWidget {
    Q_OBJECT

  public:
    explicit ChartList(Session& session, QWidget* parent = nullptr);

    void renameCurrent();
    [[nodiscard]] std::optional<workbox::ChartId> current() const;
    /// Pictures are being drawn.
    [[nodiscard]] bool isBusy() const { return m_pictures->isBusy(); }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

  Q_SIGNALS:
    void deleteAsked();
    void refused(const QString& line);

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    Session& m_session;
    ChartPictures* m_pictures;

    void fill();
    void showCurrent();
    void rename(QListWidgetItem* item);
};

} // namespace otherskein::app
