#include "colour/profile.h"

#include "base/input_error.h"

#include <QtEndian>

#include <lcms2.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <stdexcept>

namespace otherskein::colour {

namespace {

struct CloseProfile {
    void operator()(void* profile) const { cmsCloseProfile(profile); }
};
struct DeleteTransform {
    void operator()(void* transform) const { cmsDeleteTransform(transform); }
};
using Profile = std::unique_ptr<void, CloseProfile>;
using Transform = std::unique_ptr<void, DeleteTransform>;

[[noreturn]] void refuse(const QString& source, const QString& found) {
    throw base::InputError({source,
                            std::nullopt,
                            {},
                            QStringLiteral("a colour profile for RGB or grey pictures, or none"),
                            found});
}

Profile opened(const QByteArray& bytes, const QString& source) {
    constexpr qsizetype kHeaderBytes = 128;
    // The header begins with the profile's size. littleCMS would read a part of one.
    const bool isWhole =
        bytes.size() >= kHeaderBytes && qFromBigEndian<quint32>(bytes.constData()) <= bytes.size();
    Profile profile(isWhole ? cmsOpenProfileFromMem(bytes.constData(),
                                                    static_cast<cmsUInt32Number>(bytes.size()))
                            : nullptr);
    if (!profile) {
        refuse(source, QStringLiteral("a damaged one"));
    }
    const cmsProfileClassSignature use = cmsGetDeviceClass(profile.get());
    const bool isOfDevice = use == cmsSigInputClass || use == cmsSigDisplayClass ||
                            use == cmsSigOutputClass || use == cmsSigColorSpaceClass;
    const cmsColorSpaceSignature space = cmsGetColorSpace(profile.get());
    if (!isOfDevice || (space != cmsSigRgbData && space != cmsSigGrayData)) {
        refuse(source, QStringLiteral("one for something else"));
    }
    return profile;
}

Transform toSrgb(const Profile& from, bool isGrey, const QString& source) {
    const Profile srgb(cmsCreate_sRGBProfile());
    if (!srgb) {
        throw std::runtime_error("littleCMS could not make its sRGB profile");
    }
    Transform transform(cmsCreateTransform(from.get(), isGrey ? TYPE_GRAY_DBL : TYPE_RGB_DBL,
                                           srgb.get(), TYPE_RGB_DBL, INTENT_RELATIVE_COLORIMETRIC,
                                           cmsFLAGS_NOOPTIMIZE));
    if (!transform) {
        refuse(source, QStringLiteral("a damaged one"));
    }
    return transform;
}

std::uint8_t toByte(double component) {
    return static_cast<std::uint8_t>(std::lround(std::clamp(component, 0.0, 1.0) * 255));
}

} // namespace

std::vector<Srgb8> srgbThrough(const QByteArray& iccProfile, std::span<const ProfileRgb> colours,
                               const QString& source) {
    constexpr double kMost16 = 65535;
    const Profile from = opened(iccProfile, source);
    const bool isGrey = cmsGetColorSpace(from.get()) == cmsSigGrayData;
    if (isGrey && !std::ranges::all_of(colours, [](const ProfileRgb& colour) {
            return colour.r == colour.g && colour.g == colour.b;
        })) {
        refuse(source, QStringLiteral("one for grey in a picture in colour"));
    }
    const Transform transform = toSrgb(from, isGrey, source);
    std::vector<Srgb8> out;
    out.reserve(colours.size());
    for (const ProfileRgb& colour : colours) {
        const std::array<double, 3> in{colour.r / kMost16, colour.g / kMost16, colour.b / kMost16};
        std::array<double, 3> rgb{};
        cmsDoTransform(transform.get(), in.data(), rgb.data(), 1);
        if (!std::ranges::all_of(rgb, [](double one) { return std::isfinite(one); })) {
            refuse(source, QStringLiteral("one whose curves give no number"));
        }
        out.push_back({toByte(rgb[0]), toByte(rgb[1]), toByte(rgb[2])});
    }
    return out;
}

} // namespace otherskein::colour
