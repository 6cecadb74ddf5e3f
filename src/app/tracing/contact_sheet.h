#pragma once

#include "app/tracing/sheet_model.h"

#include <QWidget>

#include <set>

class QLabel;
class QMenu;
class QPushButton;

namespace otherskein::app {

class OtherSymbol;
class PickList;

/// All that was taken for one symbol, or for bare ground, as it is printed, so that the odd one
/// stands out: to accept, to move to another symbol, to part off as a new one; and to join two
/// symbols that are one.
///
/// Keys: arrows go to a cell; Space selects it or lets it go, as a click does, so that there may
/// be several; A accepts what is
/// selected, or all that is doubtful; M moves, P parts off; J joins with the symbol that is most
/// like it, L goes to the next two that look alike and shows both, where J goes on to the next two
/// by itself; N and Shift+N go from symbol to symbol; Enter opens a cell beside the page. 1 to 9
/// and Delete are the choices below the sheet.
class ContactSheet : public QWidget {
    Q_OBJECT

  public:
    explicit ContactSheet(TracedDesk& traced, QWidget* parent = nullptr);

    [[nodiscard]] PickList& list() const { return *m_list; }
    /// The picked cells; where none is, the one that arrow keys have gone to: it is framed, and
    /// whoever goes to a cell means it and not the whole symbol.
    [[nodiscard]] std::vector<chart::Cell> selected() const;
    /// The selected cells are worked in `row`, or bare.
    void moveTo(chart::KeyIndex row);
    /// All of the shown row is worked in `row`, or bare.
    void joinWith(chart::KeyIndex row);
    /// A choice below the sheet: moves what is selected, else joins.
    void take(chart::KeyIndex row);

  Q_SIGNALS:
    void cellAsked(const otherskein::chart::Cell& cell);
    void selectionChanged();
    /// A figure was typed: a choice below the sheet.
    void numberTyped(int number);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    TracedDesk& m_traced;
    SheetModel* m_model;
    SheetDelegate* m_delegate;
    PickList* m_list;
    OtherSymbol* m_other;
    QLabel* m_title;
    QLabel* m_note;
    QPushButton* m_back;
    QPushButton* m_on;
    QPushButton* m_accept;
    QPushButton* m_move;
    QPushButton* m_split;
    QPushButton* m_join;
    QPushButton* m_alike;
    std::optional<RowPrints::Pair> m_pair;          ///< while the user goes from pair to pair
    bool m_walked = false;                          ///< arrow keys have gone to a cell
    QString m_did;                                  ///< said until the next thing is done
    std::set<std::pair<QString, QString>> m_passed; ///< signs of pairs that the user has been shown

    void dress();
    void layOut();
    void connectParts();
    void connectState();
    void showState();
    void fitPlaces();
    void acceptThem();
    void joinMostAlike();
    void showAlike();
    void step(int by);
    bool pressKey(int key);
    void walk(bool on);
    void goTo(int place);
    void fillRows(QMenu& menu, void (ContactSheet::*job)(chart::KeyIndex));
    [[nodiscard]] QString shownName() const;
    [[nodiscard]] QString advice(int chosen) const;
};

} // namespace otherskein::app
