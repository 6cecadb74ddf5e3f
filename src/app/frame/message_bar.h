#pragma once

#include <QWidget>

class QLabel;
class QTimer;

namespace otherskein::app {

/// One line at the foot of the window that says what just happened or what was refused. It goes
/// when it is dismissed or replaced; a refusal is never shown for too short a time to read.
class MessageBar : public QWidget {
    Q_OBJECT

  public:
    explicit MessageBar(QWidget* parent = nullptr);

    void tell(const QString& text);
    /// A refusal stays until dismissed.
    void refuse(const QString& text);
    [[nodiscard]] QString text() const;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    QLabel* m_text;
    QTimer* m_timer;

    void show(const QString& text, bool stays);
};

} // namespace otherskein::app
