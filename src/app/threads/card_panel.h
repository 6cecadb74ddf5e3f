#pragma once

#include "app/frame/panel.h"
#include "app/threads/threads_state.h"

class QCheckBox;
class QComboBox;

namespace otherskein::workbox {
class Document;
}

namespace otherskein::app {

class CardList;

/// The leading column of Threads: which card, what is done with cards, what is left out.
class CardPanel : public Panel {
    Q_OBJECT

  public:
    explicit CardPanel(workbox::Document& document, QWidget* parent = nullptr);

    [[nodiscard]] CardList& list() const { return *m_list; }
    void showState(const ThreadsState& state);

  Q_SIGNALS:
    void cardChosen(std::optional<otherskein::workbox::CardId> card);
    void filterChosen(bool onlyStash, bool withoutOut,
                      std::optional<otherskein::thread::Finish> finish);
    void importAsked();
    void newCardAsked();
    void exportAsked();
    void deleteCardAsked();

  private:
    CardList* m_list;
    QCheckBox* m_onlyStash;
    QCheckBox* m_withoutOut;
    QComboBox* m_finish;
    QVBoxLayout* m_rest;           ///< what stands under the list
    QList<QAction*> m_cardActions; ///< those that need a card

    void addRestHeading(const QString& text);
    void makeButtons();
    void makeFilters();
    void takeCard();
};

} // namespace otherskein::app
