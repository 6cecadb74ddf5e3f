#pragma once

#include "thread/ground.h"

#include <QWidget>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QSpinBox;

namespace otherskein::app {

class ColourPatch;
class PhotoView;
class Segmented;

/// One ground to be entered or changed: colour by code, by picker or from a photo; count, weave,
/// size of the piece.
class PieceForm : public QWidget {
    Q_OBJECT

  public:
    explicit PieceForm(QWidget* parent = nullptr);

    void show(const thread::Ground& ground, bool inches);
    using QWidget::show;
    /// As it stands in the form.
    [[nodiscard]] const thread::Ground& ground() const { return m_ground; }
    /// Takes a photo from that file. Errors: InputError.
    void openPhoto(const QString& path);

    /// Which field the last edit was of, so that typing one word is one step to undo.
    [[nodiscard]] int field() const { return m_field; }

  Q_SIGNALS:
    /// The user has changed something.
    void edited();

  private:
    thread::Ground m_ground;
    bool m_inches = true;
    int m_field = 0;
    QLineEdit* m_name;
    QLineEdit* m_hex;
    ColourPatch* m_patch;
    QPushButton* m_pick;
    QPushButton* m_open;
    QSpinBox* m_count;
    Segmented* m_over;
    QComboBox* m_weave;
    QDoubleSpinBox* m_width;
    QDoubleSpinBox* m_height;
    Segmented* m_unit;
    PhotoView* m_photo;
    QLabel* m_photoNote;

    void tell(int field);
    void build();
    void connectAll();
    void takeColour(const colour::Srgb8& srgb);
    void takeLab(const colour::Lab& lab);
    void showColour();
    void showSize();
    [[nodiscard]] double unitMm() const { return m_inches ? 25.4 : 10; }
};

} // namespace otherskein::app
