#pragma once

#include "app/charts/motif_model.h"

#include <QWidget>

class QLabel;
class QPushButton;
class QSlider;

namespace otherskein::app {

class MotifTable;

/// How the chart is cut into motifs: the slider from few to many, and what is joined, cut and named
/// by hand.
class MotifPage : public QWidget {
    Q_OBJECT

  public:
    explicit MotifPage(ChartDesk& desk, QWidget* parent = nullptr);

    void join();

  private:
    ChartDesk& m_desk;
    MotifModel* m_model;
    QLabel* m_count;
    QSlider* m_step;
    MotifTable* m_table;
    QPushButton* m_join;
    QPushButton* m_cut;
    QPushButton* m_name;
    QPushButton* m_afresh;
    QLabel* m_advice;
    int m_round = 0; ///< steps of one pull at the slider are one edit

    void layOut();
    void connectParts();
    void showMotifs();
    void setStep(int step);
};

} // namespace otherskein::app
