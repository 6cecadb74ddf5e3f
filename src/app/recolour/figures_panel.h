#pragma once

#include "colourway/recolour.h"

#include <QWidget>

class QLabel;

namespace otherskein::app {

/// "This colourway": what can be said of it in figures, and what converting could not keep.
class FiguresPanel : public QWidget {
    Q_OBJECT

  public:
    explicit FiguresPanel(QWidget* parent = nullptr);

    /// `converts`: with what it could not keep apart.
    void show(const colourway::Subject& subject, const colourway::Colourway& colourway,
              bool converts);

  private:
    struct Line {
        QWidget* row = nullptr;
        QLabel* text = nullptr;
        QLabel* value = nullptr;
    };
    Line m_neighbours;
    Line m_ground;
    Line m_order;
    Line m_threads;
    Line m_toBuy;
    QLabel* m_lost;

    Line addLine(const QString& text);
};

/// "Sailcloth and Skiff were 18.4 apart, now 6.2", a line a pair, worst first.
[[nodiscard]] QStringList lostSeparationTexts(const colourway::Subject& subject,
                                              const std::vector<colourway::Choice>& now);

} // namespace otherskein::app
