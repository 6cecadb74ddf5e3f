#pragma once

#include "workbox/store.h"

#include <QWidget>

#include <optional>
#include <vector>

class QComboBox;
class QLineEdit;
class QPushButton;
class QStackedWidget;

namespace otherskein::app {

/// The kept colourways of a chart: which is shown, its name, copies, deletion.
class ColourwayBar : public QWidget {
    Q_OBJECT

  public:
    explicit ColourwayBar(QWidget* parent = nullptr);

    void show(const std::vector<workbox::StoredColourway>& kept,
              std::optional<workbox::ColourwayId> current);

  Q_SIGNALS:
    void chosen(otherskein::workbox::ColourwayId id);
    void renamed(const QString& name);
    void copyAsked();
    void deleteAsked();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    QStackedWidget* m_pages;
    QComboBox* m_kept;
    QLineEdit* m_name;
    QPushButton* m_menu;

    void beginRename();
    void endRename();
};

} // namespace otherskein::app
