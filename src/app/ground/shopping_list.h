#pragma once

#include "colourway/quantities.h"

#include <QDialog>

class QTableWidget;

namespace otherskein::app {

/// What a chart takes of every thread, and what is to be bought.
class ShoppingList : public QDialog {
    Q_OBJECT

  public:
    ShoppingList(const QString& chart, const colourway::Quantities& quantities,
                 const colourway::Usage& usage, QWidget* parent = nullptr);

    /// As text that can be pasted into a message.
    [[nodiscard]] QString text() const;

  private:
    QString m_chart;
    colourway::Quantities m_quantities;

    void fill(QTableWidget& table);
};

} // namespace otherskein::app
