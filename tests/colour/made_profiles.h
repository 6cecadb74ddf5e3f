#pragma once

#include <QByteArray>

#include <lcms2.h>

#include <array>
#include <stdexcept>

namespace otherskein::colour::samples {

struct RgbSpace {
    const char* name;
    cmsCIExyYTRIPLE primaries;
    cmsCIExyY white;
    double gamma; ///< 0: the curve of IEC 61966-2-1
};

inline constexpr cmsCIExyY kD65{0.3127, 0.3290, 1}; // as all three standards print it

/// IEC 61966-2-1: the primaries of ITU-R BT.709.
inline RgbSpace srgb() {
    return {"sRGB", {{0.64, 0.33, 1}, {0.30, 0.60, 1}, {0.15, 0.06, 1}}, kD65, 0};
}

/// Adobe RGB (1998) Color Image Encoding, version 2005-05, sections 4.3.1 and 4.3.4: primaries,
/// white, gamma 2 + 51/256. From memory.
inline RgbSpace adobeRgb() {
    return {
        "Adobe RGB (1998)", {{0.64, 0.33, 1}, {0.21, 0.71, 1}, {0.15, 0.06, 1}}, kD65, 2.19921875};
}

/// Primaries of SMPTE RP 431-2 (P3) with the white and the curve of sRGB. From memory.
inline RgbSpace displayP3() {
    return {"P3, D65", {{0.680, 0.320, 1}, {0.265, 0.690, 1}, {0.150, 0.060, 1}}, kD65, 0};
}

inline QByteArray savedAndClosed(cmsHPROFILE profile) {
    cmsUInt32Number bytes = 0;
    if (profile == nullptr || cmsSaveProfileToMem(profile, nullptr, &bytes) == 0) {
        throw std::runtime_error("littleCMS could not make a profile");
    }
    QByteArray saved(static_cast<qsizetype>(bytes), '\0');
    cmsSaveProfileToMem(profile, saved.data(), &bytes);
    cmsCloseProfile(profile);
    return saved;
}

inline cmsToneCurve* curveOf(double gamma) {
    constexpr int kSrgbKind = 4; // littleCMS's number for the curve with a straight start
    const std::array<cmsFloat64Number, 5> srgbCurve{2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92,
                                                    0.04045};
    return gamma > 0 ? cmsBuildGamma(nullptr, gamma)
                     : cmsBuildParametricToneCurve(nullptr, kSrgbKind, srgbCurve.data());
}

inline QByteArray profileOf(const RgbSpace& space) {
    cmsToneCurve* curve = curveOf(space.gamma);
    const std::array<cmsToneCurve*, 3> curves{curve, curve, curve};
    const QByteArray saved =
        savedAndClosed(cmsCreateRGBProfile(&space.white, &space.primaries, curves.data()));
    cmsFreeToneCurve(curve);
    return saved;
}

inline QByteArray greyProfile(double gamma) {
    cmsToneCurve* curve = curveOf(gamma);
    const QByteArray saved = savedAndClosed(cmsCreateGrayProfile(cmsD50_xyY(), curve));
    cmsFreeToneCurve(curve);
    return saved;
}

} // namespace otherskein::colour::samples
