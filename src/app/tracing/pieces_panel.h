#pragma once

#include "trace/tracing.h"

#include <QWidget>

class QGridLayout;
class QSpinBox;

namespace otherskein::app {

/// How the pieces of a chart over several pages lie to each other, in small.
class PieceSketch : public QWidget {
    Q_OBJECT

  public:
    explicit PieceSketch(QWidget* parent = nullptr);
    /// `numbers[i]` is what piece i is called by.
    void show(const std::vector<trace::Piece>& pieces, const QStringList& numbers);

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    std::vector<trace::Piece> m_pieces;
    QStringList m_numbers;
};

/// The places of the pieces, to be corrected by hand: first column and first row of each.
class PiecesPanel : public QWidget {
    Q_OBJECT

  public:
    explicit PiecesPanel(QWidget* parent = nullptr);

    /// `pages[i]` is the number of the page that piece i is on.
    void show(const std::vector<trace::Piece>& pieces, const std::vector<int>& pages);
    [[nodiscard]] const std::vector<trace::Piece>& pieces() const { return m_pieces; }

  private:
    std::vector<trace::Piece> m_pieces;
    std::vector<int> m_pages;
    PieceSketch* m_sketch;
    QWidget* m_rows;

    void makeRows();
};

} // namespace otherskein::app
