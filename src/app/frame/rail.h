#pragma once

#include <QWidget>

class QButtonGroup;

namespace otherskein::app {

/// The five places, each answering one question.
enum class PlaceId { Threads, Charts, Substitute, Recolour, Ground };
inline constexpr int kPlaces = 5;

[[nodiscard]] QString placeName(PlaceId place);
/// One line that says what the place is for.
[[nodiscard]] QString placeQuestion(PlaceId place);
[[nodiscard]] QPixmap placeIcon(PlaceId place, int side, const QColor& colour, double pixelRatio);

/// The column of places at the window's edge.
class Rail : public QWidget {
    Q_OBJECT

  public:
    explicit Rail(QWidget* parent = nullptr);
    void setCurrent(PlaceId place);

  Q_SIGNALS:
    void chosen(otherskein::app::PlaceId place);

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    QButtonGroup* m_buttons;
};

} // namespace otherskein::app
