#pragma once

#include "app/recolour/colourway_model.h"

#include <QListView>

namespace otherskein::app {

class ColourwayDelegate;

/// The colourway as a table, was and now: a press on a lock, or the key L, locks a row.
class ColourwayTable : public QListView {
    Q_OBJECT

  public:
    explicit ColourwayTable(QWidget* parent = nullptr);

    /// The chosen row stays with the part that it began with.
    void show(std::vector<ColourwayRow> rows, const QColor& ground);
    [[nodiscard]] const ColourwayModel& rows() const { return *m_rows; }
    [[nodiscard]] const ColourwayRow* chosen() const;
    void choosePart(std::size_t part);

    /// Asks for the chosen row's lock to be turned.
    void turnLock();

  Q_SIGNALS:
    void rowChosen();
    void lockAsked(const std::vector<std::size_t>& parts, bool locked);
    /// The user wants to change the chosen row's thread.
    void changeAsked();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;

  private:
    ColourwayModel* m_rows;
    ColourwayDelegate* m_delegate;

    [[nodiscard]] bool isOnLock(const QModelIndex& index, const QPoint& point) const;
};

} // namespace otherskein::app
