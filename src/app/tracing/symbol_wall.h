#pragma once

#include "app/tracing/symbol_model.h"

#include <QWidget>

class QLabel;
class QPushButton;

namespace otherskein::app {

class PickList;

/// All symbols of a traced page at a glance, alike ones side by side, to join many in one step: a
/// bad page breaks a symbol into dozens.
///
/// Keys: Space picks, arrows move; L picks the next symbols that look alike; J joins what is
/// picked, and goes on to the next ones alike where L picked it; Delete makes bare ground of it;
/// Enter shows the cells of one; Escape picks none.
class SymbolWall : public QWidget {
    Q_OBJECT

  public:
    explicit SymbolWall(TracedDesk& traced, QWidget* parent = nullptr);

    [[nodiscard]] PickList& list() const { return *m_list; }
    [[nodiscard]] const SymbolModel& model() const { return *m_model; }
    /// Rows of the key that are picked, in their order.
    [[nodiscard]] std::vector<chart::KeyIndex> picked() const;

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    TracedDesk& m_traced;
    SymbolModel* m_model;
    PickList* m_list;
    QLabel* m_title;
    QLabel* m_note;
    QPushButton* m_alike;
    QPushButton* m_join;
    QPushButton* m_bare;
    QPushButton* m_open;
    QString m_did;         ///< said until the next thing is done
    bool m_goesOn = false; ///< what is picked was offered, so joining goes on to the next

    void dress();
    void layOut();
    void connectParts();
    void showState();
    void takeRow();
    void pickAlike();
    void join();
    void makeBare();
    void open();
    bool pressKey(int key);
};

} // namespace otherskein::app
