#pragma once

#include "app/frame/session.h"

#include <QComboBox>

namespace otherskein::app {

/// Which chart substitutes are judged in: one of the workbox's, a key alone, or none.
class ChartChoice : public QComboBox {
    Q_OBJECT

  public:
    explicit ChartChoice(Session& session, QWidget* parent = nullptr);

  Q_SIGNALS:
    /// A key is to be opened from a file.
    void keyAsked();

  private:
    Session& m_session;

    void fill();
    void choose(int index);
};

} // namespace otherskein::app
