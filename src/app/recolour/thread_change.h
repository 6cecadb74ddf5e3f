#pragma once

#include "app/frame/session.h"
#include "app/recolour/colourway_rows.h"

#include <QWidget>

class QLabel;

namespace otherskein::app {

class WantedField;

/// Where the chosen row's thread is changed by hand: a code or a name is typed, Enter takes it.
class ThreadChange : public QWidget {
    Q_OBJECT

  public:
    ThreadChange(Session& session, QWidget* parent = nullptr);

    /// Null: no row is chosen.
    void show(const ColourwayRow* row);
    void focusField();

  Q_SIGNALS:
    void threadMeant(const std::vector<std::size_t>& parts,
                     const otherskein::colourway::Wanted& thread);
    void told(const QString& text);

  private:
    QLabel* m_text;
    WantedField* m_field;
    std::vector<std::size_t> m_parts;
    colourway::Wanted m_shown;
    std::optional<colourway::Wanted> m_meant; ///< while typing

    void take();
};

} // namespace otherskein::app
