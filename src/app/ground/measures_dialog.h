#pragma once

#include "app/frame/session.h"

#include <QDialog>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QSpinBox;

namespace otherskein::app {

/// The user's own measures: how wide one strand lies, from a stitched sample, by fibre; how far a
/// skein goes. Both are kept as they are entered.
class MeasuresDialog : public QDialog {
    Q_OBJECT

  public:
    MeasuresDialog(Session& session, const thread::Ground& ground, QWidget* parent = nullptr);

  private:
    Session& m_session;
    thread::Ground m_ground;
    QComboBox* m_fibre;
    QDoubleSpinBox* m_width;
    QSpinBox* m_sampleStrands;
    QDoubleSpinBox* m_sampleWidth;
    QLabel* m_widthNote;
    QDoubleSpinBox* m_waste;
    QSpinBox* m_stitches;
    QSpinBox* m_strands;
    QSpinBox* m_plies;
    QDoubleSpinBox* m_length;
    QLabel* m_wasteNote;

    void build();
    void connectAll();
    void showWidth();
    void takeWidth(double mm);
    void takeSample();
    void takeSkein();
    [[nodiscard]] thread::Thread threadOfFibre() const;
};

} // namespace otherskein::app
