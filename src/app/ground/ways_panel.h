#pragma once

#include "app/ground/ground_desk.h"

#include <QWidget>

class QLabel;
class QListWidget;
class QPushButton;
class QVBoxLayout;

namespace otherskein::app {

/// Which parts of the chart are lost on the ground in use, and what can be done about the chosen
/// one, each way with its figures.
class WaysPanel : public QWidget {
    Q_OBJECT

  public:
    explicit WaysPanel(QWidget* parent = nullptr);

    void show(GroundDesk& desk, const QString& groundName);
    using QWidget::show;
    /// Chooses the part among the lost, if it is one of them.
    void choosePart(std::size_t part);
    [[nodiscard]] std::optional<std::size_t> chosen() const { return m_chosen; }

  Q_SIGNALS:
    void partChosen(std::size_t part);
    void strandsAsked(std::size_t part, int strands);
    void groundAsked(otherskein::workbox::GroundId id);
    void threadAsked(std::size_t part, const otherskein::colourway::Choice& choice);
    void pushAsked();

  private:
    GroundDesk* m_desk = nullptr;
    QLabel* m_heading;
    QLabel* m_none;
    QListWidget* m_list;
    QPushButton* m_push;
    QWidget* m_ways;
    QVBoxLayout* m_wayColumn;
    std::optional<std::size_t> m_chosen;

    void showList();
    void showWays();
    void addWay(const QString& text, const QString& figure, const QString& more, auto act);
};

} // namespace otherskein::app
