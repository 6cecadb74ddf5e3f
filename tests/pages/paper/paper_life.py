"""What happens to the paper itself: age, the back page, folds, crumples, the curl at a spine."""

import numpy as np
from PIL import Image, ImageFilter

from sheet import Field, Sheet, chance_field, noise


def age(sheet: Sheet, rng, strength: float = 1) -> None:
    """Yellowed paper, browner at its edges, with a few foxing spots."""
    wide, high = sheet.size
    x, y = np.linspace(-1, 1, wide)[None], np.linspace(-1, 1, high)[:, None]
    edge = np.maximum(np.abs(x), np.abs(y)) ** rng.uniform(4, 10)
    amount = strength * (0.5 + 0.3 * edge + 0.2 * chance_field(rng, sheet.size, wide / 5))
    sheet.pixels *= 1 - np.clip(amount, 0, 1.2)[..., None] * np.array([0.07, 0.14, 0.33], np.float32) * rng.uniform(0.7, 1.2)
    spots = np.zeros((high, wide), np.float32)
    for _ in range(int(rng.integers(5, 30))):
        cx, cy, r = int(rng.integers(wide)), int(rng.integers(high)), int(rng.uniform(2, 9) * sheet.dpi / 200)
        spots[max(0, cy - r):cy + r, max(0, cx - r):cx + r] = rng.uniform(0.1, 0.35)
    soft = np.asarray(Image.fromarray((spots * 255).astype(np.uint8)).filter(ImageFilter.GaussianBlur(3 * sheet.dpi / 200)), np.float32) / 255
    sheet.pixels *= 1 - soft[..., None] * np.array([0.3, 0.55, 0.8], np.float32)


def show_through(sheet: Sheet, rng, back: np.ndarray, strength: float) -> None:
    """The back page shines through thin paper: mirrored, shifted, soft and pale."""
    behind = Image.fromarray((back[:, ::-1] * 255).astype(np.uint8)).resize(sheet.size, Image.BILINEAR)
    behind = behind.rotate(rng.uniform(-0.7, 0.7), fillcolor=(255, 255, 255))
    soft = np.asarray(behind.filter(ImageFilter.GaussianBlur(2.2 * sheet.dpi / 200)), np.float32) / 255
    soft = np.roll(soft, tuple(int(v) for v in rng.integers(-30, 30, 2)), (0, 1))
    sheet.pixels *= 1 - strength * (1 - soft)


def newsprint(sheet: Sheet, rng) -> None:
    """Grey, fibrous paper into which the ink spreads."""
    sheet.blur(0.9 * sheet.dpi / 300)
    tint = np.array([rng.uniform(0.85, 0.92), rng.uniform(0.83, 0.88), rng.uniform(0.75, 0.84)], np.float32)
    fibres = np.clip(1 + 0.02 * noise(rng, sheet.size, 3) + 0.015 * chance_field(rng, sheet.size, 14), 0, 1.05)
    sheet.pixels = (0.13 + 0.87 * sheet.pixels) * tint * fibres[..., None]


def _crease(sheet: Sheet, rng, across: bool, at: float, strength: float) -> np.ndarray:
    """Multiplies in one fold line, broken where the toner cracked, and gives the signed distance to it in pixels."""
    wide, high = sheet.size
    slant = rng.uniform(-0.004, 0.004)
    y, x = np.mgrid[0:high, 0:wide].astype(np.float32)
    far = (y - at * high + slant * x) if across else (x - at * wide + slant * y)
    unit = sheet.dpi / 200
    dark = np.exp(-((far - 2 * unit) / (2.5 * unit)) ** 2) - 0.7 * np.exp(-((far + 2 * unit) / (2.5 * unit)) ** 2)
    sheet.pixels *= 1 - strength * 0.22 * dark[..., None]
    cracked = (np.abs(far) < unit * 0.9) & (chance_field(rng, sheet.size, 9 * unit) > 0.45)
    sheet.pixels[cracked] = sheet.pixels[cracked] * 0.45 + 0.55 * 0.92
    return far


