#pragma once

#include "app/frame/session.h"
#include "app/tracing/trace_worker.h"

#include <QDialog>

class QLabel;
class QListWidget;
class QListWidgetItem;
class QProgressBar;
class QPushButton;

namespace otherskein::app {

class PagePreview;
class PiecesPanel;

/// From a file of printed pages to a chart in the workbox: which pages, which grids on them, how
/// they lie to each other. Reading and tracing go on in a worker; what goes wrong is told in one
/// line here.
class TraceDialog : public QDialog {
    Q_OBJECT

  public:
    TraceDialog(Session& session, const QString& file, QWidget* parent = nullptr,
                const Tracer& tracer = {});

    /// False when there is nothing left to read or to work out.
    [[nodiscard]] bool isBusy() const { return m_worker->isBusy(); }
    void reject() override;

  Q_SIGNALS:
    /// The chart is in the workbox.
    void made(otherskein::workbox::ChartId id);

  private:
    /// A page of the file.
    struct Sheet {
        bool wanted = false; ///< belongs to the chart
        bool looked = false; ///< its grids have been looked for
        std::shared_ptr<const trace::Page>
            page; ///< null until it is needed, or if it cannot be read
        std::vector<trace::FoundGrid> grids;
        std::vector<bool> chosen; ///< one a grid
    };

    Session& m_session;
    QString m_file;
    Tracer m_tracer;
    std::vector<Sheet> m_sheets;
    std::size_t m_shown = 0;
    bool m_joined = false; ///< the pieces are of what is wanted and chosen
    QString m_stage;       ///< what the worker is at
    bool m_tracing = false;

    QListWidget* m_pages;
    PagePreview* m_preview;
    PiecesPanel* m_pieces;
    QLabel* m_advice;
    QLabel* m_trouble;
    QProgressBar* m_progress;
    QPushButton* m_stop;
    QPushButton* m_make;
    TraceWorker* m_worker; ///< waits for its job when it goes; no job looks at the dialog

    void build();
    void connectParts();
    void countPages();
    void fillPages(int count);
    /// Starts what is to be done next, if anything.
    void advance();
    void read(std::size_t sheet);
    void join();
    void make();
    void keep(const trace::Tracing& tracing, const workbox::TracedPage& page);
    void toggleGrid(int grid);
    void takeTick(const QListWidgetItem& item);
    void choosePage(int page);
    void showState();
    [[nodiscard]] QString advice() const;
    /// Wanted pages with their chosen grids, and their numbers.
    struct Chosen {
        std::vector<trace::Page> pages;
        std::vector<std::vector<trace::FoundGrid>> grids;
        std::vector<int> numbers;
    };
    [[nodiscard]] Chosen chosen() const;
};

} // namespace otherskein::app
