#pragma once

#include <QColor>
#include <QWidget>

#include <vector>

namespace otherskein::app {

/// The chosen colours, large, flat and touching.
class BigChip : public QWidget {
    Q_OBJECT

  public:
    explicit BigChip(QWidget* parent = nullptr);
    void show(std::vector<QColor> colours);
    using QWidget::show;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    std::vector<QColor> m_colours;
};

} // namespace otherskein::app
