#pragma once

#include "drawing/symbols.h"

#include <QPushButton>

class QListWidget;

namespace otherskein::app {

/// Shows a row's mark; pressed, it opens our drawn set to pick another from.
class SymbolButton : public QPushButton {
    Q_OBJECT

  public:
    explicit SymbolButton(QWidget* parent = nullptr);

    /// `taken`: symbols of other rows, which cannot be picked.
    void showMark(const drawing::Mark& mark, const std::vector<int>& taken);

  Q_SIGNALS:
    void picked(int symbol);

  protected:
    void paintEvent(QPaintEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    drawing::Mark m_mark;
    std::vector<int> m_taken;
    QListWidget* m_set;

    void open();
    void pickCurrent();
};

} // namespace otherskein::app
