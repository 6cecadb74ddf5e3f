#pragma once

#include "app/frame/panel.h"
#include "app/recolour/recolour_state.h"

class QCheckBox;
class QLabel;
class QPushButton;

namespace otherskein::app {

class HueStrip;
class MoreOptions;
class PictureColours;
class ProgressLine;
class Segmented;

/// The bar over the wall: where its colours come from, and what makes new ones. Shows a state and
/// asks for a new one.
class ThemeBar : public Panel {
    Q_OBJECT

  public:
    explicit ThemeBar(QWidget* parent = nullptr);

    void show(const RecolourState& state);
    [[nodiscard]] MoreOptions& more() const { return *m_more; }
    /// None: nothing runs.
    void showProgress(std::optional<double> done);
    void setCanLike(bool can);

  Q_SIGNALS:
    void asked(const otherskein::app::RecolourState& state);
    void pictureAsked();
    void newIdeasAsked();
    void moreLikeAsked();
    void stopAsked();

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    RecolourState m_state;
    QLabel* m_title;
    Segmented* m_ofMotifs;
    Segmented* m_ofFamily;
    QPushButton* m_stop;
    QPushButton* m_like;
    QPushButton* m_new;
    QPushButton* m_open;
    QWidget* m_hueRow;
    HueStrip* m_hue;
    QLabel* m_hueName;
    QCheckBox* m_neutrals;
    QWidget* m_pictureRow;
    PictureColours* m_picture;
    QLabel* m_pictureName;
    MoreOptions* m_more;
    ProgressLine* m_progress;

    void buildRows();
    void connectAll();
    void chooseSource(ColourSource source);
    template <typename Change>
    void askWith(Change change);
};

} // namespace otherskein::app
