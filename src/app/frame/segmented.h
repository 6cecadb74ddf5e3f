#pragma once

#include <QWidget>

class QButtonGroup;

namespace otherskein::app {

/// A row of buttons that touch, one of them down. Arrow keys move along it.
class Segmented : public QWidget {
    Q_OBJECT

  public:
    Segmented(const QString& accessibleName, const QStringList& labels, QWidget* parent = nullptr);

    [[nodiscard]] int current() const;
    /// Does not emit `chosen`.
    void setCurrent(int index);

  Q_SIGNALS:
    void chosen(int index);

  private:
    QButtonGroup* m_buttons;
};

} // namespace otherskein::app
