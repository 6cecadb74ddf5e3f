#include "drawing/detail/sprites.h"

#include <QImage>
#include <QPainter>

#include <algorithm>

namespace otherskein::drawing::detail {

namespace {

/// From here on a mark can be read.
constexpr int kLeastMarked = 8;
/// Many frames' worth; on linen a row has up to 256 different pictures of a size.
constexpr std::size_t kMostPictureBytes = 96U << 20U;

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
    if (m_bytes > kMostPictureBytes) {
        forgetPictures();
    }
    if (look == m_look) {
        return;
    }
    if (look.size != m_look.size || look.coverage != m_look.coverage ||
        look.cloth != m_look.cloth) {
        forgetReliefs();
    }
    m_look = look;
    forgetPictures();
}

void Sprites::setColours(const Paint& plain, const Paint& apparent) {
    if (plain == m_plain && apparent == m_apparent) {
        return;
    }
    if (plain.cover != m_plain.cover) {
        forgetReliefs(); // else those of coverages long past would gather
    }
    m_plain = plain;
    m_apparent = apparent;
    m_lightLines.assign(1, wantsLightLine(plain.ground));
    for (const QRgb colour : plain.rows) {
        m_lightLines.push_back(wantsLightLine(colour));
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
    m_bytes = 0;
}

void Sprites::forgetReliefs() {
    m_sizes = {};
    m_bytes = 0;
}

Sprites::SizeClass& Sprites::sizeClass(bool wide, bool tall) {
    SizeClass& size = m_sizes[(wide ? 1U : 0U) + (tall ? 2U : 0U)];
    if (size.pictures.empty()) {
        size.width = m_look.size + (wide ? 1 : 0);
        size.height = m_look.size + (tall ? 1 : 0);
        size.pictures.resize(m_plain.rows.size() + 1);
    }
    return size;
}

int Sprites::repeat() const {
    return m_look.kind == CellLook::Kind::Stitched ? repeatOf(m_look.cloth) : 1;
}

Sprites::Picture& Sprites::slot(SizeClass& size, std::size_t row, int variants, int variant,
                                int place) {
    std::vector<Picture>& all = size.pictures[row];
    if (all.empty()) {
        all.resize(static_cast<std::size_t>(variants) *
                   static_cast<std::size_t>(repeat() * repeat()));
    }
    return all[static_cast<std::size_t>(place * variants + variant)];
}

Sprites::Picture Sprites::blank(const SizeClass& size) {
    const auto pixels =
        static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height);
    m_bytes += pixels * sizeof(QRgb);
    return std::make_unique_for_overwrite<QRgb[]>(pixels);
}

const QRgb* Sprites::picture(chart::KeyIndex row, int variant, int place, bool wide, bool tall) {
    SizeClass& size = sizeClass(wide, tall);
    const bool isStitch = m_look.kind == CellLook::Kind::Stitched && row != chart::kBare;
    // The ground has a picture with hairlines and, for the margin, one without.
    const int variants = isStitch ? kVariants : row == chart::kBare ? 2 : 1;
    Picture& picture =
        slot(size, static_cast<chart::KeyIndex>(row + 1), variants, isStitch ? variant : 0, place);
    if (!picture) {
        picture = blank(size);
        make(size, row, variant, place, picture.get());
        rule(size, row, picture.get());
    }
    return picture.get();
}

const QRgb* Sprites::margin(int place, bool wide, bool tall) {
    SizeClass& size = sizeClass(wide, tall);
    Picture& picture = slot(size, 0, 2, 1, place);
    if (!picture) {
        picture = blank(size);
        make(size, chart::kBare, 0, place, picture.get());
    }
    return picture.get();
}

bool Sprites::hasLightLines(chart::KeyIndex row) const {
    return m_lightLines[static_cast<chart::KeyIndex>(row + 1)];
}

QRgb Sprites::plainOf(chart::KeyIndex row) const {
    return row == chart::kBare ? m_plain.ground : m_plain.rows[row];
}

void Sprites::make(SizeClass& size, chart::KeyIndex row, int variant, int place, QRgb* out) const {
    const std::ptrdiff_t pixels = static_cast<std::ptrdiff_t>(size.width) * size.height;
    if (m_look.kind == CellLook::Kind::Stitched) {
        const ClothRelief& cloth = clothAt(size, place);
        row == chart::kBare ? paintCloth(cloth, out)
                            : paintStitched(crossOf(size, row, variant), cloth, row, out);
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

const ClothRelief& Sprites::clothAt(SizeClass& size, int place) const {
    const auto number = static_cast<std::size_t>(place);
    if (size.cloths.empty()) {
        size.cloths.resize(static_cast<std::size_t>(repeat() * repeat()));
    }
    if (!size.cloths[number]) {
        size.cloths[number] = keptCloth(size.width, size.height, m_look.cloth, place);
    }
    return *size.cloths[number];
}

const CrossRelief& Sprites::crossOf(SizeClass& size, chart::KeyIndex row, int variant) const {
    const float coverage =
        m_plain.cover.empty() ? static_cast<float>(m_look.coverage) : m_plain.cover[row];
    auto found = std::ranges::find(size.crosses, coverage, &Crosses::coverage);
    if (found == size.crosses.end()) {
        size.crosses.push_back({coverage, {}});
        found = size.crosses.end() - 1;
    }
    auto& cross = found->variants[static_cast<std::size_t>(variant)];
    if (!cross) {
        cross = keptCross(
            {size.width, size.height, m_look.size, static_cast<double>(coverage), variant});
    }
    return *cross;
}

void Sprites::paintStitched(const CrossRelief& cross, const ClothRelief& cloth, chart::KeyIndex row,
                            QRgb* out) const {
    const LightTables& tables = lightTables();
    const Light colour = tables.light(m_plain.rows[row]);
    const Light thread = m_look.relief * colour;
    const Lighting onThread = lightingOf(colour, cross.brightest, kThreadLoss);
    const Light ground = tables.light(m_plain.ground);
    const Lighting onCloth = lightingOf(ground, cloth.brightest, kClothLoss);
    const Light flat = (1 - m_look.relief) * tables.light(m_apparent.rows[row]);
    const float sheen = m_look.relief * kSheen;
    for (std::size_t i = 0; i < cross.size(); ++i) {
        const float cover = cross.cover[i];
        const float light = cover * onThread.of(cross.shade[i]);
        const float under =
            m_look.relief * (1 - cover) * cross.shadow[i] * onCloth.of(cloth.shade[i]);
        const float even = cover * sheen * cross.sheen[i];
        out[i] = tables.rgb({light * thread.r + under * ground.r + even + flat.r,
                             light * thread.g + under * ground.g + even + flat.g,
                             light * thread.b + under * ground.b + even + flat.b});
    }
}

void Sprites::paintCloth(const ClothRelief& cloth, QRgb* out) const {
    const LightTables& tables = lightTables();
    const Light ground = tables.light(m_plain.ground);
    const Lighting lighting = lightingOf(ground, cloth.brightest, kClothLoss);
    for (std::size_t i = 0; i < cloth.shade.size(); ++i) {
        const float light = m_look.relief * lighting.of(cloth.shade[i]) + (1 - m_look.relief);
        out[i] = tables.rgb(light * ground);
    }
}

} // namespace otherskein::drawing::detail
