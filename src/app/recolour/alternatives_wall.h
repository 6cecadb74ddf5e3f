#pragma once

#include <QListView>

namespace otherskein::app {

class AlternativeDelegate;
class AlternativesModel;

/// The wall of alternatives: cards as large as the room allows, so that all of them are seen at
/// once. A click or Enter takes one.
class AlternativesWall : public QListView {
    Q_OBJECT

  public:
    explicit AlternativesWall(AlternativesModel& model, QWidget* parent = nullptr);

    /// How many cards there will be, for the room that each gets.
    void setExpected(int count);
    /// Width over height of the chart.
    void setAspect(double aspect);
    void setGround(const QColor& ground);
    /// What the wall says when it has no card.
    void setEmptyText(const QString& text);
    [[nodiscard]] const QString& emptyText() const { return m_emptyText; }

  Q_SIGNALS:
    void takeAsked(int row);
    void newIdeasAsked();
    void moreLikeAsked(int row);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    AlternativesModel& m_model;
    AlternativeDelegate* m_delegate;
    QString m_emptyText;
    int m_expected = 8;
    double m_aspect = 1.5;
    int m_columns = 4;

    void layOut();
    void take(int row);
    [[nodiscard]] QSize cardSize() const { return gridSize(); }
};

} // namespace otherskein::app
