#pragma once

#include "app/frame/panel.h"
#include "app/threads/thread_item.h"

class QPushButton;
class QScrollArea;

namespace otherskein::workbox {
class Document;
}

namespace otherskein::app {

class BigChip;
class ThreadFields;
class ThreadModel;

/// The trailing column of Threads: the chosen thread and all that is known of it.
class ThreadPanel : public Panel {
    Q_OBJECT

  public:
    ThreadPanel(const ThreadModel& model, workbox::Document& document, QWidget* parent = nullptr);

    void show(const std::vector<ThreadRef>& threads);
    using QWidget::show;
    [[nodiscard]] ThreadFields& fields() const { return *m_fields; }

  Q_SIGNALS:
    void substituteAsked();

  private:
    const ThreadModel& m_model;
    BigChip* m_chip;
    QLabel* m_code;
    QLabel* m_name;
    QLabel* m_facts;
    QLabel* m_help;
    QScrollArea* m_scroll;
    ThreadFields* m_fields;
    QPushButton* m_substitute;
    QLabel* m_caution;

    void showOne(const ThreadItem& item);
    void showSeveral(const std::vector<ThreadRef>& threads);
};

} // namespace otherskein::app
