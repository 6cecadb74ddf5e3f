#pragma once

#include "app/frame/session.h"
#include "app/tracing/page_list.h"
#include "app/tracing/trace_worker.h"

#include <QDialog>

class QLabel;
class QProgressBar;
class QPushButton;

namespace otherskein::app {

class EdgesBar;
class PagePreview;
enum class GridSide;
class PiecesPanel;

/// From files of printed pages to a chart in the workbox: which pages, which grids on them, how
/// they lie to each other. Reading and tracing go on in a worker and can be stopped at any moment;
/// what goes wrong is told in one line here, and the other pages can still be used.
class TraceDialog : public QDialog {
    Q_OBJECT

  public:
    /// Pages of several files are pages of one chart, in that order.
    TraceDialog(Session& session, const QStringList& files, QWidget* parent = nullptr,
                const Tracer& tracer = {});

    /// False when there is nothing left to read or to work out.
    [[nodiscard]] bool isBusy() const { return m_worker->isBusy(); }
    void reject() override;
    /// More pages of the chart, after those that are there.
    void addFiles(const QStringList& files);

  Q_SIGNALS:
    /// The chart is in the workbox.
    void made(otherskein::workbox::ChartId id);

  protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    Session& m_session;
    QStringList m_files;
    Tracer m_tracer;
    std::vector<PageSheet> m_sheets;
    std::size_t m_shown = 0;
    qsizetype m_counted = 0; ///< files that the sheets are of
    bool m_joined = false;   ///< the pieces are of what is wanted and chosen
    bool m_halted = false;   ///< the user has stopped reading; nothing starts by itself
    QString m_stage;         ///< what the worker is at
    QString m_line;          ///< what went wrong, beside what the pages' own troubles are
    std::optional<std::size_t> m_reading;
    bool m_tracing = false;

    PageList* m_pages;
    PagePreview* m_preview;
    EdgesBar* m_edges;
    PiecesPanel* m_pieces;
    QLabel* m_advice;
    QLabel* m_trouble;
    QProgressBar* m_progress;
    QPushButton* m_add;
    QPushButton* m_stop;
    QPushButton* m_make;
    TraceWorker* m_worker;

    void build();
    void connectParts();
    void countPages();
    void takePages(const std::vector<int>& counts);
    /// Starts what is to be done next, if anything.
    void advance();
    /// As advance(), after the user has chosen something, which ends a halt.
    void goOn();
    [[nodiscard]] std::optional<std::size_t> nextToRead() const;
    void read(std::size_t sheet);
    void takeRead(std::size_t sheet, const std::shared_ptr<const trace::Page>& page,
                  const std::vector<trace::FoundGrid>& grids);
    void join();
    void make();
    void keep(const trace::Tracing& tracing, const workbox::TracedPage& page);
    void stopOrGoOn();
    void takeFailure(const QString& line);
    void toggleGrid(int grid);
    void moveEdge(GridSide side, int by);
    void tick(int page, bool on);
    void tickAll();
    void choosePage(int page);
    void showState();
};

} // namespace otherskein::app
