#include "chart/picture.h"

#include "base/input_error.h"
#include "chart/detail/picture_colours.h"
#include "chart/detail/png_chunks.h"
#include "chart/detail/png_image.h"
#include "colour/conversion.h"

#include <QBuffer>
#include <QImage>

#include <algorithm>
#include <array>
#include <cassert>
#include <cstdlib>
#include <new>
#include <stdexcept>

namespace otherskein::chart {

namespace {

std::array<int, 3> stepsApart(const colour::Srgb8& one, const colour::Srgb8& other) {
    return {std::abs(one.r - other.r), std::abs(one.g - other.g), std::abs(one.b - other.b)};
}

/// The key's nearest row that is at most `slack` off in each channel.
std::optional<KeyIndex> rowOf(const colour::Srgb8& srgb, const Key& key, int slack) {
    std::optional<KeyIndex> nearest;
    int least = 0;
    for (std::size_t i = 0; i < key.size(); ++i) {
        const std::array<int, 3> steps = stepsApart(srgb, key[i].pixel);
        if (std::ranges::max(steps) > slack) {
            continue;
        }
        const int sum = steps[0] + steps[1] + steps[2];
        if (!nearest || sum < least) {
            nearest = static_cast<KeyIndex>(i);
            least = sum;
        }
    }
    return nearest;
}

/// The key row of each colour of the picture.
std::vector<KeyIndex> rowsOf(const PictureColours& picture, const Key& key, int slack,
                             const QString& keySource) {
    std::vector<KeyIndex> rows;
    for (const PictureColours::Colour& one : picture.colours) {
        const auto row = rowOf(one.srgb, key, slack);
        if (!row) {
            const QString stitches = one.stitches == 1
                                         ? QStringLiteral("1 stitch")
                                         : QStringLiteral("%1 stitches").arg(one.stitches);
            throw base::InputError({keySource, std::nullopt, QStringLiteral("srgb"),
                                    QStringLiteral("a row for every colour of the picture"),
                                    QStringLiteral("none for %1 (%2, first in column %3, row %4)")
                                        .arg(colour::toHex(one.srgb), stitches)
                                        .arg(one.first.column + 1)
                                        .arg(one.first.row + 1)});
        }
        rows.push_back(*row);
    }
    return rows;
}

Key keyOf(const PictureColours& picture) {
    Key key;
    for (const PictureColours::Colour& one : picture.colours) {
        KeyRow row;
        row.pixel = one.srgb;
        row.lab = colour::labFromSrgb(one.srgb);
        row.symbol = letterSymbol(key.size());
        key.push_back(std::move(row));
    }
    return key;
}

} // namespace

Chart chartFromPicture(const QByteArray& png, const QString& source, const std::optional<Key>& key,
                       const QString& keySource) {
    if (key && key->size() > kMostKeyRows) {
        throw base::InputError({keySource,
                                std::nullopt,
                                {},
                                QStringLiteral("at most %1 rows").arg(kMostKeyRows),
                                QString::number(key->size())});
    }
    const PngParts parts = readPngParts(png, source);
    PictureColours picture = coloursOf(decodedPng(parts, source), parts.profile, source);

    Chart chart;
    chart.key = key ? *key : keyOf(picture);
    const int slack = key && !parts.profile.isEmpty() ? 1 : 0; // rounding in the conversion
    const std::vector<KeyIndex> rows = rowsOf(picture, chart.key, slack, keySource);
    for (KeyIndex& cell : picture.grid.cells()) {
        if (cell != kBare) {
            cell = rows[cell];
        }
    }
    chart.grid = std::move(picture.grid);
    recount(chart);
    return chart;
}

QByteArray pictureBytes(const Chart& chart) {
    assert(chart.grid.columns() > 0 && chart.grid.rows() > 0);
    QImage image(chart.grid.columns(), chart.grid.rows(), QImage::Format_ARGB32);
    if (image.isNull()) {
        throw std::bad_alloc();
    }
    const auto cells = chart.grid.cells();
    std::size_t at = 0;
    for (int y = 0; y < image.height(); ++y) {
        auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < image.width(); ++x, ++at) {
            if (cells[at] == kBare) {
                line[x] = 0;
            } else {
                const colour::Srgb8& pixel = chart.key[cells[at]].pixel;
                line[x] = qRgb(pixel.r, pixel.g, pixel.b);
            }
        }
    }
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    if (!image.save(&buffer, "PNG")) {
        throw std::runtime_error("Qt could not write a PNG");
    }
    return bytes;
}

} // namespace otherskein::chart
