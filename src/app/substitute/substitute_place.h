#pragma once

#include "app/frame/session.h"
#include "app/substitute/substitute_state.h"

#include <QWidget>

class QLabel;
class QListView;
class QPushButton;

namespace otherskein::app {

class AnswerWorker;
class CandidateDelegate;
class CandidateModel;
class LabPlot;
class QuestionPanel;
class Segmented;

/// Substitute: what else can I use? A question on the left, ranked candidates in the middle, where
/// they lie on the right. Every change of the question is answered at once.
class SubstitutePlace : public QWidget {
    Q_OBJECT

  public:
    explicit SubstitutePlace(Session& session, QWidget* parent = nullptr);
    ~SubstitutePlace() override;

    [[nodiscard]] const SubstituteState& state() const { return m_state; }
    /// Shows this state and looks for its answer.
    void ask(const SubstituteState& state);
    [[nodiscard]] const SubstituteAnswer& answer() const;
    [[nodiscard]] bool isBusy() const;

    void focusWanted();
    void askForKey();

  Q_SIGNALS:
    void answered();
    void told(const QString& text);
    void refused(const QString& line);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    Session& m_session;
    SubstituteState m_state;
    QString m_remembered; ///< the switches as the workbox has them
    AnswerWorker* m_worker;
    CandidateModel* m_model;
    CandidateDelegate* m_delegate;
    QuestionPanel* m_question;
    QListView* m_list = nullptr;
    QWidget* m_plotPanel = nullptr;
    LabPlot* m_plot = nullptr;
    QLabel* m_title = nullptr;
    QLabel* m_subtitle = nullptr;
    QLabel* m_empty = nullptr;
    QLabel* m_detail = nullptr;
    Segmented* m_order = nullptr;
    Segmented* m_weights = nullptr;
    QPushButton* m_copy = nullptr;

    QWidget* buildHeader();
    QWidget* buildMiddle();
    QWidget* buildPlotPanel();
    void connectAll();
    void showAnswer(const SubstituteAnswer& answer);
    void showChosen(int row);
    void takeFromSession();
    void copyList();
    void wantCandidate(const QModelIndex& index);
};

} // namespace otherskein::app
