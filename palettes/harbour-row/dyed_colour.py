# SPDX-License-Identifier: MIT
"""Colour for the invented threads: what dyed fibre can reach, and the little CIELAB that needs.

All colours are CIELAB, D50, 2° observer. The shape of the gamut is from memory of dyed textiles: it has
no source, was fitted to no shade card, and is here only so that the demo does not look like an evenly
spread sRGB cube. Yellow peaks light and strong, red and violet dark, turquoise weak; deep shades lose
chroma, pale ones fade towards a slightly warm white, and the hue drifts along a ramp.
"""

from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

# Per hue angle: the lightness at which a dye is strongest, the chroma there, and the drift of hue in
# degrees over 50 L* towards pale (a yellow that darkens goes orange, a pink that pales goes bluish).
PEAKS = [
    (5, 46, 60, 3),
    (28, 42, 61, -10),
    (45, 54, 72, 6),
    (60, 65, 80, 12),
    (75, 75, 86, 12),
    (90, 83, 92, 12),
    (112, 70, 66, 2),
    (135, 58, 56, -3),
    (155, 50, 50, -5),
    (180, 50, 44, -5),
    (205, 54, 40, -6),
    (240, 45, 42, -2),
    (275, 36, 49, 6),
    (308, 35, 46, 4),
    (330, 42, 52, 3),
    (345, 48, 58, 3),
]
BLACK_L = 11.0  # a little below the deepest black that fibre takes
WHITE_L = 96.0  # a little above the cleanest bleached white
WARM_WHITE = (0.3, 2.6)  # a*, b* of the undyed fibre that shows through a pale tint


def peak(hue):
    """Lightness, chroma and drift of the strongest dye at this hue, straight lines between PEAKS."""
    ring = [(PEAKS[-1][0] - 360, *PEAKS[-1][1:]), *PEAKS, (PEAKS[0][0] + 360, *PEAKS[0][1:])]
    for low, high in zip(ring, ring[1:]):
        if low[0] <= hue <= high[0]:
            t = (hue - low[0]) / (high[0] - low[0])
            return tuple(p + t * (q - p) for p, q in zip(low[1:], high[1:]))
    raise ValueError(f"hue {hue} is not an angle from 0 to 360")


def reach(hue, lightness):
    """The highest chroma that dyed fibre reaches at this hue and lightness."""
    peak_l, peak_c, _ = peak(hue)
    if lightness <= peak_l:
        share = (lightness - BLACK_L) / (peak_l - BLACK_L)
        return peak_c * max(share, 0.0) ** 0.72
    return peak_c * max((WHITE_L - lightness) / (WHITE_L - peak_l), 0.0) ** 0.85


def dyed(hue, strength, lightness):
    """One shade of a ramp, before the cast of the fibre and the chance of the dye bath."""
    peak_l, _, drift = peak(hue)
    angle = radians(hue + drift * (lightness - peak_l) / 50)
    chroma = strength * reach(hue, lightness)
    undyed = min(max((lightness - 72) / 22, 0.0), 1.0) ** 1.5
    return (
        lightness,
        chroma * cos(angle) + undyed * WARM_WHITE[0],
        chroma * sin(angle) + undyed * WARM_WHITE[1],
    )


def delta_e00(one, two):
    """CIEDE2000, kL:kC:kH = 1:1:1. Only keeps shades of a card apart; the project's own, tested, is in src/colour."""
    (l1, a1, b1), (l2, a2, b2) = one, two
    c7 = ((hypot(a1, b1) + hypot(a2, b2)) / 2) ** 7
    g = 0.5 * (1 - sqrt(c7 / (c7 + 25**7)))
    c1, c2 = hypot((1 + g) * a1, b1), hypot((1 + g) * a2, b2)
    h1 = degrees(atan2(b1, (1 + g) * a1)) % 360
    h2 = degrees(atan2(b2, (1 + g) * a2)) % 360
    dh = (h2 - h1 + 180) % 360 - 180 if c1 * c2 else 0.0
    mean_h = (h1 + dh / 2) % 360 if c1 * c2 else h1 + h2
    mean_l, mean_c = (l1 + l2) / 2, (c1 + c2) / 2
    t = (
        1
        - 0.17 * cos(radians(mean_h - 30))
        + 0.24 * cos(radians(2 * mean_h))
        + 0.32 * cos(radians(3 * mean_h + 6))
        - 0.20 * cos(radians(4 * mean_h - 63))
    )
    s_l = 1 + 0.015 * (mean_l - 50) ** 2 / sqrt(20 + (mean_l - 50) ** 2)
    s_c, s_h = 1 + 0.045 * mean_c, 1 + 0.015 * mean_c * t
    turn = radians(60 * exp(-(((mean_h - 275) / 25) ** 2)))
    r_t = -2 * sqrt(mean_c**7 / (mean_c**7 + 25**7)) * sin(turn)
    d_l, d_c = (l2 - l1) / s_l, (c2 - c1) / s_c
    d_h = 2 * sqrt(c1 * c2) * sin(radians(dh) / 2) / s_h
    return sqrt(max(d_l**2 + d_c**2 + d_h**2 + r_t * d_c * d_h, 0.0))


# CIE XYZ (D50) to linear sRGB with the Bradford adaptation to D65 folded in, and the D50 white it was
# made for; common values, seven decimals.
D50 = (0.96422, 1.0, 0.82521)
XYZ_TO_LINEAR_SRGB = (
    (3.1338561, -1.6168667, -0.4906146),
    (-0.9787684, 1.9161415, 0.0334540),
    (0.0719453, -0.2289914, 1.4052427),
)


def linear_srgb(lab):
    """Linear sRGB; below 0 or above 1 where a screen cannot show the thread."""
    lightness, a, b = lab
    fy = (lightness + 16) / 116
    xyz = []
    for f, white in zip((fy + a / 500, fy, fy - b / 200), D50):
        xyz.append(white * (f**3 if f > 6 / 29 else 3 * (6 / 29) ** 2 * (f - 4 / 29)))
    return [sum(m * v for m, v in zip(row, xyz)) for row in XYZ_TO_LINEAR_SRGB]


def hex_srgb(lab):
    """The nearest 8-bit sRGB, `#rrggbb`; channels outside the screen's gamut are clipped."""
    levels = []
    for light in linear_srgb(lab):
        light = min(max(light, 0.0), 1.0)
        level = 12.92 * light if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055
        levels.append(round(255 * level))
    return "#{:02x}{:02x}{:02x}".format(*levels)
