#pragma once

#include "app/frame/panel.h"
#include "app/tracing/traced_desk.h"

class QLabel;
class QPushButton;

namespace otherskein::app {

/// Under the pair: what the current cell may be instead, most like its print first, on the keys 1
/// to 9; and bare ground.
class ChoiceStrip : public Panel {
    Q_OBJECT

  public:
    static constexpr std::size_t kMost = 9;
    explicit ChoiceStrip(TracedDesk& traced, QWidget* parent = nullptr);

    /// The row on key `number` (from 1), if there is one.
    [[nodiscard]] std::optional<chart::KeyIndex> choice(int number) const;

  Q_SIGNALS:
    /// A row of the key, or kBare.
    void chosen(otherskein::chart::KeyIndex row);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    TracedDesk& m_traced;
    std::size_t m_room = kMost; ///< buttons that have room
    std::vector<chart::KeyIndex> m_rows;
    std::vector<QPushButton*> m_buttons;
    QPushButton* m_bare;
    QLabel* m_label;

    void showChoices();
};

/// A row's mark on its colour, as small as a key cap.
[[nodiscard]] QIcon markIcon(const chart::KeyRow& row, const drawing::Mark& mark,
                             double pixelRatio);

} // namespace otherskein::app
