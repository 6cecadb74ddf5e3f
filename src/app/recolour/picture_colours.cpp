#include "app/recolour/picture_colours.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "base/input_error.h"
#include "colour/conversion.h"
#include "colourway/main_colours.h"

#include <QFileInfo>
#include <QImageReader>
#include <QPainter>

namespace otherskein::app {

PictureColours::PictureColours(QWidget* parent) : QWidget(parent) {
    constexpr int kHeight = 30;
    setFixedHeight(kHeight);
    setMinimumWidth(100);
    setAccessibleName(tr("Main colours of the picture"));
}

void PictureColours::show(const std::vector<colour::Lab>& colours) {
    m_colours = colours;
    QStringList names;
    for (const colour::Lab& lab : colours) {
        names.push_back(colour::toHex(colour::srgbFromLab(lab)));
    }
    setAccessibleDescription(names.join(QStringLiteral(", ")));
    update();
}

void PictureColours::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), greys().surround);
    const int count = static_cast<int>(m_colours.size());
    for (int i = 0; i < count; ++i) {
        const int left = i * width() / count;
        painter.fillRect(left, 0, (i + 1) * width() / count - left, height(),
                         toQColor(colour::srgbFromLab(m_colours[static_cast<std::size_t>(i)])));
    }
}

ProgressLine::ProgressLine(QWidget* parent) : QWidget(parent) {
    setAttribute(Qt::WA_TransparentForMouseEvents);
    setAccessibleName(tr("Share of the alternatives found"));
    hide();
}

void ProgressLine::show(std::optional<double> done) {
    m_done = done;
    setVisible(done.has_value());
    if (done) {
        setAccessibleDescription(tr("%1 %").arg(static_cast<int>(*done * 100)));
        raise();
        update();
    }
}

void ProgressLine::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.fillRect(rect(), greys().line);
    QRect done = rect();
    done.setWidth(static_cast<int>(m_done.value_or(0) * width()));
    painter.fillRect(done, greys().strong);
}

std::vector<colour::Lab> coloursOfPicture(const QString& path) {
    // A few hundred pixels tell the main colours as well as millions do.
    constexpr int kSide = 320;
    constexpr std::size_t kColours = 10;
    const auto refuse = [&](const QString& found) {
        throw base::InputError(
            {QFileInfo(path).fileName(), std::nullopt, {}, PictureColours::tr("a picture"), found});
    };
    QImageReader reader(path);
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (size.isValid() && size.width() > kSide && size.height() > kSide) {
        reader.setScaledSize(size.scaled(kSide, kSide, Qt::KeepAspectRatioByExpanding));
    }
    const QImage picture = reader.read();
    if (picture.isNull()) {
        refuse(reader.errorString());
    }
    std::vector<colour::Lab> colours;
    for (const colourway::MainColour& one : colourway::mainColours(picture, kColours)) {
        colours.push_back(one.lab);
    }
    if (colours.empty()) {
        refuse(PictureColours::tr("one without colours"));
    }
    return colours;
}

bool isPictureName(const QString& path) {
    return QImageReader::supportedImageFormats().contains(
        QFileInfo(path).suffix().toLower().toLatin1());
}

QString pictureNameFilter() {
    QStringList ends;
    for (const QByteArray& format : QImageReader::supportedImageFormats()) {
        ends.push_back(QStringLiteral("*.") + QString::fromLatin1(format));
    }
    return PictureColours::tr("Pictures (%1)").arg(ends.join(QLatin1Char(' ')));
}

} // namespace otherskein::app
