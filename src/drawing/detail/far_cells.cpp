#include "drawing/detail/far_cells.h"

#include "drawing/detail/light.h"

#include <array>
#include <cassert>
#include <cstring>
#include <vector>

namespace otherskein::drawing::detail {

namespace {

constexpr std::uint32_t kWhole = 256;
constexpr double kLeastScale = 0.6;

/// The texels under one pixel and their shares, which come to kWhole.
struct Taps {
    int first = 0;
    std::array<std::uint32_t, 3> share{};

    bool operator==(const Taps&) const = default;
};

Taps tapsOf(int pixel, double scale) {
    const double from = pixel / scale;
    const double to = (pixel + 1) / scale;
    Taps taps;
    taps.first = static_cast<int>(std::floor(from));
    std::uint32_t left = kWhole;
    for (int i = 0; i < 3; ++i) {
        const double begin = std::max(from, static_cast<double>(taps.first + i));
        const double end = std::min(to, static_cast<double>(taps.first + i + 1));
        const auto share = static_cast<std::uint32_t>(
            std::lround(std::max(0.0, end - begin) * scale * static_cast<double>(kWhole)));
        taps.share[static_cast<std::size_t>(i)] = std::min(left, share);
        left -= taps.share[static_cast<std::size_t>(i)];
    }
    taps.share[0] += left;
    if (taps.share[0] == 0 && taps.share[2] == 0) { // one texel only: to the front
        ++taps.first;
        taps.share = {kWhole, 0, 0};
    }
    return taps;
}

/// 16-bit linear light.
struct Pixel16 {
    std::uint32_t r = 0;
    std::uint32_t g = 0;
    std::uint32_t b = 0;
};

Pixel16 mean(const Pixel16* at, const std::array<std::uint32_t, 3>& share) {
    if (share[0] == kWhole) {
        return at[0];
    }
    Pixel16 sum{share[0] * at[0].r + share[1] * at[1].r, share[0] * at[0].g + share[1] * at[1].g,
                share[0] * at[0].b + share[1] * at[1].b};
    if (share[2] != 0) {
        sum.r += share[2] * at[2].r;
        sum.g += share[2] * at[2].g;
        sum.b += share[2] * at[2].b;
    }
    return {sum.r >> 8, sum.g >> 8, sum.b >> 8};
}

/// Rows of the picture, drawn out to the width of the frame; the last three are kept.
class StretchedRows {
  public:
    StretchedRows(const QImage& picture, QRgb ground, std::vector<Taps> columns)
        : m_picture(picture), m_columns(std::move(columns)), m_ground(of(ground)),
          m_first(m_columns.front().first),
          m_texels(static_cast<std::size_t>(m_columns.back().first + 3 - m_first)) {
        for (auto& row : m_rows) {
            row.resize(m_columns.size());
        }
    }

    const Pixel16* row(int y) {
        const auto slot = static_cast<std::size_t>(((y % 3) + 3) % 3);
        if (!m_filled[slot] || m_held[slot] != y) {
            stretch(y, m_rows[slot]);
            m_filled[slot] = true;
            m_held[slot] = y;
        }
        return m_rows[slot].data();
    }

  private:
    Pixel16 of(QRgb colour) const {
        return {m_tables.linear16(qRed(colour)), m_tables.linear16(qGreen(colour)),
                m_tables.linear16(qBlue(colour))};
    }

    void stretch(int y, std::vector<Pixel16>& out) {
        const bool isInside = y >= 0 && y < m_picture.height();
        const auto* line =
            isInside ? reinterpret_cast<const QRgb*>(m_picture.constScanLine(y)) : nullptr;
        for (std::size_t i = 0; i < m_texels.size(); ++i) {
            const int x = m_first + static_cast<int>(i);
            m_texels[i] = isInside && x >= 0 && x < m_picture.width() ? of(line[x]) : m_ground;
        }
        for (std::size_t i = 0; i < m_columns.size(); ++i) {
            out[i] = mean(&m_texels[static_cast<std::size_t>(m_columns[i].first - m_first)],
                          m_columns[i].share);
        }
    }

    const LightTables& m_tables = lightTables();
    const QImage& m_picture;
    std::vector<Taps> m_columns;
    Pixel16 m_ground;
    int m_first;
    std::vector<Pixel16> m_texels;
    std::array<std::vector<Pixel16>, 3> m_rows;
    std::array<int, 3> m_held{};
    std::array<bool, 3> m_filled{};
};

} // namespace

void paintFar(const Frame& frame, const QRect& inside, const QImage& picture, double scale,
              const QPoint& origin, QRgb ground) {
    assert(scale >= kLeastScale);
    if (inside.isEmpty()) {
        return;
    }
    const LightTables& tables = lightTables();
    std::vector<Taps> columns;
    for (int x = inside.left(); x <= inside.right(); ++x) {
        columns.push_back(tapsOf(x - origin.x(), scale));
    }
    StretchedRows rows(picture, ground, std::move(columns));
    const auto width = static_cast<std::size_t>(inside.width());
    Taps last;
    for (int y = inside.top(); y <= inside.bottom(); ++y) {
        const Taps taps = tapsOf(y - origin.y(), scale);
        QRgb* out = frame.line(y) + (inside.left() - frame.left());
        if (y > inside.top() && taps == last) { // inside one row of large texels
            std::memcpy(out, frame.line(y - 1) + (inside.left() - frame.left()),
                        width * sizeof(QRgb));
            continue;
        }
        last = taps;
        const Pixel16* one = rows.row(taps.first);
        const Pixel16* two = taps.share[1] != 0 ? rows.row(taps.first + 1) : one;
        const Pixel16* three = taps.share[2] != 0 ? rows.row(taps.first + 2) : one;
        const auto [a, b, c] = taps.share;
        for (std::size_t x = 0; x < width; ++x) {
            const auto mixed = [&, a = a, b = b, c = c](std::uint32_t Pixel16::*channel) {
                return tables.srgbOf16(
                    (a * one[x].*channel + b * two[x].*channel + c * three[x].*channel) >> 8);
            };
            out[x] = qRgb(mixed(&Pixel16::r), mixed(&Pixel16::g), mixed(&Pixel16::b));
        }
    }
}

} // namespace otherskein::drawing::detail
