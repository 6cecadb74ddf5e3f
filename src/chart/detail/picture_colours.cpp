#include "chart/detail/picture_colours.h"

#include "base/input_error.h"
#include "colour/profile.h"

#include <QHash>

#include <cassert>

namespace otherskein::chart {

namespace {

/// Different 16-bit colours, before they become 8-bit ones; so that an index is a KeyIndex.
constexpr std::size_t kMostSamples = kBare;

std::uint8_t roundedTo8(std::uint16_t sample) {
    constexpr unsigned kStep = 257; // 65535 / 255
    return static_cast<std::uint8_t>((sample + kStep / 2) / kStep);
}

[[noreturn]] void tooManyColours(const QString& source, const QString& found) {
    throw base::InputError(
        {source,
         std::nullopt,
         {},
         QStringLiteral("at most %1 colours (a chart picture has one pixel a stitch and one colour "
                        "a thread; a photograph or a picture with smoothed edges must be reduced "
                        "first)")
             .arg(kMostKeyRows),
         found});
}

/// The picture in its own colour space.
struct Samples {
    Grid grid;
    std::vector<colour::ProfileRgb> colours;
    std::vector<Cell> first;
};

class Sampler {
  public:
    Sampler(const QImage& image, const QString& source) : m_image(image), m_source(source) {
        m_samples.grid = Grid(image.width(), image.height());
    }

    Samples samples() {
        const std::span<KeyIndex> cells = m_samples.grid.cells();
        std::size_t at = 0;
        for (int y = 0; y < m_image.height(); ++y) {
            const auto* line = reinterpret_cast<const QRgba64*>(m_image.constScanLine(y));
            for (int x = 0; x < m_image.width(); ++x, ++at) {
                const QRgba64 pixel = line[x];
                if (const std::uint8_t alpha = roundedTo8(pixel.alpha()); alpha == 255) {
                    cells[at] = indexOf(pixel, {x, y});
                } else if (alpha != 0) {
                    halfClear({x, y});
                }
            }
        }
        return std::move(m_samples);
    }

  private:
    const QImage& m_image;
    const QString& m_source;
    Samples m_samples;
    QHash<quint64, KeyIndex> m_known;
    quint64 m_last = 0; // no opaque pixel's value
    KeyIndex m_lastIndex = kBare;

    KeyIndex indexOf(QRgba64 pixel, const Cell& cell) {
        constexpr unsigned kOpaque = 0xffff;
        const quint64 value =
            qRgba64(pixel.red(), pixel.green(), pixel.blue(), kOpaque); // alpha says no more
        if (value != m_last) {                                          // stitches come in runs
            m_last = value;
            const auto known = m_known.constFind(value);
            m_lastIndex = known != m_known.constEnd() ? *known : added(value, pixel, cell);
        }
        return m_lastIndex;
    }

    KeyIndex added(quint64 value, QRgba64 pixel, const Cell& cell) {
        if (m_samples.colours.size() == kMostSamples) {
            tooManyColours(m_source, QStringLiteral("more than %1").arg(kMostSamples));
        }
        const auto index = static_cast<KeyIndex>(m_samples.colours.size());
        m_samples.colours.push_back({pixel.red(), pixel.green(), pixel.blue()});
        m_samples.first.push_back(cell);
        m_known.insert(value, index);
        return index;
    }

    [[noreturn]] void halfClear(const Cell& cell) const {
        throw base::InputError({m_source,
                                std::nullopt,
                                {},
                                QStringLiteral("every pixel opaque (a stitch) or clear (bare)"),
                                QStringLiteral("a half-clear pixel in column %1, row %2")
                                    .arg(cell.column + 1)
                                    .arg(cell.row + 1)});
    }
};

std::vector<colour::Srgb8> srgbOf(const Samples& samples, const QByteArray& profile,
                                  const QString& source) {
    if (!profile.isEmpty()) {
        return colour::srgbThrough(profile, samples.colours, source);
    }
    std::vector<colour::Srgb8> srgb;
    srgb.reserve(samples.colours.size());
    for (const colour::ProfileRgb& one : samples.colours) {
        srgb.push_back({roundedTo8(one.r), roundedTo8(one.g), roundedTo8(one.b)});
    }
    return srgb;
}

} // namespace

PictureColours coloursOf(const QImage& image, const QByteArray& profile, const QString& source) {
    assert(image.format() == QImage::Format_RGBA64);
    Samples samples = Sampler(image, source).samples();
    const std::vector<colour::Srgb8> srgb = srgbOf(samples, profile, source);

    PictureColours result;
    std::vector<KeyIndex> merged; // 16-bit neighbours may be one 8-bit colour
    QHash<QRgb, KeyIndex> known;
    for (std::size_t i = 0; i < srgb.size(); ++i) {
        const QRgb value = qRgb(srgb[i].r, srgb[i].g, srgb[i].b);
        auto at = known.constFind(value);
        if (at == known.constEnd()) {
            at = known.insert(value, static_cast<KeyIndex>(result.colours.size()));
            result.colours.push_back({srgb[i], samples.first[i], 0});
        }
        merged.push_back(*at);
    }
    if (result.colours.size() > kMostKeyRows) {
        tooManyColours(source, QString::number(result.colours.size()));
    }
    for (KeyIndex& cell : samples.grid.cells()) {
        if (cell != kBare) {
            cell = merged[cell];
            ++result.colours[cell].stitches;
        }
    }
    result.grid = std::move(samples.grid);
    return result;
}

} // namespace otherskein::chart
