#pragma once

#include "app/frame/panel.h"
#include "app/threads/threads_state.h"

class QLabel;
class QLineEdit;
class QSlider;

namespace otherskein::app {

class Segmented;

/// Above the wall: search, order, view, size of the chips, and how many threads are shown.
class ThreadsBar : public Panel {
    Q_OBJECT

  public:
    explicit ThreadsBar(QWidget* parent = nullptr);

    void showState(const ThreadsState& state, int shown, int total, int chosen);
    [[nodiscard]] QLineEdit& search() const { return *m_search; }

  Q_SIGNALS:
    void searchTyped(const QString& text);
    void orderChosen(otherskein::app::WallOrder order);
    void viewChosen(otherskein::app::ThreadsView view);
    void chipWidthChosen(int pixels);
    void addAsked();
    /// Down from the search field.
    void intoThreadsAsked();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    QLineEdit* m_search;
    QLabel* m_count;
    QLabel* m_countMore;
    QSlider* m_chipWidth;
    Segmented* m_order;
    Segmented* m_view;
};

} // namespace otherskein::app
