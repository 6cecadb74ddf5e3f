#pragma once

#include "app/tracing/traced_desk.h"

#include <QWidget>

class QLabel;
class QPushButton;
class QStackedLayout;

namespace otherskein::app {

class ChartCanvas;
class ChoiceStrip;
class ContactSheet;
class PairCanvas;
class SymbolWall;

/// A traced chart beside the page that it came from: to go through what is doubtful, accept or
/// change it, cell by cell or symbol by symbol. Everything is saved as it happens.
///
/// Keys: N and Shift+N, or Page Down and Page Up, go through the doubtful cells; Enter or Space
/// accepts the current one and goes on, with Shift all that are like it; 1 to 9 change it to what
/// is printed most like it, a row's letter to that row, Delete to bare ground.
class TracedView : public QWidget {
    Q_OBJECT

  public:
    explicit TracedView(ChartDesk& desk, QWidget* parent = nullptr);

    [[nodiscard]] TracedDesk& traced() const { return *m_traced; }
    /// What + and - are about.
    [[nodiscard]] ChartCanvas& canvas() const;
    [[nodiscard]] ContactSheet& sheet() const { return *m_sheet; }
    [[nodiscard]] SymbolWall& wall() const { return *m_wall; }

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;

  private:
    TracedDesk* m_traced;
    QLabel* m_left;
    QLabel* m_what;
    QPushButton* m_back;
    QPushButton* m_on;
    QPushButton* m_accept;
    QPushButton* m_like;
    PairCanvas* m_page;
    PairCanvas* m_cells;
    ChoiceStrip* m_choices;
    ContactSheet* m_sheet;
    SymbolWall* m_wall;
    QStackedLayout* m_views;
    QString m_changed; ///< what the last key made of a cell, while the next one is shown

    void dress();
    void layOut();
    void connectParts();
    void showState();
    void show(const std::optional<chart::Cell>& cell);
    void go(TracedDesk::Way way);
    void accept();
    void acceptLike();
    void take(chart::KeyIndex row);
    void change(chart::KeyIndex row);
    /// Changes the cell by a letter or a number. False when the key means nothing.
    bool changeByKey(const QKeyEvent& event);
};

} // namespace otherskein::app
