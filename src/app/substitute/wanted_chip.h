#pragma once

#include "colourway/substitute.h"
#include "thread/ground.h"

#include <QWidget>

namespace otherskein::app {

/// The wanted colour, alone on its ground.
class WantedChip : public QWidget {
    Q_OBJECT

  public:
    explicit WantedChip(QWidget* parent = nullptr);
    void show(const colourway::Wanted& wanted, const thread::Ground& ground);

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    colourway::Wanted m_wanted;
    thread::Ground m_ground;
};

/// The threads of the chart's key as small chips that touch; a press, or arrow keys and Enter,
/// choose one.
class KeyStrip : public QWidget {
    Q_OBJECT

  public:
    explicit KeyStrip(QWidget* parent = nullptr);
    void show(const chart::Key& key, const QString& wantedCode);

  Q_SIGNALS:
    void chosen(const QString& card, const QString& code);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;

  private:
    chart::Key m_key;
    QString m_wantedCode;
    int m_at = 0;

    [[nodiscard]] QRect chipRect(int i) const;
    [[nodiscard]] int chipAt(const QPoint& point) const;
    void choose(int i);
};

} // namespace otherskein::app
