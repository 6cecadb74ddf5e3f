#pragma once

#include <QWidget>

namespace otherskein::app {

/// What an empty workbox shows: what each place is for, and the two ways to begin.
class Welcome : public QWidget {
    Q_OBJECT

  public:
    explicit Welcome(QWidget* parent = nullptr);

  Q_SIGNALS:
    void demoAsked();
    void importAsked();
};

} // namespace otherskein::app
