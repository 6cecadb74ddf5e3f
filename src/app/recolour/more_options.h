#pragma once

#include "app/recolour/recolour_state.h"

#include <QWidget>

class QCheckBox;
class QLabel;
class QMenu;
class QPushButton;
class QSpinBox;

namespace otherskein::app {

/// The seldom used switches of a wall of alternatives: how many colours, how far apart, from which
/// cards. Shows a state and asks for a new one.
class MoreOptions : public QWidget {
    Q_OBJECT

  public:
    explicit MoreOptions(QWidget* parent = nullptr);

    void show(const RecolourState& state);
    /// Names of the cards of the workbox, with how many threads each has.
    void showCards(const std::vector<std::pair<QString, std::size_t>>& cards);

  Q_SIGNALS:
    void asked(const otherskein::app::RecolourState& state);

  private:
    RecolourState m_state;
    QSpinBox* m_colours;
    QLabel* m_floorText;
    QSpinBox* m_floor;
    QCheckBox* m_onlyStash;
    QCheckBox* m_blends;
    QPushButton* m_cards;
    QMenu* m_cardMenu;
    std::vector<std::pair<QString, std::size_t>> m_shownCards;

    void showCardCount();
    template <typename Change>
    void askWith(Change change);
};

} // namespace otherskein::app
