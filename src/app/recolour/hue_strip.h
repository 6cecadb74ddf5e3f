#pragma once

#include <QWidget>

namespace otherskein::app {

/// The hues of CIELAB as a row of chips that touch: a press, or the arrow keys, choose one.
class HueStrip : public QWidget {
    Q_OBJECT

  public:
    explicit HueStrip(QWidget* parent = nullptr);

    [[nodiscard]] double hue() const { return m_hue; }
    /// Degrees, 0..360. Does not emit.
    void setHue(double degrees);
    [[nodiscard]] QSize sizeHint() const override;

  Q_SIGNALS:
    void hueChosen(double degrees);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    double m_hue = 0;

    void choose(double degrees);
    void chooseAt(double x);
    [[nodiscard]] QRect chipArea(int step) const;
};

/// "blue", for a CIELAB hue angle in degrees.
[[nodiscard]] QString hueName(double degrees);

} // namespace otherskein::app
