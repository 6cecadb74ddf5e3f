#pragma once

#include "app/frame/rail.h"
#include "app/frame/session.h"

#include <QMainWindow>

class QStackedWidget;

namespace otherskein::app {

class ChartsPlace;
class GroundPlace;
class MessageBar;
class RecolourPlace;
class SubstitutePlace;
class ThreadsPlace;
class Welcome;

/// The window: holds the places and starts actions; does no work of its own.
class MainWindow : public QMainWindow {
    Q_OBJECT

  public:
    explicit MainWindow(workbox::Document& document, QWidget* parent = nullptr);

    void show(PlaceId place);
    using QMainWindow::show;
    [[nodiscard]] PlaceId place() const { return m_place; }
    [[nodiscard]] Session& session() { return m_session; }
    [[nodiscard]] ThreadsPlace& threadsPlace() { return *m_threads; }
    [[nodiscard]] ChartsPlace& chartsPlace() { return *m_charts; }
    [[nodiscard]] RecolourPlace& recolourPlace() { return *m_recolour; }
    [[nodiscard]] SubstitutePlace& substitutePlace() { return *m_substitute; }
    [[nodiscard]] GroundPlace& groundPlace() { return *m_ground; }
    [[nodiscard]] MessageBar& messages() { return *m_messages; }

    /// One click from an empty workbox to a wall of colourways.
    void openDemo();

  protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    Session m_session;
    PlaceId m_place = PlaceId::Threads;
    Rail* m_rail;
    QStackedWidget* m_pages;
    Welcome* m_welcome;
    ThreadsPlace* m_threads;
    ChartsPlace* m_charts;
    SubstitutePlace* m_substitute;
    RecolourPlace* m_recolour;
    GroundPlace* m_ground;
    MessageBar* m_messages;

    void connectPlaces();
    void makeMenus();
    void makeFileMenu();
    void openDropped(const QStringList& paths);
    void showPage();
    void chooseTone(int tone);
};

} // namespace otherskein::app
