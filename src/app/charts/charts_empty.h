#pragma once

#include <QWidget>

namespace otherskein::app {

/// What Charts shows as long as the workbox has no chart: what the place is for, and how to begin.
class ChartsEmpty : public QWidget {
    Q_OBJECT

  public:
    explicit ChartsEmpty(QWidget* parent = nullptr);

  Q_SIGNALS:
    void openAsked();
    void traceAsked();
    void demoAsked();
};

} // namespace otherskein::app
