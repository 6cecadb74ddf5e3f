"""Phone photographs, what phone programs do to them, and the ways pictures are stored."""

import io

import numpy as np
from PIL import Image, ImageFilter

from sheet import Sheet, chance_field, noise, perspective


def table(rng, size: tuple[int, int]) -> np.ndarray:
    """Wood, cloth or plain ground to lie on."""
    wide, high = size
    base = np.array([rng.uniform(0.15, 0.75)] * 3, np.float32) * np.array([1, rng.uniform(0.75, 1), rng.uniform(0.5, 1)], np.float32)
    kind = int(rng.integers(3))
    grain = chance_field(rng, size, 40) if kind == 2 else noise(rng, size, 2 if kind == 1 else 5) * 0.5
    if kind == 0:  # planks: the grain runs along
        grain = np.asarray(Image.fromarray(rng.uniform(-1, 1, (high // 3 + 2, max(3, wide // 400))).astype(np.float32)).resize(size, Image.BICUBIC))
    return np.clip(base * (1 + 0.16 * grain[..., None]), 0.02, 1).astype(np.float32)


def photograph(sheet: Sheet, rng, strength: float, degrees: float, tight: bool = False) -> None:
    """Laid on a table and seen from above, a little aside."""
    low, high = (0.01, 0.03) if tight else (0.03, 0.09)
    margins = tuple(int(v * sheet.size[0]) for v in rng.uniform(low, high, 4))
    sheet.lay_on(margins, table(rng, (sheet.size[0] + margins[0] + margins[2], sheet.size[1] + margins[1] + margins[3])))
    perspective(sheet, rng, strength, degrees, tuple(int(255 * v) for v in sheet.pixels[2, 2]))


def uneven_light(sheet: Sheet, rng, strength: float) -> None:
    """Brighter towards a window or lamp, darker in the corners."""
    wide, high = sheet.size
    x, y = np.linspace(-1, 1, wide, dtype=np.float32)[None], np.linspace(-1, 1, high, dtype=np.float32)[:, None]
    angle, middle = rng.uniform(0, 2 * np.pi), rng.uniform(-0.4, 0.4, 2)
    light = 1 + strength * 0.22 * (x * np.cos(angle) + y * np.sin(angle)) - strength * 0.14 * ((x - middle[0]) ** 2 + (y - middle[1]) ** 2)
    sheet.pixels *= (light * rng.uniform(0.8, 0.97))[..., None]


def shadow(sheet: Sheet, rng, strength: float, hard: float) -> None:
    """Of the hand and telephone that hold it: a rounded dark shape from one edge, its rim `hard` pixels at 200 dpi wide."""
    wide, high = sheet.size
    y, x = np.mgrid[0:high:8, 0:wide:8].astype(np.float32)
    angle = rng.uniform(0, 2 * np.pi)
    cx, cy = wide / 2 + 0.75 * wide * np.cos(angle), high / 2 + 0.65 * high * np.sin(angle)
    far = np.arctan2(y - cy, x - cx)
    radius = wide * (rng.uniform(0.5, 0.75) + 0.06 * np.sin(far * rng.uniform(3, 9) + rng.uniform(0, 6)))
    depth = 1 / (1 + np.exp(np.clip((np.hypot(x - cx, y - cy) - radius) / (hard * sheet.dpi / 200), -30, 30)))
    field = np.asarray(Image.fromarray(depth.astype(np.float32)).resize(sheet.size, Image.BICUBIC))
    sheet.pixels *= 1 - strength * field[..., None] * np.array([1, 0.96, 0.9], np.float32)


def gloss(sheet: Sheet, rng, strength: float) -> None:
    """Glossy paper mirrors the lamp: a soft pale patch in which inks fade but can be read."""
    wide, high = sheet.size
    x, y = np.arange(wide, dtype=np.float32)[None], np.arange(high, dtype=np.float32)[:, None]
    cx, cy = rng.uniform(0.2, 0.8) * wide, rng.uniform(0.2, 0.8) * high
    patch = np.exp(-((x - cx) / (rng.uniform(0.12, 0.25) * wide)) ** 2 - ((y - cy) / (rng.uniform(0.08, 0.2) * high)) ** 2)
    sheet.pixels += strength * patch[..., None] * (1.05 - sheet.pixels)


def white_balance(sheet: Sheet, rng, strength: float) -> None:
    warm = rng.uniform(-1, 1) if rng.random() < 0.5 else rng.uniform(0.5, 1)
    gains = 1 + strength * np.array([0.08 * warm, rng.uniform(-0.03, 0.03), -0.18 * warm])
    sheet.pixels *= gains.astype(np.float32)


def sensor(sheet: Sheet, rng, noisy: float, focus: float, sharpen: int) -> None:
    """Blur, noise which is coarser in colour than in light, and the phone's own smoothing and sharpening."""
    sheet.blur(focus)
    sheet.pixels += (noisy * noise(rng, sheet.size, 1.4))[..., None]
    for k in range(3):
        sheet.pixels[..., k] += 0.7 * noisy * noise(rng, sheet.size, 3)
    x = np.clip(sheet.pixels, 0, 1)
    sheet.pixels = x + 0.12 * (x - 0.5) * (1 - np.abs(2 * x - 1))
    if sharpen:
        sheet.take(sheet.image().filter(ImageFilter.UnsharpMask(1.6, sharpen, 2)))


def scanning_program(sheet: Sheet, rng, coloured: bool) -> None:
    """Evens the light by dividing by the paper's brightness around, then pulls white and black apart."""
    small = sheet.image().resize((max(1, sheet.size[0] // 8), max(1, sheet.size[1] // 8)), Image.BILINEAR)
    reach = int(rng.integers(10, 16))
    paper = small.filter(ImageFilter.MaxFilter(9)).filter(ImageFilter.MaxFilter(9)).filter(ImageFilter.BoxBlur(reach)).resize(sheet.size, Image.BICUBIC)
    value = sheet.pixels / np.maximum(np.asarray(paper, np.float32) / 255, 0.15)
    if not coloured:
        value = np.repeat(value.mean(axis=2, keepdims=True), 3, axis=2)
    low, high = (rng.uniform(0.1, 0.2), rng.uniform(0.88, 0.95)) if coloured else (rng.uniform(0.25, 0.35), rng.uniform(0.8, 0.9))
    sheet.pixels = np.clip((value - low) / (high - low), 0, 1).astype(np.float32)
    sheet.take(sheet.image().filter(ImageFilter.UnsharpMask(1.5, 90, 3)))


def recompress(sheet: Sheet, quality: int, longest: int | None = None) -> None:
    """Through JPEG once, as chat programs do when they pass a picture on; made smaller to `longest` pixels."""
    if longest and longest < max(sheet.size):
        sheet.resample(sheet.dpi * longest / max(sheet.size), Image.BILINEAR)
    data = io.BytesIO()
    sheet.image().save(data, "JPEG", quality=quality, subsampling=2)
    sheet.take(Image.open(data))
