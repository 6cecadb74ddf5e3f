#pragma once

#include "app/tracing/sheet_model.h"

#include <QWidget>

class QLabel;
class QListView;
class QMenu;
class QPushButton;

namespace otherskein::app {

/// All that was taken for one symbol, as it is printed, so that the odd one stands out: to accept,
/// to move to another symbol, to part off as a new one; and to join two symbols that are one.
///
/// Keys: Enter opens the cell beside the page, Space selects, A accepts, M moves, P parts off,
/// J joins.
class ContactSheet : public QWidget {
    Q_OBJECT

  public:
    explicit ContactSheet(TracedDesk& traced, QWidget* parent = nullptr);

    [[nodiscard]] QListView& list() const { return *m_list; }
    [[nodiscard]] std::vector<chart::Cell> selected() const;
    /// The selected cells are worked in `row`.
    void moveTo(chart::KeyIndex row);
    /// All of the shown row is worked in `row`.
    void joinWith(chart::KeyIndex row);

  Q_SIGNALS:
    void cellAsked(const otherskein::chart::Cell& cell);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    TracedDesk& m_traced;
    SheetModel* m_model;
    QListView* m_list;
    QLabel* m_title;
    QLabel* m_note;
    QPushButton* m_accept;
    QPushButton* m_move;
    QPushButton* m_split;
    QPushButton* m_join;

    void layOut();
    void connectParts();
    void showState();
    void acceptSelected();
    void fillRows(QMenu& menu, void (ContactSheet::*take)(chart::KeyIndex));
};

} // namespace otherskein::app
