#pragma once

#include "trace/tracing.h"

#include <QWidget>

#include <array>
#include <optional>

class QLabel;
class QSpinBox;

namespace otherskein::app {

/// How the pieces of a chart over several pages lie to each other, in small.
class PieceSketch : public QWidget {
    Q_OBJECT

  public:
    explicit PieceSketch(QWidget* parent = nullptr);
    /// `numbers[i]` is what piece i is called by.
    void show(const std::vector<trace::Piece>& pieces, const QStringList& numbers);
    /// Where a piece lies in the widget; for tests too.
    [[nodiscard]] QRectF rectOf(std::size_t piece) const;

  Q_SIGNALS:
    /// A piece was dragged to another place.
    void moved(int piece, const otherskein::chart::Cell& place);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;

  private:
    /// The chart in the widget: so many pixels a cell, its first cell there.
    struct Fit {
        double scale = 1;
        QPointF origin;
    };
    struct Drag {
        std::size_t piece = 0;
        QPointF from;
        chart::Cell place; ///< when it began
        Fit fit;           ///< stays while it lasts
    };

    std::vector<trace::Piece> m_pieces;
    QStringList m_numbers;
    std::optional<Drag> m_drag;

    [[nodiscard]] Fit fit() const;
};

/// The places of the pieces, to be corrected by hand: dragged, or the first column and the first
/// row of each typed.
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
    QLabel* m_size;
    QWidget* m_rows;
    std::vector<std::array<QSpinBox*, 2>> m_boxes; ///< column and row of each

    void makeRows();
    void showPlaces();
    [[nodiscard]] QString nameOf(std::size_t piece) const;
    [[nodiscard]] QStringList numbers() const;
};

} // namespace otherskein::app
