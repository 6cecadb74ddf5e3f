#pragma once

#include "app/frame/panel.h"
#include "app/threads/thread_item.h"
#include "workbox/document.h"

class QComboBox;
class QLineEdit;

namespace otherskein::app {

/// One line above the wall to add a thread: card, code, name, colour. Stays open for the next one.
class AddRow : public Panel {
    Q_OBJECT

  public:
    explicit AddRow(workbox::Document& document, QWidget* parent = nullptr);

    /// `card`: the one shown, or nothing, and then the row asks for one.
    void open(std::optional<workbox::CardId> card);
    void close();

  Q_SIGNALS:
    void added(const otherskein::app::ThreadRef& thread);
    void refused(const QString& line);
    void closed();

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    workbox::Document& m_document;
    std::optional<workbox::CardId> m_card;
    QComboBox* m_cards;
    QLineEdit* m_code;
    QLineEdit* m_name;
    QLineEdit* m_colour;
    QWidget* m_swatch;

    void fillCards();
    void add();
};

} // namespace otherskein::app
