#include "drawing/detail/sprites.h"

#include <QImage>
#include <QPainter>

#include <algorithm>

namespace otherskein::drawing::detail {

namespace {

/// From here on a mark can be read.
constexpr int kLeastMarked = 8;

} // namespace

bool wantsLightLine(QRgb under) {
    // About L* 38: as far from black as a hairline needs.
    const Light light = lightTables().light(under);
    return 0.2126F * light.r + 0.7152F * light.g + 0.0722F * light.b < 0.1F;
}

QRgb lined(QRgb under, bool light, float strength) {
    const int share = static_cast<int>(256 * strength);
    const int to = light ? 255 : 0;
    const auto mixed = [&](int channel) { return channel + (to - channel) * share / 256; };
    return qRgb(mixed(qRed(under)), mixed(qGreen(under)), mixed(qBlue(under)));
}

void Sprites::setLook(const CellLook& look) {
    if (look == m_look) {
        return;
    }
    if (look.size != m_look.size || look.coverage != m_look.coverage) {
        forgetReliefs();
    }
    m_look = look;
    forgetPictures();
}

void Sprites::setColours(const Paint& plain, const Paint& apparent) {
    if (plain == m_plain && apparent == m_apparent) {
        return;
    }
    m_plain = plain;
    m_apparent = apparent;
    m_lightLines.assign(1, wantsLightLine(plain.ground));
    for (const QRgb colour : plain.rows) {
        m_lightLines.push_back(wantsLightLine(colour));
    }
    for (SizeClass& size : m_sizes) {
        std::ranges::for_each(size.under, [](auto& plane) { plane.clear(); });
    }
    forgetPictures();
}

void Sprites::setMarks(const std::vector<Mark>& marks) {
    if (marks != m_marks) {
        m_marks = marks;
        forgetPictures();
    }
}

void Sprites::forgetPictures() {
    for (SizeClass& size : m_sizes) {
        size.pictures.clear();
    }
}

void Sprites::forgetReliefs() {
    m_sizes = {};
}

Sprites::SizeClass& Sprites::sizeClass(bool wide, bool tall) {
    SizeClass& size = m_sizes[(wide ? 1U : 0U) + (tall ? 2U : 0U)];
    if (size.pictures.empty()) {
        size.width = m_look.size + (wide ? 1 : 0);
        size.height = m_look.size + (tall ? 1 : 0);
        size.pictures.resize(kVariants * (m_plain.rows.size() + 1));
    }
    return size;
}

const QRgb* Sprites::picture(chart::KeyIndex row, int variant, bool wide, bool tall) {
    SizeClass& size = sizeClass(wide, tall);
    const bool varies = m_look.kind == CellLook::Kind::Stitched && row != chart::kBare;
    const std::size_t number =
        kVariants * static_cast<std::size_t>(static_cast<chart::KeyIndex>(row + 1)) +
        (varies ? static_cast<std::size_t>(variant) : 0);
    std::unique_ptr<QRgb[]>& picture = size.pictures[number];
    if (!picture) {
        picture = std::make_unique_for_overwrite<QRgb[]>(static_cast<std::size_t>(size.width) *
                                                         static_cast<std::size_t>(size.height));
        make(size, row, variant, picture.get());
        rule(size, row, picture.get());
    }
    return picture.get();
}

const QRgb* Sprites::margin(bool wide, bool tall) {
    SizeClass& size = sizeClass(wide, tall);
    std::unique_ptr<QRgb[]>& picture = size.pictures[1]; // the ground has no variants of its own
    if (!picture) {
        picture = std::make_unique_for_overwrite<QRgb[]>(static_cast<std::size_t>(size.width) *
                                                         static_cast<std::size_t>(size.height));
        make(size, chart::kBare, 0, picture.get());
    }
    return picture.get();
}

bool Sprites::hasLightLines(chart::KeyIndex row) const {
    return m_lightLines[static_cast<chart::KeyIndex>(row + 1)];
}

QRgb Sprites::plainOf(chart::KeyIndex row) const {
    return row == chart::kBare ? m_plain.ground : m_plain.rows[row];
}

void Sprites::make(SizeClass& size, chart::KeyIndex row, int variant, QRgb* out) {
    const std::ptrdiff_t pixels = static_cast<std::ptrdiff_t>(size.width) * size.height;
    if (m_look.kind == CellLook::Kind::Stitched) {
        if (size.cloth.shade.empty()) {
            size.cloth = clothRelief(size.width, size.height);
        }
        row == chart::kBare ? paintCloth(size, out) : paintStitched(size, row, variant, out);
    } else {
        std::fill(out, out + pixels, plainOf(row));
        if (m_look.kind == CellLook::Kind::Marked && row < m_marks.size() &&
            m_look.size >= kLeastMarked) {
            paintMarked(size, row, out);
        }
    }
}

void Sprites::rule(const SizeClass& size, chart::KeyIndex row, QRgb* out) const {
    if (m_look.hairline > 0) {
        const bool light = hasLightLines(row);
        for (int x = 0; x < size.width; ++x) {
            out[x] = lined(out[x], light, m_look.hairline);
        }
        for (int y = 1; y < size.height; ++y) {
            out[y * size.width] = lined(out[y * size.width], light, m_look.hairline);
        }
    }
}

void Sprites::paintMarked(const SizeClass& size, chart::KeyIndex row, QRgb* out) const {
    QImage image(reinterpret_cast<uchar*>(out), size.width, size.height,
                 size.width * static_cast<int>(sizeof(QRgb)), QImage::Format_RGB32);
    QPainter painter(&image);
    const QRectF cell((size.width - m_look.size) / 2.0, (size.height - m_look.size) / 2.0,
                      m_look.size, m_look.size);
    paintMark(painter, m_marks[row], cell, inkOn(plainOf(row)));
}

const std::vector<Light>& Sprites::under(SizeClass& size, int variant) const {
    const auto number = static_cast<std::size_t>(variant);
    if (!size.crosses[number]) {
        size.crosses[number] = std::make_unique<CrossRelief>(
            crossRelief(size.width, size.height, m_look.coverage, variant));
    }
    if (size.under[number].empty()) {
        const CrossRelief& cross = *size.crosses[number];
        const Light ground = lightTables().light(m_plain.ground);
        const Lighting lighting = lightingOf(ground, size.cloth.brightest, kClothLoss);
        size.under[number].reserve(cross.size());
        for (std::size_t i = 0; i < cross.size(); ++i) {
            size.under[number].push_back(
                ((1 - cross.cover[i]) * cross.shadow[i] * lighting.of(size.cloth.shade[i])) *
                ground);
        }
    }
    return size.under[number];
}

void Sprites::paintStitched(SizeClass& size, chart::KeyIndex row, int variant, QRgb* out) const {
    const LightTables& tables = lightTables();
    const std::vector<Light>& cloth = under(size, variant);
    const CrossRelief& cross = *size.crosses[static_cast<std::size_t>(variant)];
    const Light thread = m_look.relief * tables.light(m_plain.rows[row]);
    const Lighting lighting =
        lightingOf(tables.light(m_plain.rows[row]), cross.brightest, kThreadLoss);
    const Light flat = (1 - m_look.relief) * tables.light(m_apparent.rows[row]);
    const float sheen = m_look.relief * kSheen;
    for (std::size_t i = 0; i < cross.size(); ++i) {
        const float light = cross.cover[i] * lighting.of(cross.shade[i]);
        const float gloss = cross.cover[i] * sheen * cross.sheen[i];
        out[i] = tables.rgb({light * thread.r + gloss + m_look.relief * cloth[i].r + flat.r,
                             light * thread.g + gloss + m_look.relief * cloth[i].g + flat.g,
                             light * thread.b + gloss + m_look.relief * cloth[i].b + flat.b});
    }
}

void Sprites::paintCloth(const SizeClass& size, QRgb* out) const {
    const LightTables& tables = lightTables();
    const Light ground = tables.light(m_plain.ground);
    const Lighting lighting = lightingOf(ground, size.cloth.brightest, kClothLoss);
    for (std::size_t i = 0; i < size.cloth.shade.size(); ++i) {
        const float light = m_look.relief * lighting.of(size.cloth.shade[i]) + (1 - m_look.relief);
        out[i] = tables.rgb(light * ground);
    }
}

} // namespace otherskein::drawing::detail
