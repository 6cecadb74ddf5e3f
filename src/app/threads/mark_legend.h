#pragma once

#include <QWidget>

namespace otherskein::app {

/// Says what the marks on a chip mean.
class MarkLegend : public QWidget {
    Q_OBJECT

  public:
    explicit MarkLegend(QWidget* parent = nullptr);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

  protected:
    void paintEvent(QPaintEvent* event) override;
};

} // namespace otherskein::app
