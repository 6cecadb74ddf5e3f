#pragma once

#include "workbox/document.h"

#include <QListWidget>

#include <optional>

namespace otherskein::app {

/// The shade cards of the workbox with their counts, "All cards" first. A card is renamed in place
/// (F2 or double click).
class CardList : public QListWidget {
    Q_OBJECT

  public:
    explicit CardList(workbox::Document& document, QWidget* parent = nullptr);

    [[nodiscard]] std::optional<workbox::CardId> current() const;
    /// Does not emit `chosen`.
    void setCurrent(std::optional<workbox::CardId> card);
    void renameCurrent();
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

  Q_SIGNALS:
    void chosen(std::optional<otherskein::workbox::CardId> card);
    void deleteAsked();
    void refused(const QString& line);

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    workbox::Document& m_document;

    void fill();
    void takeCounts();
    void rename(QListWidgetItem* item);
};

} // namespace otherskein::app
