#pragma once

#include "app/charts/charts_state.h"
#include "app/frame/session.h"

#include <QWidget>

#include <memory>

namespace otherskein::app {

class ChartDesk;
class MendCanvas;
class TracedView;

/// Charts: what will I stitch? The charts of the workbox; the chosen one to look at and to mend,
/// its key and its motifs.
class ChartsPlace : public QWidget {
    Q_OBJECT

  public:
    explicit ChartsPlace(Session& session, QWidget* parent = nullptr);
    ~ChartsPlace() override;

    [[nodiscard]] const ChartsState& state() const;
    void setState(const ChartsState& state);
    /// False when nothing is being worked out any more.
    [[nodiscard]] bool isBusy() const;
    [[nodiscard]] ChartDesk& desk() const;
    [[nodiscard]] MendCanvas& canvas() const;

    [[nodiscard]] TracedView& tracedView() const;

    void askForFiles();
    /// Adds the charts of these pictures; a bad file is refused with one line, and the others come.
    /// Pages among them (PDF, JPEG, and PNG of several that cannot be a chart's picture) are traced
    /// together.
    void openFiles(const QStringList& files);
    void askForPage();
    /// Opens the dialog that traces pages, all into one chart, in the order of their names.
    void tracePages(const QStringList& files);
    /// Writes the chart in use, its key and its lines.
    void exportTo(const QString& picture);

    [[nodiscard]] QSize minimumSizeHint() const override;

  Q_SIGNALS:
    void told(const QString& text);
    void refused(const QString& line);
    /// The user wants the chart in use in other colours.
    void recolourAsked();
    void demoAsked();

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    struct Private;
    std::unique_ptr<Private> m_private;

    void layOut();
    void connectParts();
    void addKeys();
    void showPage();
    void showView();
    void makeRoom();
    void askForExport();
    void deleteChart();
};

} // namespace otherskein::app
