#pragma once

#include "colour/lab.h"

#include <QWidget>

#include <optional>
#include <vector>

namespace otherskein::app {

/// The main colours of a picture, touching.
class PictureColours : public QWidget {
    Q_OBJECT

  public:
    explicit PictureColours(QWidget* parent = nullptr);
    void show(const std::vector<colour::Lab>& colours);

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    std::vector<colour::Lab> m_colours;
};

/// A thin line that fills while something is worked on.
class ProgressLine : public QWidget {
    Q_OBJECT

  public:
    static constexpr int kHeight = 3;

    explicit ProgressLine(QWidget* parent = nullptr);
    /// Share done, 0..1; none: nothing runs.
    void show(std::optional<double> done);

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    std::optional<double> m_done;
};

/// Main colours of a picture file. Errors: InputError when it cannot be read as a picture or holds
/// no colour.
[[nodiscard]] std::vector<colour::Lab> coloursOfPicture(const QString& path);
/// By its name's end, whether a file may be a picture that this program reads.
[[nodiscard]] bool isPictureName(const QString& path);
/// For a file dialog: "Pictures (*.png *.jpg)".
[[nodiscard]] QString pictureNameFilter();

} // namespace otherskein::app
