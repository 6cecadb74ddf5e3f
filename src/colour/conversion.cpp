#include "colour/conversion.h"

#include <lcms2.h>

#include <algorithm>
#include <array>
#include <cassert>
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

/// The transforms of one thread of execution: littleCMS keeps a one-pixel cache inside each.
class Transforms {
  public:
    Transforms() {
        const Profile srgb(cmsCreate_sRGBProfile());
        const Profile lab(cmsCreateLab4Profile(nullptr));
        if (!srgb || !lab) {
            throw std::runtime_error("littleCMS could not make its sRGB and Lab profiles");
        }
        const auto make = [](const Profile& from, cmsUInt32Number fromType, const Profile& to,
                             cmsUInt32Number toType) {
            Transform transform(cmsCreateTransform(from.get(), fromType, to.get(), toType,
                                                   INTENT_RELATIVE_COLORIMETRIC,
                                                   cmsFLAGS_NOOPTIMIZE));
            if (!transform) {
                throw std::runtime_error("littleCMS could not make a colour transform");
            }
            return transform;
        };
        m_toLab = make(srgb, TYPE_RGB_DBL, lab, TYPE_Lab_DBL);
        m_toSrgb = make(lab, TYPE_Lab_DBL, srgb, TYPE_RGB_DBL);
    }

    [[nodiscard]] Lab toLab(const std::array<double, 3>& rgb) const {
        cmsCIELab lab;
        cmsDoTransform(m_toLab.get(), rgb.data(), &lab, 1);
        // White comes out a hair over 100; the rest of the program counts on 0..100.
        return {std::clamp(lab.L, 0.0, 100.0), lab.a, lab.b};
    }

    [[nodiscard]] std::array<double, 3> toSrgb(const Lab& lab) const {
        const cmsCIELab in{lab.L, lab.a, lab.b};
        std::array<double, 3> rgb{};
        cmsDoTransform(m_toSrgb.get(), &in, rgb.data(), 1);
        return rgb;
    }

  private:
    Transform m_toLab;
    Transform m_toSrgb;
};

const Transforms& transforms() {
    thread_local const Transforms perThread;
    return perThread;
}

} // namespace

Lab labFromSrgb(const Srgb8& srgb) {
    return labFromSrgb(srgb.r / 255.0, srgb.g / 255.0, srgb.b / 255.0);
}

void labFromSrgb(std::span<const Srgb8> srgb, std::span<Lab> out) {
    assert(srgb.size() == out.size());
    std::ranges::transform(srgb, out.begin(), [](const Srgb8& one) { return labFromSrgb(one); });
}

Lab labFromSrgb(double red, double green, double blue) {
    return transforms().toLab({red, green, blue});
}

Srgb8 srgbFromLab(const Lab& lab) {
    const auto rgb = transforms().toSrgb(lab);
    const auto toByte = [](double component) {
        return static_cast<std::uint8_t>(std::lround(std::clamp(component, 0.0, 1.0) * 255.0));
    };
    return {toByte(rgb[0]), toByte(rgb[1]), toByte(rgb[2])};
}

bool isInsideSrgb(const Lab& lab) {
    constexpr double kHalfStep = 0.5 / 255.0;
    return std::ranges::all_of(transforms().toSrgb(lab), [](double component) {
        return component >= -kHalfStep && component <= 1.0 + kHalfStep;
    });
}

Xyz xyzFromLab(const Lab& lab) {
    const cmsCIELab in{lab.L, lab.a, lab.b};
    cmsCIEXYZ xyz;
    cmsLab2XYZ(nullptr, &xyz, &in); // null: the D50 white of the connection space
    return {xyz.X, xyz.Y, xyz.Z};
}

Lab labFromXyz(const Xyz& xyz) {
    const cmsCIEXYZ in{xyz.X, xyz.Y, xyz.Z};
    cmsCIELab lab;
    cmsXYZ2Lab(nullptr, &lab, &in);
    return {lab.L, lab.a, lab.b};
}

} // namespace otherskein::colour
