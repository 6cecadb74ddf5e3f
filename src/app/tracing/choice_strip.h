#pragma once

#include "app/frame/panel.h"
#include "app/tracing/traced_desk.h"

class QLabel;
class QPushButton;

namespace otherskein::app {

/// Under the pair and under the sheet: rows of the key on the keys 1 to 9, most like the print
/// first, each as it is printed and as it is charted; and bare ground. What they are choices for is
/// the current cell, the selected cells of the sheet, or the symbol that the sheet shows.
class ChoiceStrip : public Panel {
    Q_OBJECT

  public:
    static constexpr std::size_t kMost = 9;
    explicit ChoiceStrip(TracedDesk& traced, QWidget* parent = nullptr);

    /// The row on key `number` (from 1), if there is one.
    [[nodiscard]] std::optional<chart::KeyIndex> choice(int number) const;
    /// What is selected in the sheet.
    void setSelected(const std::vector<chart::Cell>& cells);

  Q_SIGNALS:
    /// A row of the key, or kBare.
    void chosen(otherskein::chart::KeyIndex row);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    TracedDesk& m_traced;
    std::vector<chart::Cell> m_selected;
    std::size_t m_room = kMost; ///< buttons that have room
    std::vector<chart::KeyIndex> m_rows;
    std::vector<QPushButton*> m_buttons;
    QPushButton* m_bare;
    QLabel* m_label;
    QLabel* m_own; ///< the sheet's symbol, to be compared with the choices
    QLabel* m_keys;

    enum class Subject { None, Cell, Selected, Symbol };
    [[nodiscard]] Subject subject() const;
    void layOut();
    void connectParts();
    void findRows();
    void showChoices();
    void showLabels();
    void showButton(std::size_t place);
};

/// A row's mark on its colour, as small as a key cap.
[[nodiscard]] QIcon markIcon(const chart::KeyRow& row, const drawing::Mark& mark,
                             double pixelRatio);

} // namespace otherskein::app
