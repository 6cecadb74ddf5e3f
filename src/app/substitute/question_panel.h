#pragma once

#include "app/frame/panel.h"
#include "app/frame/session.h"
#include "app/substitute/substitute_state.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QPushButton;
class QSpinBox;

namespace otherskein::app {

class KeyStrip;
class WantedChip;
class WantedField;

/// The left side of Substitute: what is wanted, for which chart, from which threads, on which
/// ground. Shows a state and asks for a new one; holds no fact of its own.
class QuestionPanel : public Panel {
    Q_OBJECT

  public:
    QuestionPanel(Session& session, QWidget* parent = nullptr);

    void show(const SubstituteState& state);
    void focusWanted();

  Q_SIGNALS:
    void asked(const otherskein::app::SubstituteState& state);
    void keyAsked();
    void told(const QString& text);
    void refused(const QString& line);

  private:
    Session& m_session;
    SubstituteState m_state;
    WantedField* m_wanted = nullptr;
    WantedChip* m_chip = nullptr;
    QLabel* m_reading = nullptr;
    QLabel* m_facts = nullptr;
    QLabel* m_keyText = nullptr;
    KeyStrip* m_keyStrip = nullptr;
    QComboBox* m_ground = nullptr;
    QSpinBox* m_strands = nullptr;
    QWidget* m_cards = nullptr;
    QCheckBox* m_blends = nullptr;
    QCheckBox* m_calm = nullptr;
    QCheckBox* m_onlyStash = nullptr;
    QCheckBox* m_onlyStock = nullptr;
    QComboBox* m_fibre = nullptr;
    QComboBox* m_finish = nullptr;

    void buildWanted();
    void buildKey();
    void buildGround();
    void buildAmong();
    void showWanted();
    void showKey();
    void showCards();
    void showFibres();
    void showGrounds();
    void pickGround(int index);
    /// Changes a copy of the state and asks for it.
    template <typename Change>
    void askWith(Change change);
};

} // namespace otherskein::app