def fold_in_four(sheet: Sheet, rng, strength: float) -> None:
    """Folded twice and flattened: every quarter leans its own way in the light, and the paper bends a bit at the folds."""
    wide, high = sheet.size
    at_x, at_y = rng.uniform(0.46, 0.54), rng.uniform(0.46, 0.54)
    for across, at in ((True, at_y), (False, at_x)):
        far = _crease(sheet, rng, across, at, strength)
        slope = np.exp(-np.abs(far) / (0.22 * (high if across else wide)))
        sheet.pixels *= (1 + strength * rng.uniform(-0.07, 0.07) * np.sign(far) * slope)[..., None]
    lift_x, lift_y = rng.uniform(1, 4, 2) * strength * sheet.dpi / 200 * rng.choice([-1, 1], 2)

    def back(x, y):
        near_x, near_y = (np.exp(-((a / n - f) / 0.1) ** 2) for a, n, f in ((x, wide, at_x), (y, high, at_y)))
        return x + lift_x * near_y * (x / wide - at_x) * 2, y + lift_y * near_x * (y / high - at_y) * 2
    sheet.warp(back)


def crumple(sheet: Sheet, rng, strength: float) -> None:
    """Once crushed and smoothed again: facets with sharp ridges in the light, a few pixels of bend."""
    wide, high = 160, int(160 * sheet.size[1] / sheet.size[0])
    y, x = np.mgrid[0:high, 0:wide].astype(np.float32)
    height = np.zeros((high, wide), np.float32)
    for _ in range(45):
        angle, cx, cy, reach = rng.uniform(0, np.pi), rng.uniform(0, wide), rng.uniform(0, high), rng.uniform(12, 45)
        far = (x - cx) * np.cos(angle) + (y - cy) * np.sin(angle)
        height += rng.uniform(-1, 1) * np.abs(far) * np.exp(-((x - cx) ** 2 + (y - cy) ** 2) / reach ** 2)
    slope_y, slope_x = np.gradient(height)
    scale = max(1e-6, float(np.percentile(np.hypot(slope_x, slope_y), 97)))
    light = rng.uniform(0, 2 * np.pi)
    shade = Field((slope_x * np.cos(light) + slope_y * np.sin(light)) / scale, sheet.size).spread()
    sheet.pixels *= (1 + 0.11 * strength * np.clip(shade, -1.5, 1.2))[..., None]
    bend = 1.8 * strength * sheet.dpi / 200 / scale
    # Paper bends more softly than light breaks on its ridges.
    coarse = (max(3, wide // 6), max(3, high // 6))
    fields = [Field(np.asarray(Image.fromarray(s).resize(coarse, Image.BOX).resize((wide, high), Image.BICUBIC)) * bend, sheet.size)
              for s in (slope_x, slope_y)]
    sheet.warp(lambda x, y: (x + fields[0](x, y), y + fields[1](x, y)))


def spine_curl(sheet: Sheet, rng, strength: float) -> None:
    """Pressed from a bound book: towards the spine the page lifts, narrows, bends up and darkens."""
    wide, high = sheet.size
    left = bool(rng.random() < 0.5)
    length, squeeze, rise = rng.uniform(0.1, 0.18) * wide, strength * rng.uniform(0.012, 0.03) * wide, strength * rng.uniform(-0.012, 0.012) * high

    def near(x):
        return np.exp(-np.maximum(0, x if left else wide - x) / length)

    def back(x, y):
        n = near(x)
        return x + (-squeeze if left else squeeze) * (n - np.exp(-1 * wide / length)) * 0.9, y + rise * n * (0.4 + y / high)
    sheet.warp(back, (90, 85, 80))
    sheet.pixels *= (1 - 0.45 * strength * near(np.arange(wide, dtype=np.float32)) ** 1.5)[None, :, None]


def slack(sheet: Sheet, rng, pixels: float) -> None:
    """A sheet that does not lie quite flat."""
    bend = pixels * sheet.dpi / 200
    fields = [Field(chance_field(rng, (60, 80), 22) * bend, sheet.size) for _ in range(2)]
    sheet.warp(lambda x, y: (x + fields[0](x, y), y + fields[1](x, y)))


