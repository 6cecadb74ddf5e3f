#pragma once

#include <QWidget>

namespace otherskein::app {

/// What Recolour shows without a chart: what it is for, and how to begin.
class RecolourEmpty : public QWidget {
    Q_OBJECT

  public:
    explicit RecolourEmpty(QWidget* parent = nullptr);

  Q_SIGNALS:
    void chartsAsked();
    void demoAsked();
};

} // namespace otherskein::app
