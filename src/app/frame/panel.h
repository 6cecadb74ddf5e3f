#pragma once

#include <QFrame>
#include <QString>

class QLabel;
class QVBoxLayout;

namespace otherskein::app {

/// Which side of a panel has the hairline that parts it from its neighbour, in reading direction.
enum class PanelEdge { None, Leading, Trailing, Below };

/// A plain grey area of the window with the spacing that all places share.
class Panel : public QFrame {
  public:
    explicit Panel(PanelEdge edge, QWidget* parent = nullptr);

    [[nodiscard]] QVBoxLayout* column() const { return m_column; }

    /// A place's or column's title.
    QLabel* addTitle(const QString& text);
    /// A small heading over a group of controls.
    QLabel* addHeading(const QString& text);
    /// Quiet running text that wraps.
    QLabel* addNote(const QString& text);

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    PanelEdge m_edge;
    QVBoxLayout* m_column;
};

[[nodiscard]] QLabel* titleLabel(const QString& text, QWidget* parent);
[[nodiscard]] QLabel* headingLabel(const QString& text, QWidget* parent);
[[nodiscard]] QLabel* noteLabel(const QString& text, QWidget* parent);

} // namespace otherskein::app
