#pragma once

#include "app/frame/panel.h"
#include "app/threads/card_import.h"

class QPlainTextEdit;

namespace otherskein::app {

/// Under the wall after an import: what became of each file. Stays until it is closed.
class ImportReport : public Panel {
    Q_OBJECT

  public:
    explicit ImportReport(QWidget* parent = nullptr);

    void show(const std::vector<ImportOutcome>& outcomes);
    using QWidget::show;
    [[nodiscard]] QString text() const;

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    QLabel* m_summary;
    QPlainTextEdit* m_lines;
};

} // namespace otherskein::app
