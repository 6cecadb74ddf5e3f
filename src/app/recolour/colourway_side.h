#pragma once

#include "app/frame/panel.h"
#include "app/frame/session.h"
#include "app/recolour/recolour_state.h"

class QPushButton;

namespace otherskein::app {

class ColourwayBar;
class ColourwayTable;
class FiguresPanel;
class ThreadChange;

/// The right side: the colourway row by row, what can be said of it, and what can be done with it.
class ColourwaySide : public Panel {
    Q_OBJECT

  public:
    ColourwaySide(Session& session, QWidget* parent = nullptr);

    [[nodiscard]] ColourwayBar& bar() const { return *m_bar; }
    [[nodiscard]] ColourwayTable& table() const { return *m_table; }

    void show(const RecolourState& state, const colourway::Subject& subject,
              const colourway::Colourway& colourway,
              const std::map<std::size_t, colourway::Choice>& locks);
    /// Nothing is found yet.
    void showNothing();

  Q_SIGNALS:
    void partsChosen(const std::vector<std::size_t>& parts);
    void lockAsked(const std::vector<std::size_t>& parts, bool locked);
    void threadMeant(const std::vector<std::size_t>& parts,
                     const otherskein::colourway::Wanted& thread);
    void saveAsked();
    void chartAsked();
    void told(const QString& text);

  private:
    Session& m_session;
    ColourwayBar* m_bar;
    ColourwayTable* m_table;
    ThreadChange* m_change;
    FiguresPanel* m_figures;
    QPushButton* m_save;
    QPushButton* m_makeChart;
};

} // namespace otherskein::app
