#pragma once

#include "app/frame/session.h"
#include "app/recolour/recolour_desk.h"
#include "app/recolour/recolour_worker.h"

#include <QWidget>

class QSplitter;
class QStackedWidget;
class QTimer;

namespace otherskein::app {

class AlternativesModel;
class AlternativesWall;
class BeforeAfterCanvas;
class ColourwaySide;
class RecolourEmpty;
class RecolourHeader;
class ThemeBar;

/// Recolour: how would it look otherwise? The chart before and after, a wall of alternatives that
/// fills by itself, the colourway row by row.
class RecolourPlace : public QWidget {
    Q_OBJECT

  public:
    explicit RecolourPlace(Session& session, QWidget* parent = nullptr);
    ~RecolourPlace() override;

    [[nodiscard]] const RecolourState& state() const { return m_desk->state(); }
    /// Shows this state; the wall fills anew when it asks for other colourways.
    void ask(const RecolourState& state) { m_desk->ask(state); }
    [[nodiscard]] RecolourDesk& desk() const { return *m_desk; }
    [[nodiscard]] AlternativesModel& alternatives() const { return *m_model; }
    /// Whether more cards are to come.
    [[nodiscard]] bool isBusy() const;

    void newIdeas();
    void moreLike(int row);
    /// Colours come from that picture file. What cannot be read is told as `refused`.
    void openPicture(const QString& path);
    /// Writes the recoloured chart's picture, its key and lines beside it. Errors: InputError.
    void saveTo(const QString& picture) const;

  Q_SIGNALS:
    void told(const QString& text);
    void refused(const QString& line);
    void chartsAsked();
    void demoAsked();

  protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    Session& m_session;
    RecolourDesk* m_desk;
    RecolourWorker* m_worker;
    AlternativesModel* m_model;
    QStackedWidget* m_pages;
    RecolourEmpty* m_empty;
    RecolourHeader* m_header;
    BeforeAfterCanvas* m_canvas;
    ThemeBar* m_theme;
    AlternativesWall* m_wall;
    ColourwaySide* m_side;
    QSplitter* m_split;
    QTimer* m_askSoon; ///< several changes of one moment ask once, when all is laid out
    std::optional<WallQuestion> m_asked;         ///< what the wall shows, or will
    std::optional<colourway::Colourway> m_liked; ///< the wall is to be like this one

    void build();
    void connectDesk();
    void connectWall();
    void connectSide();
    void connectCanvas();
    void makeShortcuts();
    void showDesk();
    void showColourway();
    [[nodiscard]] static QSize pictureSize(const chart::Grid& grid, double pixelRatio);
    void askWall();
    void askWorker();
    void showProgress(std::optional<double> done);
    /// Why no wall can be made of this state; empty when one can.
    [[nodiscard]] QString whyNoWall() const;
    void showCards();
    void askForPicture();
    void askWhereToSave();
};

} // namespace otherskein::app
